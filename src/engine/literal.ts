import { RATIO, RESISTANCE, type Dimension } from "../quantity/dimension";
import { readLetterCode } from "../quantity/letterCode";
import { readDecimal, readDifference } from "../quantity/number";
import { isUnit, resolveUnit, type Unit, type UnitTrouble } from "../quantity/unit";
import { Form, Kind, NONE, Notation, type Node, type Tree } from "../syntax/tree";
import { even, normal, student } from "./literalShapes";
import type { EngineProblem, EngineTrouble, Side } from "./problem";
import type { Spread } from "./spread";
import { readings, sample } from "./statistics";

/** A literal in coherent SI: what it is, how far it can be off, and how it was written. */
export interface Literal {
  readonly nominal: number;
  /** Limits of the worst case; −Infinity where no minimum is known. Equal to nominal for an exact number. */
  readonly low: number;
  readonly high: number;
  readonly spread: Spread;
  readonly dimension: Dimension;
  readonly point: boolean;
  readonly unit?: Unit;
  /** A bare `0`, which has every dimension. */
  readonly isZero: boolean;
  /** The place of the last digit that was typed, in SI units; undefined where no decimal was. */
  readonly step?: number;
}

export type LiteralResult = { readonly literal: Literal } | { readonly problem: EngineProblem };

/** Reads a Literal node; where it has no unit at all, in the unit `bare`. What cannot be read gives the problem instead, with its place. */
export function readLiteral(
  text: string,
  tree: Tree,
  node: Node,
  isCounted: (name: string) => boolean,
  bare?: Unit,
): LiteralResult {
  const reader = new Reader(text, tree, isCounted, bare);
  try {
    return { literal: reader.read(node) };
  } catch (error) {
    if (error instanceof Unreadable) return { problem: error.problem };
    throw error;
  }
}

/** Thrown inside this file only, where the first trouble ends the reading of a literal. */
class Unreadable extends Error {
  constructor(readonly problem: EngineProblem) {
    super(problem.code);
  }
}

/** One number of a literal, before it is known which unit serves it. */
interface Member {
  readonly node: Node;
  readonly notation: Notation;
  /** As written, without its unit. */
  readonly text: string;
  readonly unit?: Unit;
  readonly uncertainty?: string;
}

class Reader {
  private isUnitImplied = false;

  constructor(
    private readonly text: string,
    private readonly tree: Tree,
    private readonly isCounted: (name: string) => boolean,
    private readonly bare: Unit | undefined,
  ) {}

  /** A letter code leaves the prefix to the display: `4n7` is shown as 4.7 nF, and `4u7 H` as 4.7 µH. */
  read(node: Node): Literal {
    const literal = this.readForm(node);
    const { nominal, low, high, spread, dimension, point, unit: written, isZero } = literal;
    const unit = this.isUnitImplied ? undefined : written;
    const step = this.isUnitImplied ? undefined : this.step(node, written);
    if (unit === written && step === undefined) return literal;
    // Field by field, as operands are: every literal of a note is made here.
    return { nominal, low, high, spread, dimension, point, unit, isZero, step };
  }

  /** The finest place among its numbers; shares behind `±` are no part of the value, and readings are means of it. */
  private step(node: Node, shared: Unit | undefined): number | undefined {
    const { tree } = this;
    const form = tree.operator(node) as Form;
    if (form === Form.Readings || form === Form.Sample) return undefined;
    let finest = Infinity;
    for (let child = tree.first(node), i = 0; child !== NONE; child = tree.next(child), i++) {
      const text = tree.kind(child) === Kind.Value ? tree.text(child) : "";
      if (text.length < SHORTEST_FINE) continue;
      const unitNode = tree.children(child).find((each) => tree.kind(each) === Kind.Unit);
      const unit = unitNode === undefined ? shared : this.unit(unitNode);
      if (i > 0 && unit && isShare(unit)) continue;
      const decimals = decimalsOf(text);
      if (decimals !== undefined) finest = Math.min(finest, 10 ** -decimals * (unit?.factor ?? 1));
    }
    return finest < Infinity ? finest : undefined;
  }

