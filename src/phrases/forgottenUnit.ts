import type { Side } from "../engine/problem";
import { RATIO, siUnit, withoutCounts } from "../quantity/dimension";
import { findName, type Scope } from "./side";

/**
 * A bare number with the unit that was forgotten behind it: the one of the literal on the other side, the one in which a
 * name there is stated, or what is counted there. Undefined where the number has a unit, or where nothing tells which.
 */
export function withForgottenUnit(side: Side, other: Side, scope: Scope): string | undefined {
  if (side.dimension !== RATIO || !/^-?[\d._]+$/.test(side.text)) return undefined;
  const unit = unitOfLiteral(other.text) ?? statedUnit(other, scope) ?? countedUnit(other);
  return unit === undefined || unit.startsWith("1/") ? undefined : `${side.text} ${unit}`;
}

function unitOfLiteral(text: string): string | undefined {
  return /^-?[\d._]+\s*([^\d\s._/()+*-][^\s()+*-]*)$/.exec(text)?.[1];
}

function statedUnit({ name }: Side, scope: Scope): string | undefined {
  const outcome = name === undefined ? undefined : findName(name, scope)?.outcome;
  return outcome?.kind === "quantity" ? outcome.unit?.text : undefined;
}

function countedUnit({ dimension }: Side): string | undefined {
  const isCount = withoutCounts(dimension, [...dimension.counts.keys()]) === RATIO;
  return isCount ? siUnit(dimension) : undefined;
}
