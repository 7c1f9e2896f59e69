import { modelOf, normal, student, type Model } from "../engine/models";
import type { Spread } from "../../src/engine/spread";

/** An input of a published example: limits about a nominal value, or a standard uncertainty, perhaps of few readings. */
export interface PublishedInput {
  readonly nominal: number;
  readonly half?: number;
  readonly u?: number;
  readonly degrees?: number;
}

export interface PublishedExample {
  readonly inputs: Readonly<Record<string, PublishedInput>>;
  /** Definitions between the inputs and the formula. */
  readonly lines?: readonly string[];
  readonly formula: string;
}

/** The example as a note, on plain numbers. */
export function modelOfExample({ inputs, lines = [], formula }: PublishedExample): Model {
  const spreads: Record<string, Spread> = {};
  const given = Object.entries(inputs).map(([name, { nominal, half, u, degrees }]) => {
    if (u !== undefined) spreads[name] = degrees === undefined ? normal(u) : student(u, degrees);
    return `assume ${name} = ${nominal} ± ${half ?? 3 * u!}`;
  });
  return modelOf([...given, ...lines, `result = ${formula}`], spreads);
}
