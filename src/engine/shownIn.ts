import { isUnit, type Unit } from "../quantity/unit";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { powerNode, unitOf, unitTrouble } from "./literal";
import type { Operand } from "./operand";
import { areTurnAndAngle, countsTurns } from "./turns";

/** The unit in brackets behind a name of the open statement; undefined where it is none, which is reported. */
export function bracketUnit(compiler: Compiler, bracket: Node): Unit | undefined {
  const { tree, frame, around } = compiler;
  const unit = unitOf(tree, bracket, (name) => around.isCounted(frame.entry, name));
  return isUnit(unit) ? unit : compiler.fail(powerNode(tree, bracket, unit.name), unitTrouble(unit));
}

/** `NAME [unit]`: the dimension must agree; a bare zero takes it. */
export function shownIn(compiler: Compiler, operand: Operand, unit: Unit, bracket: Node): Operand {
  if (operand.kind !== "quantity") {
    compiler.isQuantity(operand, "where a unit is asked for");
    return operand;
  }
  if (operand.isZero && !unit.isTemperatureScale) return { ...operand, dimension: unit.dimension, unit };
  const isKelvin = unit.text === "K";
  if (
    unit.dimension === operand.dimension &&
    (unit.isTemperatureScale === operand.point || (operand.point && isKelvin))
  ) {
    return isTurned(compiler, operand, unit, bracket) ? operand : { ...operand, unit };
  }
  compiler.fail(bracket, {
    code: "unit.shownIn",
    wanted: unit.text,
    wantedDimension: unit.dimension,
    side: compiler.side(operand),
  });
  return operand;
}

/** Turns shown as an angle, or the reverse, are wrong by 2π: the dimension is the same. */
function isTurned(compiler: Compiler, operand: Operand, asked: Unit, bracket: Node): boolean {
  if (operand.unit === undefined || !areTurnAndAngle(operand.unit, asked)) return false;
  const isAngle = countsTurns(asked);
  const [turns, angle] = isAngle ? [asked, operand.unit] : [operand.unit, asked];
  compiler.fail(bracket, {
    code: "unit.turns",
    is: isAngle ? "angle" : "turns",
    turns: turns.text,
    angle: angle.text,
    side: compiler.side(operand),
  });
  return true;
}
