import assert from "node:assert/strict";
import { rangeOf } from "../engine/ranges";
import published from "./ranges.json";

/** A range, its least value alone, or a value that it must contain. */
interface Case {
  readonly name: string;
  readonly inputs: Readonly<Record<string, readonly number[] | undefined>>;
  readonly expression: string;
  readonly source: string;
  readonly fromMemory: boolean;
  readonly range?: readonly number[];
  readonly least?: number;
  readonly contains?: readonly number[];
  /** Of the printed figures. */
  readonly tolerance: { readonly rel: number; readonly abs?: number };
  /** What the corners of the box give; equal to the range where every input pushes one way. */
  readonly corners?: readonly number[];
}

/** A search may stop at this share of the width. */
const CLOSE = 1e-3;

describe("published figures: known ranges", () => {
  for (const known of published.cases as readonly Case[]) {
    it(`${known.name} (${known.source}${known.fromMemory ? "; from memory" : ""})`, () => {
      const inputs = Object.entries(known.inputs).map(([name, limits]) => `${name} = ${limits!.join(" .. ")}`);
      const found = rangeOf(known.expression, inputs);
      if (known.contains) {
        assert.ok(found.low <= known.contains[0] && found.high >= known.contains[0]);
        return;
      }
      assert.equal(found.kind, "attained");
      const [low, high] = known.range ?? [known.least!, found.high];
      const isAtCorners = known.corners !== undefined && known.corners.every((corner, i) => corner === [low, high][i]);
      const printed = (x: number) => known.tolerance.rel * Math.abs(x) + (known.tolerance.abs ?? 0);
      const room = isAtCorners ? 0 : CLOSE * (high - low);
      assert.ok(found.low <= low + printed(low), `the least is ${low}, not ${found.low}`);
      assert.ok(found.high >= high - printed(high), `the greatest is ${high}, not ${found.high}`);
      assert.ok(found.low >= low - printed(low) - room, `the least is ${low}, not ${found.low}`);
      assert.ok(found.high <= high + printed(high) + room, `the greatest is ${high}, not ${found.high}`);
      assert.ok(found.bestLow >= found.low && found.bestHigh <= found.high);
    });
  }
});
