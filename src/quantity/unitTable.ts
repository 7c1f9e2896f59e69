/**
 * The units that a note can use, as data: only what stands here, a currency or a counted item is a unit. mathjs's other
 * words (`stick`, `cup`, `mins`) are not.
 *
 * A row takes its factor and dimension from mathjs where mathjs has the unit and its factor is exact; otherwise it says
 * what the unit is. Not here on purpose: `B`, `dB` and `Np`, which mean different ratios for powers and for fields.
 */
export interface UnitRow {
  /** As it is shown. */
  readonly symbol: string;
  /** Other spellings that are read as this unit. */
  readonly aliases?: readonly string[];
  readonly name: string;
  readonly quantity: string;
  readonly takesPrefix: boolean;
  /** Its name in mathjs, or its definition. */
  readonly is: string | Definition;
  /** For a temperature scale: the thermodynamic temperature of its zero, in its own degrees, as exact decimal text. */
  readonly zero?: string;
}

/** factor · of[0]^exponent · of[1]^exponent …, the factor as exact text (`0.01`, `5/9`), the units as rows above. */
export interface Definition {
  readonly factor: string;
  readonly of: readonly (readonly [symbol: string, exponent: number])[];
}

const si = (symbol: string, name: string, quantity: string, is: string | Definition = symbol): UnitRow => ({
  symbol,
  name,
  quantity,
  takesPrefix: true,
  is,
});
const plain = (symbol: string, name: string, quantity: string, is: string | Definition = symbol): UnitRow => ({
  ...si(symbol, name, quantity, is),
  takesPrefix: false,
});
const product = (...of: [string, number][]): Definition => ({ factor: "1", of });

/** π to 40 digits, so that a factor with it in is rounded only once. */
const PI = "3.141592653589793238462643383279502884197";

