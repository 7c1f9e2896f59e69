import type { Side } from "../engine/problem";
import { pathBehind } from "../engine/pathBehind";
import type { Row, Snapshot } from "../engine/snapshot";
import { dimensionName, withoutCounts, type Dimension } from "../quantity/dimension";
import { isBuiltInUnit } from "../quantity/unit";
import { valueText } from "./value";

/** The notes in which names are looked up. */
export interface Scope {
  readonly snapshot: Snapshot;
  /** Other notes that are open or used, by path. */
  other(path: string): Snapshot | undefined;
}

/** A side of an operation in words: `a length (a = 2 m)`, `a time (1 s)`. */
export function sideText(side: Side, row: Row, scope: Scope): string {
  const text = operandText(side.text, side.name, row, scope);
  return `${kindText(side)} ${isBracketed(text) ? text : `(${text})`}`;
}

/** Whether the first bracket closes at the end. */
function isBracketed(text: string): boolean {
  return /^\([^()]*\)$/.test(text);
}

/** What a side is, with its article: `a voltage`, `an energy`, `a temperature on a scale`, `a value in A/LED`. */
export function kindText({ dimension, point }: Pick<Side, "dimension" | "point">): string {
  return point ? "a temperature on a scale" : dimensionText(dimension);
}

/** A dimension with its article. */
export function dimensionText(dimension: Dimension): string {
  const name = dimensionName(dimension);
  if (name.startsWith("money")) return name;
  // Where a dimension has no name, its unit stands for it.
  if (!/^[a-z ]+$/.test(name) && !name.startsWith("count of ")) return `a value in ${name}`;
  return withArticle(name);
}

/** `a voltage`, `an energy`. */
export function withArticle(noun: string): string {
  return `${/^[aeiou]/i.test(noun) ? "an" : "a"} ${noun}`;
}

/** An operand as written, and its value where it is a name: `a = 2 m`, `1 s`. */
export function operandText(text: string, name: string | undefined, row: Row, scope: Scope): string {
  const written = shortened(text);
  const value = name === undefined || isParameter(name, row) ? undefined : valueOfName(name, scope);
  return value === undefined ? written : `${written} = ${value}`;
}

/** The value of a name, or of a name in another note (`supply.voltage`), as it is shown; undefined where it has none. */
export function valueOfName(name: string, scope: Scope): string | undefined {
  const outcome = findName(name, scope)?.outcome;
  if (outcome?.kind !== "quantity") return undefined;
  const text = valueText(outcome);
  return text === "" || text.length > LONGEST_TEXT ? undefined : text;
}

/** The statement that defines a name, or a name in another note. */
export function findName(name: string, { snapshot, other }: Scope): Row | undefined {
  const dot = name.indexOf(".");
  if (dot < 0) return snapshot.find(name);
  const path = pathBehind(snapshot, name.slice(0, dot));
  return path === undefined ? undefined : other(path)?.find(name.slice(dot + 1).trim());
}

/** Text of a note inside a sentence: on one line, and cut where it is long. */
export function shortened(text: string): string {
  const line = text
    .replace(/\s*#.*$/gm, "")
    .replace(/\s+/g, " ")
    .trim();
  return line.length <= LONGEST_TEXT ? line : `${line.slice(0, LONGEST_TEXT - 1).trimEnd()}…`;
}

/** Longer texts are not read inside a sentence. */
const LONGEST_TEXT = 60;

/** Whether a name is bound in the statement itself, so that its value is that of no quantity. */
function isParameter(name: string, { statement }: Row): boolean {
  return (
    statement.kind === "function" &&
    statement.parameters.some((parameter) => statement.tree.text(parameter.name) === name)
  );
}

/**
 * What of a dimension is counted but not by the other: `["LED"]` of A·LED beside A; undefined where they differ otherwise.
 * Steradians and currencies are kept apart in the same way, but only what `items` names can be dropped.
 */
export function extraCounts(dimension: Dimension, other: Dimension): readonly string[] | undefined {
  const names = [...dimension.counts.keys()].filter((name) => !other.counts.has(name));
  if (names.length === 0 || names.some(isBuiltInUnit)) return undefined;
  return withoutCounts(dimension, names) === other ? names : undefined;
}