  private readForm(node: Node): Literal {
    const { tree } = this;
    const form = tree.operator(node) as Form;
    if (form === Form.Exact) return this.exact(this.inBare(this.member(tree.first(node))));
    if (form === Form.Readings || form === Form.Sample) return this.observed(node, form);
    const members = tree.children(node).map((child) => this.member(child));
    const last = [...members]
      .reverse()
      .find((member) => member.unit && !(form === Form.PlusMinus && isShare(member.unit)));
    const shared = last?.unit ?? this.bare;
    switch (form) {
      case Form.PlusMinus:
        return this.plusMinus(node, members[0], members[1], shared);
      case Form.Expanded:
        return this.expanded(node, members, shared);
      default:
        return this.range(node, form, members, shared);
    }
  }

  private inBare(member: Member): Member {
    return member.unit || !this.bare ? member : { ...member, unit: this.bare };
  }

  private exact(member: Member): Literal {
    if (member.notation === Notation.LetterCode) return this.letterCode(member);
    const { unit, uncertainty } = member;
    const nominal = this.point(member, unit);
    if (uncertainty !== undefined)
      return normal(unit, nominal, this.difference({ ...member, text: uncertainty }, unit));
    return even(unit, nominal, nominal, nominal, nominal === 0 && unit === undefined);
  }

  private letterCode(member: Member): Literal {
    const code = readLetterCode(member.text);
    if (!code) return this.fail(member.node, { code: "literal.unreadable", text: member.text, reason: "letter" });
    const nominal = readDecimal(`${code.digits}e${code.exponent}`, member.unit);
    const { low, high } = code.tolerance
      ? { low: nominal * code.tolerance.low, high: nominal * code.tolerance.high }
      : (code.absoluteTolerance ?? { low: 0, high: 0 });
    return even(member.unit, nominal, nominal + low, nominal + high);
  }

  private plusMinus(node: Node, nominal: Member, half: Member, shared: Unit | undefined): Literal {
    const unit = nominal.unit ?? shared;
    const isRelative = half.unit !== undefined && isShare(half.unit) && !isNoShare(nominal, unit);
    if (isRelative) this.refuseShareOf(node, nominal, half, unit);
    const middle = this.numberOf(nominal, unit);
    if (!isRelative) this.sameDimension(nominal, unit, half, half.unit ?? unit);
    const width = isRelative
      ? Math.abs(middle) * this.difference(half, half.unit)
      : this.difference(half, half.unit ?? unit);
    return even(unit, middle, middle - width, middle + width);
  }

  private expanded(node: Node, [nominal, expanded, factor]: Member[], shared: Unit | undefined): Literal {
    const unit = nominal.unit ?? shared;
    const middle = this.numberOf(nominal, unit);
    const k = readDecimal(factor.text, undefined);
    if (!(k > 0)) this.fail(factor.node, { code: "literal.coverage", text: factor.text });
    const isRelative = expanded.unit !== undefined && isShare(expanded.unit) && !isNoShare(nominal, unit);
    if (isRelative) this.refuseShareOf(node, nominal, expanded, unit);
    if (!isRelative) this.sameDimension(nominal, unit, expanded, expanded.unit ?? unit);
    const width = isRelative
      ? Math.abs(middle) * this.difference(expanded, expanded.unit)
      : this.difference(expanded, expanded.unit ?? unit);
    return normal(unit, middle, width / k);
  }

  /** A share of a temperature on a scale has no meaning, and one of a percentage has two. */
  private refuseShareOf(node: Node, nominal: Member, half: Member, unit: Unit | undefined): void {
    if (unit?.isTemperatureScale)
      this.fail(half.node, {
        code: "temperature.relative",
        tolerance: this.written(half.node),
        text: this.written(node),
      });
    if (unit === undefined || !isShare(unit)) return;
    const asPoints = `${this.written(nominal.node)} + (0 ${unit.text} ± ${this.written(half.node)})`;
    const asShare = `${this.written(nominal.node)} * (1 ± ${this.written(half.node)})`;
    this.fail(node, { code: "literal.pointsOrShare", text: this.written(node), asPoints, asShare });
  }

