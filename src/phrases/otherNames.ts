/** A name that other languages have, and how it is written here. */
export interface OtherName {
  /** A sentence. */
  readonly says: string;
  /** What may be put in the place of the name as it is; several where only the author knows which. */
  readonly texts: readonly string[];
}

/** What a name means that other languages have and this one has not, called or not; undefined where none is known. */
export function otherName(name: string, isCalled: boolean): OtherName | undefined {
  // In capitals as spreadsheets write them; a single letter is a name of its own in either case.
  const plain = name.length > 1 ? name.toLowerCase() : name;
  const value = VALUES.get(plain);
  if (isCalled) return FUNCTIONS.get(plain) ?? (value && { ...value, texts: [] });
  return value;
}

function other(says: string, ...texts: string[]): OtherName {
  return { says, texts };
}

/** Numbers with a name. */
const VALUES: ReadonlyMap<string, OtherName> = new Map([
  ["pi", other("The number is written `π`.", "π")],
  ["tau", other("The number is written `2 * π`.", "(2 * π)")],
  ["e", other("Powers of the number e are `exp(x)`; e itself is `exp(1)`.", "exp(1)")],
]);

const POWER = other("A power is written with `^`: `2^3`.");
const SQUARE = other("A square is written `x^2`.");
const MEAN = other("Write `mean`.", "mean");
const SIZE = other("How many there are is `size(list)`.", "size");
const FLOOR = other("Write `floor`, which rounds down.", "floor");
const CEIL = other("Write `ceil`, which rounds up.", "ceil");
const CHOICE = other("A choice between two values is `if a > b then x else y`.");
const PARALLEL = other("Components in parallel are written `a || b`.");
const ANGLE = other("An angle has its unit: `30 °`, `0.5 rad`.");
const DEVIATION = other(
  "What scatters is one value: `sample [1.2, 0.9, 1.1] mV` has the mean and the standard deviation.",
);

const FUNCTIONS: ReadonlyMap<string, OtherName> = new Map([
  ["log", other("Write `ln` for the natural logarithm, `log10` for the decimal one.", "ln", "log10")],
  ["lg", other("The decimal logarithm is `log10`.", "log10")],
  ["ld", other("The binary logarithm is `log2`.", "log2")],
  ["pow", POWER],
  ["power", POWER],
  ["sqr", SQUARE],
  ["square", SQUARE],
  ["average", MEAN],
  ["avg", MEAN],
  ["len", SIZE],
  ["length", SIZE],
  ["count", SIZE],
  ["int", FLOOR],
  ["trunc", FLOOR],
  ["rounddown", FLOOR],
  ["roundup", CEIL],
  ["ceiling", CEIL],
  ["if", CHOICE],
  ["iif", CHOICE],
  ["ifelse", CHOICE],
  ["parallel", PARALLEL],
  ["par", PARALLEL],
  ["rms", other("The root of the mean square is `sqrt(mean([a^2, b^2]))`.")],
  ["stdev", DEVIATION],
  ["std", DEVIATION],
  ["interp", other("Write `interpolate`.", "interpolate")],
  ["vlookup", other("A row of a table is found by its name, `parts.bar.price`, or by a value with `lookup`.")],
  ["deg", ANGLE],
  ["radians", ANGLE],
]);
