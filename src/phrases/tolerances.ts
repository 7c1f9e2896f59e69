import { definedName } from "../engine/entry";
import type { Extent, QuantityOutcome } from "../engine/outcome";
import type { Row } from "../engine/snapshot";
import { showApart, showNumber, unitToShow } from "../quantity/display";
import { narrowerCodes } from "../quantity/letterCode";
import { Form, Kind, NONE, Notation, type Node } from "../syntax/tree";
import { shift, type Span } from "../text/span";

/** A number with limits that a statement says of its name, and how it is written with narrower ones. */
export interface Toleranced {
  readonly row: Row;
  readonly name: string;
  /** What is replaced, in the note. */
  readonly span: Span;
  /** Narrower ones, the widest first: the steps in which parts are sold, or as many as one likes. */
  readonly narrower: readonly Written[] | ((share: number) => Written);
}

/** A way to write limits: what stands in the place of the old text, and what it asks for in words. */
export interface Written {
  readonly text: string;
  /** `± 2 % or better`, `2.9 .. 3.1 V or narrower`. */
  readonly asks: string;
}

/** Tolerances in which parts are sold, in per cent, the widest first (IEC 60062:2016, table 3; from memory). */
const TOLERANCES = [20, 10, 5, 2, 1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01] as const;

/** Digits of a half-width that is worked out. */
const DIGITS = 2;
/** Digits of the ends of limits: all that rounding them inward leaves. */
const END_DIGITS = 12;

/**
 * How the limits of a number that is bought, built or given can be narrowed; undefined of a guess, since no guess comes
 * true by being narrowed, of an operating condition, and of what was read or is written in another form.
 */
export function tolerancedBy(row: Row): Toleranced | undefined {
  const { statement, outcome, start } = row;
  const node = literalOf(row);
  const name = definedName(statement);
  if (node === undefined || name === undefined || outcome.kind !== "quantity" || outcome.values.length !== 1)
    return undefined;
  const { tree } = statement;
  if (tree.kind(node) !== Kind.Literal) return undefined;
  const [extent] = outcome.values;
  const nominal = tree.first(node);
  const half = tree.next(nominal);
  const at = (span: Span, narrower: Toleranced["narrower"]): Toleranced => ({
    row,
    name,
    span: shift(span, start),
    narrower,
  });
  switch (tree.operator(node) as Form) {
    case Form.Exact:
      return tree.operator(nominal) === Notation.LetterCode
        ? at(tree.span(nominal), codesFor(tree.text(nominal)))
        : undefined;
    case Form.PlusMinus:
      return half === NONE
        ? undefined
        : at({ start: tree.end(nominal), end: tree.end(node) }, plusMinus(row, half, extent, outcome));
    case Form.Expanded:
      return at({ start: tree.end(nominal), end: tree.end(half) }, expanded(row, half, tree.next(half)));
    case Form.Range:
    case Form.TypicalRange:
      return at(tree.span(node), limits(extent, outcome, (tree.operator(node) as Form) === Form.TypicalRange));
    default:
      return undefined;
  }
}

/** Tolerances of parts come in steps; others are as they need to be. */
function plusMinus(row: Row, half: Node, { nominal, high }: Extent, of: QuantityOutcome): Toleranced["narrower"] {
  const width = high - nominal;
  if (!isRelative(row, half)) return (share) => orBetter(` ± ${showNumber(downTo(share * width), of.dimension)}`);
  const perCent = (100 * width) / Math.abs(nominal);
  return TOLERANCES.filter((each) => each < perCent).map((each) => orBetter(` ± ${each} %`));
}

/** An expanded uncertainty in its own unit, at the same coverage factor. */
function expanded({ statement: { tree, text } }: Row, half: Node, factor: Node): Toleranced["narrower"] {
  const written = text.slice(tree.start(half), tree.end(half));
  const [, number, unit] = /^([\d._]+(?:e[-+]?\d+)?)(.*)$/is.exec(written) ?? ["", "", ""];
  const stated = Number(number.replaceAll("_", ""));
  if (!(stated > 0)) return [];
  return (share) => {
    const narrower = ` ± ${downTo(share * stated)}${unit}`;
    return { text: narrower, asks: `${narrower.trim()} (k = ${tree.text(factor)}) or better` };
  };
}

/** The codes with the same value and a narrower tolerance. */
function codesFor(code: string): readonly Written[] {
  return narrowerCodes(code).map(({ text, tolerance }) => ({ text, asks: `${text} (± ${tolerance}) or better` }));
}

/** Limits on both sides come nearer to the nominal value by the same share, rounded inward. */
function limits({ low, nominal, high }: Extent, of: QuantityOutcome, hasTypical: boolean): Toleranced["narrower"] {
  const { dimension, point } = of;
  const unit = unitToShow({ low, nominal, high }, dimension, { point, ...(of.unit ? { unit: of.unit } : {}) });
  const number = (x: number) =>
    showApart({ low: x, nominal: x, high: x }, dimension, { point, unit, exactDigits: END_DIGITS }).text;
  const zero = point ? unit.zero : 0;
  return (share) => {
    const step = stepOf((share * Math.max(high - nominal, nominal - low)) / unit.factor) * unit.factor;
    const inward = (x: number, round: (y: number) => number) =>
      zero + (round((x - zero) / step - Math.sign(x - nominal) * ROUNDING) || 0) * step;
    const least = Math.min(nominal, inward(nominal - share * (nominal - low), Math.ceil));
    const greatest = Math.max(nominal, inward(nominal + share * (high - nominal), Math.floor));
    const ends = hasTypical ? [least, nominal, greatest] : [least, greatest];
    const behind = unit.text === "1" ? "" : ` ${unit.text}`;
    const text = `${ends.map(number).join(" .. ")}${behind}`;
    return { text, asks: `${text} or narrower` };
  };
}

/** A quotient that misses a whole number by so little is that number. */
const ROUNDING = 1e-9;

function orBetter(text: string): Written {
  return { text, asks: `${text.trim()} or better` };
}

/** The place of the last digit of a half-width. */
function stepOf(half: number): number {
  return 10 ** (Math.floor(Math.log10(half)) + 1 - DIGITS);
}

/** Down to two digits, so that what is written is no wider than what was tried. */
function downTo(x: number): number {
  const step = stepOf(x);
  return Number((Math.floor(x / step + ROUNDING) * step).toPrecision(DIGITS));
}

function isRelative({ statement: { tree, text } }: Row, half: Node): boolean {
  return text.slice(tree.start(half), tree.end(half)).trimEnd().endsWith("%");
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
