import { readDecimal } from "../../src/quantity/number";
import { describeUnitTrouble, isUnit, resolveUnit, type Unit, type UnitTrouble } from "../../src/quantity/unit";

/** What the tests of this room count. */
export const COUNTED = ["LED", "board", "string"];

/** A unit from its text, written as in a note; enough of the grammar for these tests, which must not lean on the parser. */
export function unit(text: string): Unit {
  const result = tryUnit(text);
  if (!isUnit(result)) throw new Error(describeUnitTrouble(result));
  return result;
}

export function tryUnit(text: string): Unit | UnitTrouble {
  const [above, below = ""] = text.split("/");
  return resolveUnit([...powers(above, 1), ...powers(below, -1)], (name) => COUNTED.includes(name));
}

/** `2.2 nF` in coherent SI. */
export function si(text: string): number {
  const { number, unit } = literal(text);
  return readDecimal(number, unit);
}

/** A literal's number and unit; a ratio has none. */
export function literal(text: string): { number: string; unit: Unit | undefined } {
  const [number, ...rest] = text.split(" ");
  return { number, unit: rest.length > 0 ? unit(rest.join(" ")) : undefined };
}

function powers(product: string, sign: 1 | -1): { name: string; exponent: number }[] {
  const words = product.replace(/[()]/g, "").split("·");
  return words
    .filter((word) => word !== "" && word !== "1")
    .map((word) => {
      const [, root, name, exponent = "1"] = /^(√?)([^^]+)(?:\^(.+))?$/.exec(word)!;
      return { name, exponent: sign * (root ? 0.5 : 1) * Number(exponent) };
    });
}