  private range(node: Node, form: Form, members: readonly Member[], shared: Unit | undefined): Literal {
    const unit = shared;
    for (const member of members) this.sameDimension(member, member.unit ?? unit, members[members.length - 1], unit);
    const values = members.map((member) => this.numberOf(member, member.unit ?? unit));
    const high = values[values.length - 1];
    const low = form === Form.NoMinimum ? -Infinity : values[0];
    if (low > high) {
      const [least, greatest] = [members[0], members[members.length - 1]].map(({ node: of }) => this.written(of));
      this.fail(node, { code: "literal.order", low: least, high: greatest, rewritten: this.swapped(members, unit) });
    }
    const isTypical = form === Form.TypicalRange || (form === Form.NoMinimum && values.length === 2);
    const nominal = isTypical ? values[values.length - 2] : form === Form.NoMinimum ? high : (low + high) / 2;
    if (nominal < low || nominal > high) {
      const typical = members[members.length - 2];
      const at = (member: Member) => this.written(member.node);
      this.fail(typical.node, {
        code: "literal.typicalOutside",
        typical: at(typical),
        low: at(members[0]),
        high: at(members[members.length - 1]),
      });
    }
    return even(unit, nominal, low, high);
  }

  /**
   * Readings of one thing, or a sample of different pieces. They are reckoned in the unit in which they are written, so
   * that what they have in common costs no digits; letter codes, which have their own prefixes, in SI units.
   */
  private observed(node: Node, form: Form.Readings | Form.Sample): Literal {
    const { tree } = this;
    const children = tree.children(node);
    const unitNode = children.find((child) => tree.kind(child) === Kind.Unit);
    const members = children.filter((child) => child !== unitNode).map((child) => this.member(child));
    const stated = unitNode === undefined ? this.bare : this.unit(unitNode);
    const odd = members.find(({ uncertainty }) => uncertainty !== undefined);
    if (odd) this.fail(odd.node, { code: "literal.unreadable", text: this.written(odd.node), reason: "uncertain" });
    const isCoded = members.some(({ notation }) => notation === Notation.LetterCode);
    const unit = isCoded ? (stated ?? members[0].unit) : stated;
    const values = members.map((member) => (isCoded ? this.numberOf(member, unit) : this.point(member, undefined)));
    const observed = form === Form.Readings ? readings(values) : sample(values);
    if (values.length < 2)
      this.fail(node, {
        code: "literal.fewReadings",
        word: form === Form.Readings ? "readings" : "sample",
        number: this.written(members[0].node),
        unit: unit?.text,
      });
    if (!Number.isFinite(observed.standardUncertainty))
      this.fail(node, { code: "literal.unreadable", text: this.written(node), reason: "size" });
    return isCoded ? { ...student(undefined, observed), dimension: unit!.dimension, unit } : student(unit, observed);
  }

  /** The ends of a range the other way round, the unit behind the last. */
  private swapped(members: readonly Member[], unit: Unit | undefined): string {
    const numbers = members.map(
      (member) => member.text + (member.unit && member.unit !== unit ? ` ${member.unit.text}` : ""),
    );
    return numbers.reverse().join(" .. ") + (unit ? ` ${unit.text}` : "");
  }

  private numberOf(member: Member, unit: Unit | undefined): number {
    if (member.notation !== Notation.LetterCode) return this.point(member, unit);
    const code = readLetterCode(member.text);
    if (!code) return this.fail(member.node, { code: "literal.unreadable", text: member.text, reason: "letter" });
    return unit && unit.dimension !== RESISTANCE ? readDecimal(`${code.digits}e${code.exponent}`, unit) : code.value;
  }

  private point(member: Member, unit: Unit | undefined): number {
    return this.representable(member, readDecimal(member.text, unit), unit);
  }

  private difference(member: Member, unit: Unit | undefined): number {
    return this.representable(member, readDifference(member.text, unit), undefined);
  }

  /** The value, unless it is beyond the doubles: infinite, or nothing though digits are written. */
  private representable({ node, text }: Member, value: number, unit: Unit | undefined): number {
    const isLost = value === 0 && !unit?.isTemperatureScale && hasDigits(text);
    if (!Number.isFinite(value) || isLost)
      this.fail(node, { code: "literal.unreadable", text: this.written(node), reason: "size" });
    return value;
  }

