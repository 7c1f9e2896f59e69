import type { Dimension } from "../quantity/dimension";
import { isUnit, resolveUnit, UNIT_LIST } from "../quantity/unit";
import { unitHelp } from "./unitHelp";

/** A unit to write behind a number. */
export interface ListedUnit {
  readonly text: string;
  readonly dimension: Dimension;
  readonly names: string;
  readonly isPrefixed: boolean;
}

/** The prefixes of everyday work. All others are read, too. */
const OFFERED_PREFIXES = ["p", "n", "µ", "m", "k", "M", "G"] as const;

let list: readonly ListedUnit[] | undefined;

/** The units that are offered: those of the table, and with the usual prefixes those that take one. */
export function listedUnits(): readonly ListedUnit[] {
  list ??= UNIT_LIST.flatMap(({ symbol, takesPrefix }) => [
    ...listed(symbol, false),
    ...(takesPrefix ? OFFERED_PREFIXES.flatMap((prefix) => listed(prefix + symbol, true)) : []),
  ]);
  return list;
}

/** Nothing where the word means another unit, as `min` is no milli-inch. */
function listed(text: string, isPrefixed: boolean): readonly ListedUnit[] {
  const unit = resolveUnit([{ name: text, exponent: 1 }], () => false);
  if (!isUnit(unit) || (unit.powers[0].prefix !== "") !== isPrefixed) return [];
  return [{ text, dimension: unit.dimension, names: unitHelp(text)?.names ?? "", isPrefixed }];
}
