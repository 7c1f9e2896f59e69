import type { LookedUp, Place } from "../engine/problem";
import { unitOf } from "../engine/literal";
import { isUnit } from "../quantity/unit";
import type { Scope } from "./side";
import { findName } from "./side";
import { numberText, type Showable } from "./value";

/**
 * What is looked up, with its value, and the keys next to it: `` `d` of `hole_medium`, 3.1 mm, `` and `3 mm and 3.5 mm`.
 * Undefined where nothing says in which unit they are shown.
 */
export function lookedUpText(
  text: string,
  { value, near }: LookedUp,
  within: Place | undefined,
  scope: Scope,
): { readonly subject: string; readonly keys: string } | undefined {
  const of = within ? parameterNamed(text, within) : quantityNamed(text, scope);
  if (!of) return undefined;
  const keys = near.map((key) => numberText(key, of)).join(" and ");
  const { statement } = within ?? {};
  const name = statement?.kind === "function" ? ` of \`${statement.tree.text(statement.name)}\`` : "";
  return { subject: `\`${text}\`${name}, ${numberText(value, of)},`, keys };
}

/** In the unit that a function's parameter states. */
function parameterNamed(text: string, { statement }: Place): Showable | undefined {
  if (statement.kind !== "function") return undefined;
  const { tree, parameters } = statement;
  const bracket = parameters.find(({ name }) => tree.text(name) === text)?.unit;
  const unit = bracket === undefined ? undefined : unitOf(tree, bracket, () => false);
  return unit && isUnit(unit) ? { dimension: unit.dimension, point: unit.isTemperatureScale, unit } : undefined;
}

function quantityNamed(text: string, scope: Scope): Showable | undefined {
  const outcome = findName(text, scope)?.outcome;
  return outcome?.kind === "quantity" ? outcome : undefined;
}