export const UNIT_TABLE: readonly UnitRow[] = [
  // SI Brochure (9th edition), tables 2 and 4.
  si("m", "metre", "length"),
  si("g", "gram", "mass"),
  si("s", "second", "time"),
  si("A", "ampere", "current"),
  si("K", "kelvin", "temperature difference"),
  si("mol", "mole", "amount of substance"),
  si("cd", "candela", "luminous intensity"),
  si("rad", "radian", "angle", product()),
  // Kept as an exponent of its own, so that lm and cd stay apart.
  si("sr", "steradian", "solid angle", "sr"),
  si("Hz", "hertz", "frequency"),
  si("N", "newton", "force"),
  si("Pa", "pascal", "pressure"),
  si("J", "joule", "energy"),
  si("W", "watt", "power"),
  si("C", "coulomb", "charge"),
  si("V", "volt", "voltage"),
  si("F", "farad", "capacitance"),
  { ...si("Ω", "ohm", "resistance", "ohm"), aliases: ["ohm"] },
  si("S", "siemens", "conductance"),
  si("Wb", "weber", "magnetic flux"),
  si("T", "tesla", "magnetic flux density"),
  si("H", "henry", "inductance"),
  { ...si("°C", "degree Celsius", "temperature", "degC"), zero: "273.15" },
  si("lm", "lumen", "luminous flux", product(["cd", 1], ["sr", 1])),
  si("lx", "lux", "illuminance", product(["lm", 1], ["m", -2])),
  si("Bq", "becquerel", "activity", product(["s", -1])),
  si("Gy", "gray", "absorbed dose", {
    factor: "0.001",
    of: [
      ["J", 1],
      ["g", -1],
    ],
  }),
  si("Sv", "sievert", "dose equivalent", {
    factor: "0.001",
    of: [
      ["J", 1],
      ["g", -1],
    ],
  }),
  si("kat", "katal", "catalytic activity", product(["mol", 1], ["s", -1])),

  // SI Brochure (9th edition), table 8: accepted for use with the SI.
  plain("min", "minute", "time"),
  plain("h", "hour", "time"),
  plain("d", "day", "time", "day"),
  plain("au", "astronomical unit", "length", { factor: "149597870700", of: [["m", 1]] }),
  plain("°", "degree", "angle", { factor: `${PI}/180`, of: [] }),
  plain("′", "minute of arc", "angle", { factor: `${PI}/10800`, of: [] }),
  plain("″", "second of arc", "angle", { factor: `${PI}/648000`, of: [] }),
  plain("ha", "hectare", "area", "hectare"),
  { ...si("L", "litre", "volume"), aliases: ["l"] },
  si("t", "tonne", "mass"),
  // CODATA 2022.
  si("Da", "dalton", "mass", { factor: "1.66053906892e-24", of: [["g", 1]] }),
  // Exact since 2019; mathjs still has the value of CODATA 2010.
  si("eV", "electronvolt", "energy", { factor: "1.602176634e-19", of: [["J", 1]] }),

  // The trade's.
  plain("%", "per cent", "ratio", { factor: "0.01", of: [] }),
  plain("ppm", "parts per million", "ratio", { factor: "1e-6", of: [] }),
  plain("in", "inch", "length"),
  plain("mil", "thousandth of an inch", "length"),
  plain("ft", "foot", "length"),
  plain("oz", "ounce", "mass"),
  plain("lb", "pound", "mass"),
  plain("lbf", "pound-force", "force"),
  // mathjs has it to ten digits only.
  plain("psi", "pound-force per square inch", "pressure", product(["lbf", 1], ["in", -2])),
  si("bar", "bar", "pressure"),
  // mathjs holds its factor as a fraction object, which plain numbers do without.
  { ...plain("°F", "degree Fahrenheit", "temperature", { factor: "5/9", of: [["K", 1]] }), zero: "459.67" },
  plain("rpm", "revolutions per minute", "frequency", { factor: "1/60", of: [["s", -1]] }),
  si("Ah", "ampere hour", "charge"),
  si("Wh", "watt hour", "energy"),
  si("VA", "volt-ampere", "apparent power"),
  // mathjs makes it imaginary.
  si("var", "var", "reactive power", product(["W", 1])),
  si("bit", "bit", "amount of data"),
  si("byte", "byte", "amount of data"),
  // 365.25 days.
  plain("year", "Julian year", "time"),
];

/** What people type for a unit, where neither its name nor a change of case leads to it. */
export const USUAL_MISSPELLINGS: ReadonlyMap<string, string> = new Map([
  ["deg", "°"],
  ["º", "°"],
  ["degC", "°C"],
  ["℃", "°C"],
  ["ºC", "°C"],
  ["degF", "°F"],
  ["℉", "°F"],
  ["ºF", "°F"],
  ["celsius", "°C"],
  ["Celsius", "°C"],
  ["fahrenheit", "°F"],
  ["Fahrenheit", "°F"],
  ["inches", "in"],
  ["feet", "ft"],
  ["thou", "mil"],
  ["mils", "mil"],
  ["sec", "s"],
  ["msec", "ms"],
  ["kB", "kbyte"],
  ["MB", "Mbyte"],
  ["GB", "Gbyte"],
  ["Mbps", "Mbit/s"],
  ["kbps", "kbit/s"],
  ["bps", "bit/s"],
  ["baud", "1/s"],
  ["usec", "µs"],
  ["nsec", "ns"],
  ["MFD", "µF"],
  ["mfd", "µF"],
  ["pfd", "pF"],
  ["mhz", "MHz"],
  ["hr", "h"],
  ["hrs", "h"],
  ["hours", "h"],
  ["days", "d"],
  ["yr", "year"],
  ["lbs", "lb"],
  ["amp", "A"],
  ["amps", "A"],
  ["micron", "µm"],
  ["um2", "µm^2"],
  ["percent", "%"],
  ["meter", "m"],
  ["meters", "m"],
  ["liter", "L"],
  ["Kbyte", "kbyte"],
]);