  private sameDimension(a: Member, unitOfA: Unit | undefined, b: Member, unitOfB: Unit | undefined): void {
    const left = this.side(a, unitOfA);
    const right = this.side(b, unitOfB);
    if (left.dimension !== right.dimension)
      this.fail(a.node, { code: "unit.mismatch", operation: { kind: "limits" }, left, right });
  }

  private side(member: Member, unit: Unit | undefined): Side {
    return {
      text: this.written(member.node),
      dimension: unit?.dimension ?? RATIO,
      point: unit?.isTemperatureScale ?? false,
      span: this.tree.span(member.node),
    };
  }

  private member(node: Node): Member {
    const { tree } = this;
    let unit: Unit | undefined;
    let uncertainty: string | undefined;
    for (let child = tree.first(node); child !== NONE; child = tree.next(child)) {
      if (tree.kind(child) === Kind.Unit) unit = this.unit(child);
      else uncertainty = tree.text(child);
    }
    const notation = tree.operator(node) as Notation;
    if (notation === Notation.LetterCode) {
      this.isUnitImplied = unit === undefined || unit.decimal !== undefined;
      unit ??= this.codeUnit(node);
    }
    return { node, notation, text: tree.text(node), unit, uncertainty };
  }

  /** A letter code brings its own unit, which serves the other members too. */
  private codeUnit(node: Node): Unit | undefined {
    const code = readLetterCode(this.tree.text(node));
    return code && (resolveUnit([{ name: code.unitName, exponent: 1 }], this.isCounted) as Unit);
  }

  private unit(node: Node): Unit {
    const result = unitOf(this.tree, node, this.isCounted);
    if (isUnit(result)) return result;
    return this.fail(powerNode(this.tree, node, result.name), unitTrouble(result));
  }

  private written(node: Node): string {
    return this.text.slice(this.tree.start(node), this.tree.end(node));
  }

  private fail(node: Node, trouble: EngineTrouble): never {
    throw new Unreadable({ span: this.tree.span(node), ...trouble });
  }
}

/** The unit of a Unit node. */
export function unitOf(tree: Tree, node: Node, isCounted: (name: string) => boolean): Unit | UnitTrouble {
  const powers = tree.children(node).map((power) => ({ name: tree.text(power), exponent: tree.number(power) }));
  return resolveUnit(powers, isCounted);
}

/** The factor of a unit with that word. */
export function powerNode(tree: Tree, unit: Node, name: string): Node {
  return tree.children(unit).find((power) => tree.text(power) === name) ?? unit;
}

/** How a unit that cannot be resolved is reported; the place is that of {@link powerNode}. */
export function unitTrouble(trouble: UnitTrouble): EngineTrouble {
  return { code: "unit.unknown", word: trouble.name, trouble };
}

/** A number of fewer characters has no more digits than are shown anyway. */
const SHORTEST_FINE = 5;

/** Digits behind the decimal sign, less the power of ten; undefined of what is no decimal number. */
function decimalsOf(text: string): number | undefined {
  const match = /^-?[\d_]+(?:\.([\d_]+))?(?:[eE]([-+]?\d+))?$/.exec(text);
  return match ? (match[1] ?? "").replaceAll("_", "").length - Number(match[2] ?? 0) : undefined;
}

/** Whether a number as written is not zero: a digit other than 0 stands before its exponent and its solidus. */
function hasDigits(text: string): boolean {
  return /^[^/eE]*[1-9]/.test(text);
}

/** Behind `±` these are a share of the nominal value. */
const SHARES: ReadonlySet<string> = new Set(["%", "‰", "ppm", "ppb"]);

function isShare(unit: Unit): boolean {
  return SHARES.has(unit.text);
}

/** `0 % ± 5 %`: a share of nothing would be nothing, so that points are meant. */
function isNoShare(nominal: Member, unit: Unit | undefined): boolean {
  return unit !== undefined && isShare(unit) && Number(nominal.text) === 0;
}
