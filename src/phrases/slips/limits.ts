import type { Slip } from "./slip";

/** `3 V`, `3 V ± 5 %`, and what may stand behind it, as its source. */
const ROUGH = /^[~≈]?\s*(\d[\d._]*(?:\s*[\p{L}°µ%][^\s"]*)?(?:\s*(?:±|\.\.)\s*[^"]*?)?)(\s*(?:from\b.*|each\b.*)?)$/u;

/** Numbers with limits: tolerances, ranges, and what is known roughly. */
export const LIMITS: readonly Slip[] = [
  {
    // `10 Ω 1 %`, `4k7, 5 %`
    behind: /^(,?\s*)(\d[\d.]*\s*%)/,
    before: /\d\s*[\p{L}°µ]*\s*$/u,
    says: ([, , tolerance]) => `A tolerance stands behind \`±\`: \`± ${tolerance}\`.`,
    mends: ([, comma]) => ({ length: comma.length, text: comma === "" ? "± " : " ± " }),
  },
  {
    // `24 ± 5 % V`, `24 (±5 %) V`
    behind: /^([\p{L}°µ]\S*)\s*$/u,
    before: /(?<![\d.])(\d[\d.]*)\s*\(?\s*(?:±|\+\/-)\s*(\d[\d.]*\s*(?:%|ppm))\s*\)?\s*$/,
    says: ([, unit], led) =>
      `The unit stands behind the number that it belongs to: \`${led![1]} ${unit} ± ${led![2]}\`.`,
    mends: ([whole, unit], led) => ({
      back: led![0].length,
      length: whole.length,
      text: `${led![1]} ${unit} ± ${led![2]}`,
    }),
  },
  {
    // `min 2.8 typ 3.0 max 3.2 V`
    behind: /^(-?\d[\d.]*)\s*(?:(?:typ|nom)\.?\s*(-?\d[\d.]*)\s*)?max\.?\s*(-?\d.*?)\s*$/,
    before: /\bmin\s+$/,
    says: (behind) => limitsText(joined(behind)),
    mends: (behind, led) => ({ back: led![0].length, length: behind[0].length, text: joined(behind) }),
  },
  {
    // `3.0 (2.8 .. 3.2) V`
    behind: /^\(\s*(-?\d[\d.]*)\s*(?:\.\.|[-–]|to|,)\s*(-?\d[\d.]*)\s*\)/,
    before: /(?<![\d.])(-?\d[\d.]*)(\s*)$/,
    says: ([, low, high], led) => limitsText(`${low} .. ${led![1]} .. ${high}`),
    mends: ([whole, low, high], led) => ({
      back: led![0].length,
      length: whole.length,
      text: `${low} .. ${led![1]} .. ${high}`,
    }),
  },
  {
    // `4.75 to 5.25 V`: the word has been read as a unit.
    behind: /^(-?\d[^)\],]*?)\s*(?:[)\],].*)?$/,
    before: /(-?\d[\d._]*\s*[\p{L}°µ%]*?)(\s+(?:to|until|thru)\s+)$/u,
    says: ([, high], led) => limitsText(`${led![1]} .. ${high}`),
    mends: (_, led) => ({ back: led![2].length, length: 0, text: " .. " }),
  },
  {
    // `4.75 V to 5.25 V`
    behind: /^(to|until|thru)\s+(-?\d.*?)\s*$/,
    before: /(-?\d[\d._]*\s*[\p{L}°µ%]*)\s+$/u,
    says: ([, , high], led) => limitsText(`${led![1]} .. ${high}`),
    mends: ([, word]) => ({ length: word.length, text: ".." }),
  },
  {
    // `[4.75, 5.25] V`
    behind: /^([\p{L}°µ%]\S*)/u,
    before: /\[\s*(-?[\d._]+)\s*,\s*(-?[\d._]+)\s*\]\s*$/,
    says: ([, unit], led) =>
      `Limits are written \`${led![1]} .. ${led![2]} ${unit}\`; in a list each number has its unit: \`[${led![1]} ${unit}, ${led![2]} ${unit}]\`.`,
  },
  {
    // `V = ~3 V`
    behind: ROUGH,
    before: defined(""),
    says: ([, value], led) => roughlyText(led![2], value),
    mends: ([whole, value, tail], led) => assumed(led!, whole, value + tail),
  },
  {
    // `V = about 3 V`, `V = approx. 3 V`: the word has been read as a name.
    behind: ROUGH,
    before: defined(String.raw`(?:about|approx|approximately|around|roughly|circa|ca|some|nearly|almost)\b\.?\s*`),
    says: ([, value], led) => roughlyText(led![2], value),
    mends: ([whole, value, tail], led) => assumed(led!, whole, value + tail),
  },
  {
    // `V = 3 V approx`, `V = 3 V (approx)`, `V = 3 V typ`
    behind:
      /^\(?\s*(?:approx|approximately|about|roughly|ca|est|estimated|guess|guessed|estimate|typ|typical|nom|nominal)\b\.?\s*\)?\s*$/,
    before: defined(String.raw`(\d.*?)\s*`),
    says: (_, led) => roughlyText(led![2], led![3]),
    mends: ([whole], led) => assumed(led!, whole, led![3]),
  },
  {
    // `must x = ~3 V`
    behind: /^[~≈](?=\s*[\d\p{L}])/u,
    says: () => "About is a number with limits: `5 V ± 10 %`. In a rule it is a band: `x inside 5 V ± 10 %`.",
  },
  {
    // `3 V max`, `3 V (typ.)`
    behind: /^[(,]?\s*(?:min|max|minimum|maximum|typ|typical|nom|nominal)\b\.?/,
    before: /\d\s*(?!in\s)[\p{L}°µ%]*\s*$/u,
    says: () =>
      "Limits stand in the order of a data sheet, `2.8 .. 3.0 .. 3.2 V`; a single limit is a rule: `must x <= 5 V`.",
  },
  {
    // `-20 .. +85 °C`
    behind: /^\+\s*(?=\d)/,
    before: /\.\.\.?\s*$/,
    says: () => "A number has no plus sign.",
    mends: ([whole]) => ({ length: whole.length, text: "" }),
  },
  {
    // `5 V plus minus 10 %`
    behind: /^(?:plus[\s/-]*minus|plus or minus|p\/m)\s*(?=\d)/,
    says: () => "Limits about a value are written `±` or `+/-`.",
    mends: ([whole]) => ({ length: whole.length, text: "± " }),
  },
  {
    // `3 V (k = 2)`
    behind: /^\(\s*(k\s*=\s*\d[\d.]*)\s*\)/,
    before: /(\d[\d.]*\s*[\p{L}°µ]\S*)\s*$/u,
    says: ([, factor], led) => `A coverage factor belongs to an expanded uncertainty: \`${led![1]} ± … (${factor})\`.`,
  },
  {
    // `10 V ± 5 % ± 0.1 V`
    behind: /^(±|\+\/-)/,
    before: /(±|\+\/-)[^=]*$/,
    says: () => "A number has one `±`. Add the two limits, or multiply by a second one, such as `(1 ± 1 %)`.",
  },
];

/** A name that is defined, with its opening word, and what stands behind the `=`. */
function defined(behind: string): RegExp {
  return new RegExp(String.raw`^((?:given|assume)\s+)?([\p{L}_][\p{L}\d_]*)\s*=\s*${behind}$`, "u");
}

function assumed([lead, , name]: RegExpExecArray, behind: string, value: string) {
  return { back: lead.length, length: behind.length, text: `assume ${name} = ${value}` };
}

function joined([, low, typical, high]: RegExpExecArray): string {
  return [low, typical, high].filter((each: string | undefined) => each !== undefined).join(" .. ");
}

function roughlyText(name: string, value: string): string {
  const limits = /[±]|\.\./.test(value) ? "" : " ± 10 %";
  return `What is known roughly, or typical, is assumed, best with its limits: \`assume ${name} = ${value}${limits}\`.`;
}

function limitsText(limits: string): string {
  return `Limits are written with \`..\`: \`${limits}\`.`;
}
