import type { MismatchOperation, Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { RATIO } from "../quantity/dimension";
import { withForgottenUnit } from "../phrases/forgottenUnit";
import { extraCounts, kindText, sideText, type Scope } from "../phrases/side";
import type { Fix } from "../text/fix";
import type { ProblemOf, Site, Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `a + 1 s` where a is a length. */
export const unitMismatch: Wording<"unit.mismatch"> = {
  severity: "error",
  reference:
    "Quantities of different kinds are added, compared or set side by side. Units are never converted into each other's kind: one of the two is not what it is taken for.",
  message: (problem, { row, context }) => sentence(problem, row, context),
  fixes: ({ left, right, operation }, site) =>
    operation.kind === "limits" || operation.kind === "measure"
      ? []
      : [
          ...unitFor(right, left, site),
          ...unitFor(left, right, site),
          ...dropped(left, right, site),
          ...dropped(right, left, site),
        ],
};

function sentence({ operation, left, right }: ProblemOf<"unit.mismatch">, row: Row, scope: Scope): string {
  const [a, b] = [sideText(left, row, scope), sideText(right, row, scope)];
  switch (operation.kind) {
    case "choose": {
      const { statement } = row;
      const isFromList =
        statement.kind === "derived" &&
        statement.choice?.from !== undefined &&
        right.span.start >= statement.tree.start(statement.choice.from);
      return isFromList
        ? `Cannot choose ${a} from a list that holds ${kindText(right)} (${right.text}).`
        : `Cannot choose ${b} where ${a} is wanted.`;
    }
    case "measure":
      return `The measurement is ${b}, but ${left.text} is ${kindText(left)}.`;
    case "pick":
      return `\`${operation.name ?? ""}\` cannot take ${b} beside ${a}.`;
    case "argument":
      return `\`${operation.name ?? ""}\` takes ${kindText(right)}, not ${a}.`;
    default:
      return SENTENCES[operation.kind](a, b);
  }
}

const SENTENCES: Readonly<
  Record<
    Exclude<MismatchOperation["kind"], "choose" | "measure" | "pick" | "argument">,
    (a: string, b: string) => string
  >
> = {
  add: (a, b) => `Cannot add ${b} to ${a}.`,
  subtract: (a, b) => `Cannot subtract ${b} from ${a}.`,
  compare: (a, b) => `Cannot compare ${a} with ${b}.`,
  limits: (a, b) => `The limits of a number are of one kind; these are ${a} and ${b}.`,
  list: (a, b) => `The members of a list are of one kind; these are ${a} and ${b}.`,
  branches: (a, b) => `Both branches are of one kind; these are ${a} and ${b}.`,
  parallel: (a, b) => `Cannot put ${b} in parallel with ${a}.`,
};

/** A bare number whose unit was forgotten. */
function unitFor(side: Side, other: Side, { row, context }: Site<"unit.mismatch">): readonly Fix[] {
  const whole = withForgottenUnit(side, other, context);
  return whole === undefined ? [] : [{ title: `Write ${whole}`, edits: [replaceIn(row, side.span, whole)] }];
}

/** One side counts something that the other does not. */
function dropped(side: Side, other: Side, { row }: Site<"unit.mismatch">): readonly Fix[] {
  const names = extraCounts(side.dimension, other.dimension);
  if (names === undefined || other.dimension === RATIO) return [];
  const text = `(${side.text} without ${names.join(", ")})`;
  return [{ title: `Write ${text}`, edits: [replaceIn(row, side.span, text)] }];
}
