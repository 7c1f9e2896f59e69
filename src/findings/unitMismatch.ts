import type { MismatchOperation, Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { RATIO, siUnit, withoutCounts } from "../quantity/dimension";
import { extraCounts, findName, kindText, sideText, type Scope } from "../phrases/side";
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

/** A bare number beside a count, or beside a quantity that states its unit: the unit was forgotten. */
function unitFor(side: Side, other: Side, { row, context }: Site<"unit.mismatch">): readonly Fix[] {
  if (side.dimension !== RATIO || !/^-?[\d._]+$/.test(side.text)) return [];
  const outcome = other.name === undefined ? undefined : findName(other.name, context)?.outcome;
  const stated = outcome?.kind === "quantity" ? outcome.unit?.text : undefined;
  const isCount = withoutCounts(other.dimension, [...other.dimension.counts.keys()]) === RATIO;
  const unit = stated ?? (isCount ? siUnit(other.dimension) : undefined);
  if (unit === undefined || unit.startsWith("1/")) return [];
  return [{ title: `Write ${side.text} ${unit}`, edits: [replaceIn(row, side.span, `${side.text} ${unit}`)] }];
}

/** One side counts something that the other does not. */
function dropped(side: Side, other: Side, { row }: Site<"unit.mismatch">): readonly Fix[] {
  const names = extraCounts(side.dimension, other.dimension);
  if (names === undefined || other.dimension === RATIO) return [];
  const text = `(${side.text} without ${names.join(", ")})`;
  return [{ title: `Write ${text}`, edits: [replaceIn(row, side.span, text)] }];
}
