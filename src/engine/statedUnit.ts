import { anyPrefixOf, chooseUnit } from "../quantity/display";
import { divide, ENERGY, LENGTH, RATIO, type Dimension } from "../quantity/dimension";
import { unitOfPowers, type Unit } from "../quantity/unit";
import type { Literal } from "./literal";
import type { Operand } from "./operand";

/**
 * The unit for a sum, a pick or a scaled value of these operands: that of the author where all agree, but for its prefix.
 * Other SI units are left to the display; inches, hours, degrees and hertz are kept.
 */
export function commonUnit(operands: readonly Operand[]): Unit | undefined {
  let unit: Unit | undefined;
  for (const operand of operands) {
    if (operand.isZero) continue;
    const own = operand.unit && keptUnit(operand.unit);
    if (own === undefined) return undefined;
    if (unit === undefined) unit = own;
    else if (unit.text !== own.text) {
      if (withoutPrefix(unit)?.text !== withoutPrefix(own)?.text) return undefined;
      unit = withoutPrefix(unit);
    }
  }
  return unit;
}

/**
 * A stated unit as it is handed on: hertz and the like with whatever prefix fits, hours and mAh as they are. Undefined
 * where the display would find the unit by itself. Depends on nothing but the text of the unit.
 */
export function keptUnit(unit: Unit): Unit | undefined {
  if (isTorque(unit)) return unit;
  const [first] = unit.powers;
  const saysMore = unit.dimension !== RATIO && unit.powers.some(({ symbol }) => TELLING.has(symbol));
  if (saysMore) return withoutPrefix(unit) ?? unit;
  if (unit.decimal !== undefined) return undefined;
  return first?.takesPrefix && first.prefix === "" ? withoutPrefix(unit) : unit;
}

/** The unit for a side of a comparison that has none of its own, from the other side: a bare ratio takes `%` from its limit. */
export function unitBeside(other: Operand): Unit | undefined {
  return other.unit?.dimension === RATIO ? other.unit : commonUnit([other]);
}

/** The unit of a literal as written; of a zero with limits, one in which the limits can be read: `0 V ± 5 mV` is in mV. */
export function unitOfLiteral({ nominal, low, high, dimension, point, unit }: Literal): Unit | undefined {
  const widest = Math.max(Math.abs(low), Math.abs(high));
  if (unit === undefined || point || nominal !== 0 || !(widest > 0 && widest < unit.factor)) return unit;
  return chooseUnit(widest, dimension, unit);
}

/** The unit of a product or quotient, where what its operands were stated in asks for another than its dimension does. */
export function unitOfStated(dimension: Dimension, left: Operand, right: Operand, sign: 1 | -1): Unit | undefined {
  const row = FROM_STATED.find(
    ({ gives, stated }) =>
      gives.dimension === dimension && exponentOf(stated, left.unit) + sign * exponentOf(stated, right.unit) === 1,
  );
  return torqueUnit(dimension, left, right) ?? (row && keptUnit(row.gives));
}

/** A force times a length that is shown in newton metres; as a dimension it is an energy. */
export function isTorque({ dimension, powers }: Unit): boolean {
  return dimension === ENERGY && powers.some(({ symbol }) => symbol === "N");
}

/** SI units that say more than their dimension: how often something happens, or how far it turns. */
const TELLING: ReadonlySet<string> = new Set(["Hz", "rad"]);

/** What a product is shown in, by a unit that is left of those its operands were stated in. */
const FROM_STATED: readonly { readonly stated: string; readonly gives: Unit }[] = [
  { stated: "h", gives: unitOfPowers([["Wh", 1]]) },
  { stated: "Ah", gives: unitOfPowers([["Wh", 1]]) },
  { stated: "h", gives: unitOfPowers([["Ah", 1]]) },
  { stated: "Wh", gives: unitOfPowers([["Ah", 1]]) },
  { stated: "Hz", gives: unitOfPowers([["Hz", 1]]) },
  { stated: "rpm", gives: unitOfPowers([["rpm", 1]]) },
  {
    stated: "rad",
    gives: unitOfPowers([
      ["rad", 1],
      ["s", -1],
    ]),
  },
];

const NEWTON_METRE = unitOfPowers([
  ["N", 1],
  ["m", 1],
]);
const FORCE = divide(ENERGY, LENGTH);

/**
 * The unit of a product or quotient whose dimension is that of energy, where it is a torque: a force times a length, or
 * something stated with newtons (N·m/A times A). The dimension alone would be shown in joules.
 */
function torqueUnit(dimension: Dimension, left: Operand, right: Operand): Unit | undefined {
  if (dimension !== ENERGY) return undefined;
  const areForceAndLength =
    (left.dimension === FORCE && right.dimension === LENGTH) ||
    (left.dimension === LENGTH && right.dimension === FORCE);
  const saysNewton = [left, right].some(({ unit }) => unit?.powers.some(({ symbol }) => symbol === "N"));
  return areForceAndLength || saysNewton ? NEWTON_METRE : undefined;
}

function exponentOf(symbol: string, unit: Unit | undefined): number {
  return unit?.powers.reduce((sum, power) => sum + (power.symbol === symbol ? power.exponent : 0), 0) ?? 0;
}

/** The unit with any prefix on its first factor; undefined where that takes none. */
function withoutPrefix(unit: Unit): Unit | undefined {
  return unit.powers[0]?.takesPrefix ? anyPrefixOf(unit) : undefined;
}
