import { RATIO, type Dimension } from "../quantity/dimension";
import { unitOfPowers, type Unit } from "../quantity/unit";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import type { Operand } from "./operand";
import { commonUnit, isTorque, unitOfStated } from "./statedUnit";

/**
 * Hertz and revolutions per minute count turns, radians and degrees measure the angle. In the SI both are a number per
 * time, so that the 2π between them shows in no dimension: only the stated unit tells.
 */
type Rotation = "turns" | "angle";

const ROTATIONS: ReadonlyMap<string, Rotation> = new Map([
  ["Hz", "turns"],
  ["rpm", "turns"],
  ["rad", "angle"],
  ["°", "angle"],
  ["′", "angle"],
  ["″", "angle"],
]);

/**
 * The unit of π and of what is made with it: a plain number, marked as one that may turn a count of turns into an angle.
 * A number near 2π is marked too, for whoever types the digits.
 */
export const OF_TURN: Unit = { ...unitOfPowers([]) };

const TURN = 2 * Math.PI;
/** 6.28 is 2π to those who type it so. */
const TYPED_WITHIN = 1e-3;

/** Whether one counts turns and the other measures an angle, so that 2π lies between them. */
export function areTurnAndAngle(stated: Unit | undefined, asked: Unit | undefined): boolean {
  const a = stated && rotationOf(stated);
  const b = a && asked && rotationOf(asked);
  return b !== undefined && a !== b;
}

/** Whether turns are added to an angle or compared with it, which is off by 2π. Reported at the turns. */
export function isTurnsBesideAngle(compiler: Compiler, left: Operand, right: Operand): boolean {
  if (left.dimension !== right.dimension || !areTurnAndAngle(left.unit, right.unit)) return false;
  const [turns, angle] = countsTurns(left.unit!) ? [left, right] : [right, left];
  const [turnsText, angleText] = [turns.unit!.text, angle.unit!.text];
  const side = compiler.side(turns);
  compiler.fail(turns.node, { code: "unit.turns", is: "turns", turns: turnsText, angle: angleText, side });
  return true;
}

/** Whether a torque is multiplied by a rate of turns, which is a power but for 2π; that may stand elsewhere in the statement. */
export function isTorqueTimesTurns(compiler: Compiler, node: Node, left: Operand, right: Operand): boolean {
  if (!left.unit || !right.unit) return false;
  const rate = countsTurns(left.unit) ? left : countsTurns(right.unit) ? right : undefined;
  const torque = isTorque(left.unit) ? left : isTorque(right.unit) ? right : undefined;
  if (!rate || !torque || compiler.openEntries.some((entry) => bringsTurn(entry, compiler))) return false;
  compiler.fail(node, {
    code: "unit.turns",
    is: "turns",
    turns: rate.unit!.text,
    angle: "rad/s",
    side: compiler.side(rate),
    torque: compiler.side(torque),
  });
  return true;
}

/** The unit that a product or quotient is shown in; undefined where the display finds it. */
export function unitOfProduct(dimension: Dimension, left: Operand, right: Operand, sign: 1 | -1): Unit | undefined {
  if (left.dimension === RATIO && right.dimension === RATIO && (turnMark(left) ?? turnMark(right))) return OF_TURN;
  const scaled = right.dimension === RATIO ? left : sign === 1 && left.dimension === RATIO ? right : undefined;
  if (!scaled) return unitOfStated(dimension, left, right, sign);
  return isTurned(scaled, scaled === left ? right : left) ? undefined : commonUnit([scaled]);
}

export function countsTurns(unit: Unit): boolean {
  return rotationOf(unit) === "turns";
}

/** The mark of a plain number, where it has that of π or is near 2π. */
function turnMark({ unit, constant }: Operand): Unit | undefined {
  const isNear = constant !== undefined && Math.abs(constant / TURN - 1) < TYPED_WITHIN;
  return unit === OF_TURN || isNear ? OF_TURN : undefined;
}

/** Whether a factor with the mark of π says that a value is no longer what its unit says: turns, an angle, a torque. */
function isTurned({ unit }: Operand, by: Operand): boolean {
  if (unit === undefined || turnMark(by) === undefined) return false;
  return rotationOf(unit) !== undefined || isTorque(unit);
}

/** Whether a statement brings 2π in somewhere: by π, by what is made with it, or in digits (`6.28`, but not `6.28 rad/s`). */
function bringsTurn({ statement: { text }, mentions }: Entry, compiler: Compiler): boolean {
  const isOfTurn = (name: string) => name === "π" || compiler.find(name)?.unit === OF_TURN;
  return /(?<![\d.])6\.28\d*(?![\d\s]*[\p{L}°])/u.test(text) || mentions.some(({ name }) => isOfTurn(name));
}

/** Undefined where a unit has both: `°/Hz` is an angle by the turn. */
function rotationOf({ powers }: Unit): Rotation | undefined {
  let found: Rotation | undefined;
  for (const { symbol } of powers) {
    const rotation = ROTATIONS.get(symbol);
    if (found !== undefined && rotation !== undefined && rotation !== found) return undefined;
    found ??= rotation;
  }
  return found;
}
