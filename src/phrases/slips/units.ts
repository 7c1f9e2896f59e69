import { isBuiltInUnit } from "../../quantity/unit";
import { parseUnit } from "../../syntax/unit";
import type { Slip } from "./slip";

/** A unit with the exponent that people write behind it: `s`, `m2`, `s-1`, `s^-1`. */
const POWER = /^([\p{L}°µ]+)(?:\^?([-−]?\d+))?(?![\p{L}\d_(.[])/u;

/** How a unit is joined, spaced and spelt; money; the unit in which a quantity is shown. */
export const UNITS: readonly Slip[] = [
  {
    // `3 A peak`, `12 V DC`, `230 V~`
    behind: /^\(?\s*(peak|rms|RMS|pk|pp|eff|DC|AC|dc|ac|RH|rH|~)(?![\p{L}\d])\s*\)?(.*)/u,
    before: /\d\s*[\p{L}°µ%]+\s*$/u,
    says: () => "Behind the unit stands nothing; say in the name or in a comment (`#`) what it is.",
    mends: ([whole, what, rest], led) =>
      what === "~" || rest.trim() !== ""
        ? undefined
        : { length: whole.trimEnd().length, text: `${/\s$/.test(led![0]) ? "" : " "}# ${what}` },
  },
  {
    // `5' 6"`
    behind: /^['′]\s*(\d[\d./]*)\s*["″](.*)/,
    before: /\d(\s*)$/,
    says: ([, inches]) => `Feet and inches are added: \`ft + ${inches} in\`.`,
    mends: ([whole, inches, rest], led) => ({
      back: led![1].length,
      length: whole.length - rest.length,
      text: ` ft + ${inches} in`,
    }),
  },
  {
    // `3″`, and `3"` where another inch closes the text: `3" + 4"`
    behind: /^[″′"']/,
    before: /\d(\s*)$/,
    says: ([sign]) => inchText(sign),
    mends: ([sign], led) => ({ back: led![1].length, length: 1, text: ` ${inchOf(sign)}` }),
  },
  {
    // `1.20 EUR per m`
    behind: /^per\s+([\p{L}_]\S*)/u,
    before: /\d\s*([\p{L}°µ%]\S*)(\s+)$/u,
    says: ([, second], led) => `“Per” is written \`/\`: \`${led![1]}/${second}\`.`,
    mends: ([whole, second], led) =>
      isBuiltInUnit(second) && !led![1].includes("/")
        ? { back: led![2].length, length: whole.length, text: `/${second}` }
        : undefined,
  },
  {
    // `9 ° C`
    behind: /^([CF])\b/,
    before: /°(\s+)$/,
    says: ([, scale]) => `The degree stands right before its scale: \`°${scale}\`.`,
    mends: (_, led) => ({ back: led![1].length, length: 0, text: "" }),
  },
  {
    // `85 deg C`
    behind: /^([CF])\b/,
    before: /\d\s*(deg(?:rees)?\.?\s+)$/,
    says: ([, scale]) => `Degrees are written \`°${scale}\`.`,
    mends: ([, scale], led) => ({ back: led![1].length, length: 1, text: `°${scale}` }),
  },
  {
    // `25 ℃`, one character of its own
    behind: /^([℃℉])/,
    says: ([, sign]) => `Degrees are written \`${DEGREES[sign]}\`.`,
    mends: ([, sign]) => ({ length: 1, text: DEGREES[sign] }),
  },
  {
    // `10⁻³ V`, `3 · 10⁻³ V`, `2x10^3 V`
    behind: /^([\p{L}°µ%]\S*)/u,
    before: /(?<![\d.,])(?:(\d[\d.]*)\s*[*·×xX]\s*)?10\s*(?:([⁻⁰¹²³⁴-⁹]+)|\^\s*([-−]?\d+))\s*$/u,
    says: ([, unit], led) => `A number takes its power of ten before its unit: \`${powerOfTen(led!)} ${unit}\`.`,
    mends: (_, led) => ({ back: led![0].length, length: 0, text: `${powerOfTen(led!)} ` }),
  },
  {
    // `3 10^3 V`
    behind: /^10\s*\^\s*([-−]?\d+)/,
    before: /(?<![\d.,])(\d[\d.]*)(\s+)$/,
    says: ([, exponent], led) => `A power of ten belongs to its number: \`${led![1]}e${exponent.replace("−", "-")}\`.`,
    mends: ([whole, exponent], led) => ({
      back: led![2].length,
      length: whole.length,
      text: `e${exponent.replace("−", "-")}`,
    }),
  },
  {
    // `x = 3 s / 2 s in min`
    behind: /^in\s+(\S+)\s*$/,
    before: /^(\S+)\s*=/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    // `x = 3 s / 2 in min`: the inch has been read.
    behind: /^(\S+)\s*$/,
    before: /^(\S+)\s*=.*\sin\s*$/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    // `€3.20`, `£5`
    behind: /^([€£$¥])\s*(\d[\d._]*)?/,
    says: ([, sign, amount = "2.35"]) =>
      `Money has the code of its currency behind the number, such as \`${amount} ${CURRENCIES[sign]}\`.`,
    mends: ([whole, sign, amount]) =>
      amount !== undefined && sign !== "$"
        ? { length: whole.length, text: `${amount} ${CURRENCIES[sign]}` }
        : undefined,
  },
  {
    // `3 N.m`, `3 kg.m/s^2`
    behind: /^\.([\p{L}°µ]+)/u,
    before: /\d\s*([^\s\d]+)$/u,
    says: ([, second], led) => joinedText(`${led![1]}·${second}`),
    mends: () => ({ length: 1, text: "·" }),
  },
  {
    // `10 k Ω`, `5 m A`
    behind: /^([\p{L}°µ]+)(?![\p{L}\d_(.[^−-])/u,
    before: /\d\s*([kMGmµunp])\s+$/u,
    says: ([, unit], led) => {
      const [, prefix] = led!;
      if (!isBuiltInUnit(prefix + unit)) return undefined;
      const product = isBuiltInUnit(prefix) ? ` ${joinedText(`${prefix}·${unit}`)}` : "";
      return `A prefix stands right before its unit: \`${prefix}${unit}\`.${product}`;
    },
    mends: (_, led) => {
      const [found, prefix] = led!;
      return isBuiltInUnit(prefix) ? undefined : { back: found.length - found.trimEnd().length, length: 0, text: "" };
    },
  },
  {
    // `3 sq mm`, `1 meg ohm`
    behind: /^([\p{L}°µ]+)(?![\p{L}\d_(.[^])/u,
    before: /\d(\s*)(sq|square|cu|cubic|meg|mega|kilo|milli|micro|nano|pico)\.?\s+$/u,
    says: ([, unit], led) => {
      const meant = inOneWord(led![2], unit);
      return meant === undefined ? undefined : `A unit is one word: \`${meant}\`.`;
    },
    mends: ([, unit], led) => ({
      back: led![0].length - 1 - led![1].length,
      length: unit.length,
      text: inOneWord(led![2], unit)!,
    }),
  },
  {
    // `80 dB(A)`
    behind: /^\(([AC])\)(.*)/,
    before: /\d(\s*dB)$/,
    says: ([, weighting]) =>
      `A level is a plain number, and what it is stands in its name or behind \`#\`: \`# dB(${weighting})\`.`,
    mends: ([whole, weighting, rest], led) =>
      rest.trim() === ""
        ? { back: led![1].length, length: whole.trimEnd().length, text: ` # dB(${weighting})` }
        : undefined,
  },
  {
    // `3 N m`, `3 m s-1`, `0.4 W/m K`
    behind: POWER,
    before: /\d\s*([\p{L}°µ]\S*)(\s+)$/u,
    says: ([, second, exponent = ""], led) => {
      const [above, below] = led![1].split("/");
      if (!isBuiltInUnit(second) || !isUnitText(above) || second === "at") return undefined;
      if (below === undefined) return joinedText(`${above}·${second}${powerText(exponent)}`);
      return joinedText(`${above}/(${below.replace(/[()]/g, "")}·${second}${powerText(exponent)})`);
    },
    mends: ([whole, second, exponent = ""], led) =>
      led![1].includes("/")
        ? undefined
        : { back: led![2].length, length: whole.length, text: `·${second}${powerText(exponent)}` },
  },
  {
    // `0.4 W/(m K)`
    behind: /^([\p{L}°µ]+)/u,
    before: /\/\(([\p{L}°µ]+)\s+$/u,
    says: ([, second], led) => joinedText(`${led![1]}·${second}`),
  },
  {
    // `U / R kΩ`
    behind: /^([\p{L}°µ%][^\s]*)\s*$/u,
    before: /^([\p{L}_][\p{L}\d_]*)\s*=.*[\p{L}_)\]][\p{L}\d_]*\s+$/u,
    says: ([, unit], led) =>
      isUnitText(unit) && !/\d\s*\S+\s*$/.test(led![0].split(/[=+*/-]/).at(-1)!)
        ? `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`
        : undefined,
  },
];

const DEGREES: Readonly<Record<string, string>> = { "℃": "°C", "℉": "°F" };

const CURRENCIES: Readonly<Record<string, string>> = { "€": "EUR", "£": "GBP", $: "USD", "¥": "JPY" };

const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** `3e-3`, from the factor and what stands behind the ten: superscripts, or digits behind a caret. */
function powerOfTen([, factor = "1", superscripts = "", digits = ""]: RegExpExecArray): string {
  const raised = [...superscripts].map((each) => (each === "⁻" ? "-" : SUPERSCRIPTS.indexOf(each))).join("");
  return `${factor}e${raised}${digits.replace("−", "-")}`;
}

/** The unit that a mark behind a number stands for. */
export function inchOf(mark: string): "in" | "ft" {
  return /["″”“„]/.test(mark) ? "in" : "ft";
}

export function inchText(mark: string): string {
  return inchOf(mark) === "in" ? "An inch is written `in`." : "A foot is written `ft`.";
}

const PREFIXES: Readonly<Record<string, string>> = {
  meg: "M",
  mega: "M",
  kilo: "k",
  milli: "m",
  micro: "µ",
  nano: "n",
  pico: "p",
};

/** `sq` and `mm`, `meg` and `ohm` as one unit; undefined where that is none. */
function inOneWord(first: string, unit: string): string | undefined {
  if (!isBuiltInUnit(unit)) return undefined;
  if (first.startsWith("sq")) return `${unit}^2`;
  if (first.startsWith("cu")) return `${unit}^3`;
  return isBuiltInUnit(PREFIXES[first] + unit) ? PREFIXES[first] + unit : undefined;
}

function joinedText(unit: string): string {
  return `The units of a product are joined by \`·\`: \`${unit}\`.`;
}

function powerText(exponent: string): string {
  return exponent === "" ? "" : `^${exponent.replace("−", "-")}`;
}

function isUnitText(text: string): boolean {
  const unit = parseUnit(text.replace(/Ohm$/, "ohm"));
  return unit !== undefined && unit.powers.every(({ name }) => isBuiltInUnit(name));
}
