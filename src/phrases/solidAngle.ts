import { divide, type Dimension } from "../quantity/dimension";
import { isUnit, resolveUnit } from "../quantity/unit";

/** The way from one dimension to another between which a solid angle lies, as a sentence behind a space; else empty. */
export function solidAngleText(from: Dimension, to: Dimension): string {
  if (divide(to, from) === SOLID_ANGLE) return WAYS_OUT("*");
  return divide(from, to) === SOLID_ANGLE ? WAYS_OUT("/") : "";
}

const WAYS_OUT = (sign: "*" | "/") =>
  ` A solid angle lies between the two, and it is a dimension of its own: \`${sign} 1 sr\` leads across.`;

const STERADIAN = resolveUnit([{ name: "sr", exponent: 1 }], () => false);
const SOLID_ANGLE = isUnit(STERADIAN) ? STERADIAN.dimension : undefined;
