import { RATIO } from "../quantity/dimension";
import { unitOfPowers, type Unit } from "../quantity/unit";
import type { Operand } from "./operand";
import { isTorque } from "./statedUnit";

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

/** The mark of a plain number, where it has that of π or is near 2π. */
export function turnMark({ unit, constant }: Pick<Operand, "unit" | "constant">): Unit | undefined {
  const isNear = constant !== undefined && Math.abs(constant / TURN - 1) < TYPED_WITHIN;
  return unit === OF_TURN || isNear ? OF_TURN : undefined;
}

/** Whether 2π is typed in digits: `6.28`, but not `6.28 rad/s`. */
export function typesTurn(text: string): boolean {
  return /(?<![\d.])6\.28\d*(?![\d\s]*[\p{L}°])/u.test(text);
}

/** Whether a factor with the mark of π says that a value is no longer what its unit says: turns, an angle, a torque. */
export function isTurned({ unit }: Operand, by: Operand): boolean {
  if (unit === undefined || by.dimension !== RATIO || turnMark(by) === undefined) return false;
  return rotationOf(unit) !== undefined || isTorque(unit);
}

/** Whether one counts turns and the other measures an angle, so that 2π lies between them. */
export function areTurnAndAngle(stated: Unit | undefined, asked: Unit | undefined): boolean {
  const [a, b] = [stated && rotationOf(stated), asked && rotationOf(asked)];
  return a !== undefined && b !== undefined && a !== b;
}

/** Of a torque and a rate of turns, the rate; a power is torque times *angle* per time. */
export function turnsAtTorque(left: Operand, right: Operand): Operand | undefined {
  for (const [torque, rate] of [
    [left, right],
    [right, left],
  ])
    if (torque.unit && rate.unit && isTorque(torque.unit) && rotationOf(rate.unit) === "turns") return rate;
  return undefined;
}

export function countsTurns(unit: Unit): boolean {
  return rotationOf(unit) === "turns";
}

/** Undefined where a unit has both: `°/Hz` is an angle by the turn. */
function rotationOf({ powers }: Unit): Rotation | undefined {
  const found = new Set(powers.flatMap(({ symbol }) => ROTATIONS.get(symbol) ?? []));
  return found.size === 1 ? [...found][0] : undefined;
}
