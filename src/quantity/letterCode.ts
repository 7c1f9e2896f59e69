/**
 * The letter and digit code for resistance and capacitance values and tolerances: IEC 60062:2016, clauses 4 and 5
 * (clause numbers from memory). The letter stands for the decimal sign and the multiplier: `4k7`, `2R2`, `4n7`.
 */
export interface LetterCode {
  /** In ohms or farads: the double that the value reads as in decimals. */
  readonly value: number;
  readonly unitName: "Ω" | "F";
  /** The value without its letter's power of ten, and that power: `4k7` is 4.7 and 3. For another unit after the code (`4u7 H`). */
  readonly digits: string;
  readonly exponent: number;
  /** Relative to the value, low ≤ 0 ≤ high: `J` is −0.05 and 0.05. */
  readonly tolerance?: { readonly low: number; readonly high: number };
  /** In farads: the letters of a capacitor below 10 pF mean picofarads, not per cent. */
  readonly absoluteTolerance?: { readonly low: number; readonly high: number };
}

/** `k` is the letter people write, `K` the one of the standard; both are read. */
const MULTIPLIERS: Readonly<Record<string, { unitName: "Ω" | "F"; exponent: number }>> = {
  R: { unitName: "Ω", exponent: 0 },
  k: { unitName: "Ω", exponent: 3 },
  K: { unitName: "Ω", exponent: 3 },
  M: { unitName: "Ω", exponent: 6 },
  G: { unitName: "Ω", exponent: 9 },
  T: { unitName: "Ω", exponent: 12 },
  p: { unitName: "F", exponent: -12 },
  n: { unitName: "F", exponent: -9 },
  u: { unitName: "F", exponent: -6 },
  µ: { unitName: "F", exponent: -6 },
  μ: { unitName: "F", exponent: -6 },
  m: { unitName: "F", exponent: -3 },
  F: { unitName: "F", exponent: 0 },
};

/** Per cent below and above. Table 3 and 4 of IEC 60062:2016, from memory. */
const TOLERANCES: Readonly<Record<string, readonly [below: number, above: number]>> = {
  E: [0.005, 0.005],
  L: [0.01, 0.01],
  P: [0.02, 0.02],
  W: [0.05, 0.05],
  B: [0.1, 0.1],
  C: [0.25, 0.25],
  D: [0.5, 0.5],
  F: [1, 1],
  G: [2, 2],
  H: [3, 3],
  J: [5, 5],
  K: [10, 10],
  M: [20, 20],
  N: [30, 30],
  Q: [10, 30],
  T: [10, 50],
  S: [20, 50],
  Z: [20, 80],
};

/** Picofarads either way, for capacitors below 10 pF. */
const PICOFARADS: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2 };
const SMALL_CAPACITOR = 10e-12;

/** A tolerance letter follows a code with decimals only; a letter at the end only where it is no unit (`10m` is a length). */
const WITH_DECIMALS = /^(\d+)([RkKMGTpnuµμmF])(\d+)([A-Z])?$/;
const WITHOUT_DECIMALS = /^(\d+)([RkMGpnuµμ])$/;

/** Reads a letter code that begins with a digit, with or without a minus before it; anything else is undefined. */
export function readLetterCode(text: string): LetterCode | undefined {
  const [, sign, code] = /^([-−]?)(.*)$/s.exec(text)!;
  const match = WITH_DECIMALS.exec(code) ?? WITHOUT_DECIMALS.exec(code);
  if (match === null) return undefined;
  const [, whole, letter, decimals = "", toleranceLetter] = match;
  const { unitName, exponent } = MULTIPLIERS[letter];
  const digits = (sign && "-") + whole + (decimals && `.${decimals}`);
  const value = Number(`${digits}e${exponent}`);
  const result = { value, unitName, digits, exponent };
  if (toleranceLetter === undefined) return result;
  const picofarads = PICOFARADS[toleranceLetter];
  if (unitName === "F" && Math.abs(value) < SMALL_CAPACITOR && picofarads !== undefined) {
    const half = Number(`${picofarads}e-12`);
    return { ...result, absoluteTolerance: { low: -half, high: half } };
  }
  const perCent = TOLERANCES[toleranceLetter];
  if (perCent === undefined) return undefined;
  return { ...result, tolerance: { low: -perCent[0] / 100, high: perCent[1] / 100 } };
}

/**
 * The codes of the same value with a narrower tolerance, the widest first, each with that tolerance as text: `4k7G` and
 * `2 %` of `4k7J`. Tolerances that differ to either side are left out; none where the code has no tolerance.
 */
export function narrowerCodes(code: string): readonly { readonly text: string; readonly tolerance: string }[] {
  const read = readLetterCode(code);
  const present = read?.absoluteTolerance ?? read?.tolerance;
  if (!read || !present) return [];
  const half = Math.max(-present.low, present.high);
  const letters = read.absoluteTolerance
    ? Object.entries(PICOFARADS).map(([letter, pF]) => ({ letter, half: pF * 1e-12, tolerance: `${pF} pF` }))
    : Object.entries(TOLERANCES).flatMap(([letter, [below, above]]) =>
        below === above ? [{ letter, half: above / 100, tolerance: `${above} %` }] : [],
      );
  return letters
    .filter((each) => each.half < half * (1 - 1e-9))
    .sort((a, b) => b.half - a.half)
    .map(({ letter, tolerance }) => ({ text: code.slice(0, -1) + letter, tolerance }));
}

/**
 * The code of a positive value in ohms or farads, as designers write it (`4k7`, `0R47`, `100n`), which
 * {@link readLetterCode} reads as the same double; undefined where the value needs more than four digits or has no letter.
 */
export function letterCodeOf(value: number, unitName: "Ω" | "F"): string | undefined {
  const letters = unitName === "Ω" ? ["R", "k", "M", "G"] : ["p", "n", "u"];
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) return undefined;
  const [mantissa, power] = value.toExponential(3).split("e");
  const digits = mantissa.replace(".", "").replace(/0+$/, "");
  const letter = letters.filter((each) => MULTIPLIERS[each].exponent <= Number(power)).at(-1) ?? letters[0];
  const wholeLength = Number(power) - MULTIPLIERS[letter].exponent + 1;
  if (wholeLength > 4) return undefined;
  const whole = wholeLength > 0 ? digits.slice(0, wholeLength).padEnd(wholeLength, "0") : "0";
  const decimals = wholeLength > 0 ? digits.slice(wholeLength) : "0".repeat(-wholeLength) + digits;
  const code = whole + letter + (decimals || (whole.length === 1 ? "0" : ""));
  return readLetterCode(code)?.value === value ? code : undefined;
}
