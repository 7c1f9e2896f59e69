import { definedName } from "../engine/entry";
import type { InSlices } from "../engine/slices";
import type { Row } from "../engine/snapshot";
import { showNumber } from "../quantity/display";
import { Form, Kind, NONE, type Node } from "../syntax/tree";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import { shift } from "../text/span";
import { fixWithEffect, type Trial } from "./choosing";
import { restsOn } from "./dependence";

/** Tolerances in which parts are sold, in per cent, the widest first (IEC 60062:2016, table 3; from memory). */
const TOLERANCES = [20, 10, 5, 2, 1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01] as const;

/** Inputs that are tried, the nearest to the rule first: each trial settles the note anew. */
const MOST_TRIED = 12;

/** Halvings by which a tolerance with a unit is found: to a thousandth, of which two digits are written. */
const HALVINGS = 10;
const DIGITS = 2;

/** A number with `±` that a statement says of its name. */
interface Toleranced {
  readonly row: Row;
  readonly name: string;
  /** From behind the nominal value to the end of the literal, in the note. */
  readonly span: { readonly start: number; readonly end: number };
  /** In per cent; else in the unit of the quantity, in coherent SI. */
  readonly isRelative: boolean;
  readonly half: number;
}

/**
 * Narrower tolerances with which a rule holds that fails at the limits, one for each input that is bought or built with
 * one, by itself: `± 2 % or better for R`. Guesses are left out, since no guess comes true by being narrowed. Costly.
 */
export function* narrowForRule(row: Row, trial: Trial, most: number): InSlices<readonly Fix[]> {
  const place = trial.snapshot.rows.indexOf(row);
  const holdsWith = (edit: Edit) =>
    trial.whatIf([edit], ({ rows }) => {
      const { outcome } = rows[place];
      return outcome.kind === "rule" && outcome.state === "holds";
    });
  const own = restsOn(row, trial).filter(({ snapshot }) => snapshot === trial.snapshot);
  const inputs = own.flatMap(({ row: input }) => tolerancedBy(input) ?? []).slice(0, MOST_TRIED);
  const fixes: Fix[] = [];
  for (const input of inputs) {
    if (fixes.length >= most) break;
    const { span, name } = input;
    const text = yield* widestWith(input, (to) => holdsWith({ span, text: to }));
    if (text !== undefined)
      fixes.push(yield* fixWithEffect(`${text.trim()} or better for ${name}`, { span, text }, input.row, trial));
  }
  return fixes;
}

/** The text of the widest tolerance with which the rule holds; undefined where none does. */
function* widestWith(
  { row, isRelative, half }: Toleranced,
  holds: (text: string) => InSlices<boolean>,
): InSlices<string | undefined> {
  if (isRelative) {
    for (const each of TOLERANCES) if (each < half && (yield* holds(` ± ${each} %`))) return ` ± ${each} %`;
    return undefined;
  }
  const { outcome } = row;
  if (outcome.kind !== "quantity") return undefined;
  const textOf = (x: number) => ` ± ${showNumber(downTo(x, DIGITS), outcome.dimension)}`;
  const least = half / 2 ** HALVINGS;
  if (!(yield* holds(textOf(least)))) return undefined;
  let [good, bad] = [least, half];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (yield* holds(textOf(middle))) good = middle;
    else bad = middle;
  }
  return textOf(good);
}

/** Down to so many digits, so that what is written is no wider than what was tried. */
function downTo(x: number, digits: number): number {
  const step = 10 ** (Math.floor(Math.log10(x)) + 1 - digits);
  return Number((Math.floor(x / step + 1e-9) * step).toPrecision(digits));
}

function tolerancedBy(row: Row): Toleranced | undefined {
  const { statement, outcome, start } = row;
  const node = literalOf(row);
  const name = definedName(statement);
  if (node === undefined || name === undefined || outcome.kind !== "quantity" || outcome.values.length !== 1)
    return undefined;
  const { tree, text } = statement;
  if (tree.kind(node) !== Kind.Literal || tree.operator(node) !== Form.PlusMinus) return undefined;
  const nominal = tree.first(node);
  const half = tree.next(nominal);
  if (half === NONE) return undefined;
  const span = shift({ start: tree.end(nominal), end: tree.end(node) }, start);
  const isRelative = text.slice(tree.start(half), tree.end(half)).trimEnd().endsWith("%");
  const [extent] = outcome.values;
  const width = extent.high - extent.nominal;
  return { row, name, span, isRelative, half: isRelative ? (100 * width) / Math.abs(extent.nominal) : width };
}

/** The number that a part or a given quantity is stated by. */
function literalOf({ statement, outcome }: Row): Node | undefined {
  switch (statement.kind) {
    case "given":
    case "choice":
      return statement.value;
    case "assume":
      return outcome.kind === "quantity" && (outcome.isGuess || outcome.assumed) ? undefined : statement.value;
    case "derived":
      return statement.choice ? statement.choice.value : statement.value;
    default:
      return undefined;
  }
}
