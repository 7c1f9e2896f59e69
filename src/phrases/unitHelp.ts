import { CURRENCIES } from "../quantity/currencies";
import { siUnit } from "../quantity/dimension";
import { isUnit, resolveUnit, UNIT_LIST } from "../quantity/unit";

/** A unit in words: `ampere, current`, and what it is in coherent SI. Undefined where the word is no unit. */
export function unitHelp(word: string): { readonly names: string; readonly factor: string } | undefined {
  const unit = resolveUnit([{ name: word, exponent: 1 }], () => false);
  if (!isUnit(unit)) return undefined;
  if (CURRENCIES.has(word)) return { names: "currency", factor: "A unit of its own: there are no exchange rates." };
  const [{ prefix, symbol }] = unit.powers;
  const row = UNIT_LIST.find((listed) => listed.symbol === symbol);
  const si = siUnit(unit.dimension);
  const name = row ? `${row.name}, ${row.quantity}` : si;
  const names = prefix === "" ? name : `${prefix}${symbol}, of ${name}`;
  if (unit.isTemperatureScale)
    return {
      names,
      factor: `0 ${unit.text} is ${plain(unit.zero)} K; a difference of 1 ${unit.text} is ${plain(unit.factor)} K.`,
    };
  if (unit.text === si) return { names, factor: "" };
  return { names, factor: `1 ${unit.text} = ${plain(unit.factor)}${si === "1" ? "" : ` ${si}`}` };
}

/** Digits of a factor that say enough. */
const DIGITS = 10;

function plain(x: number): string {
  return String(Number(x.toPrecision(DIGITS)));
}
