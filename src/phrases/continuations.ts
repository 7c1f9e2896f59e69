import { NATIVES } from "../engine/natives";
import { isBuiltInUnit } from "../quantity/unit";
import { parseUnit } from "../syntax/unit";
import type { Span } from "../text/span";

/** What people write behind a complete statement, or in the place of a value, and how it is written here. */
interface Continuation {
  /** On the text of a statement from the place of the trouble on. */
  readonly behind: RegExp;
  /** On the text before that place; anything where it is left out. */
  readonly before?: RegExp;
  /** A sentence; undefined where this is not what was meant after all. */
  readonly says: (behind: RegExpExecArray, before: RegExpExecArray | undefined) => string | undefined;
  /** What mends it, in the place of so many characters before and behind. */
  readonly mends?: (behind: RegExpExecArray, before: RegExpExecArray | undefined) => Mended | undefined;
}

interface Mended {
  readonly back?: number;
  readonly length: number;
  readonly text: string;
}

/** Nobody slips in a longer statement alone, and the patterns below would take their time. */
const LONGEST = 1000;

/** The way out of a text that goes on as the grammar does not. */
export interface WayOut {
  /** A sentence. */
  readonly text: string;
  /** The edit that mends it, where one alone does. */
  readonly edit?: { readonly span: Span; readonly text: string };
}

/** The way out for a text that goes on in a place as the grammar does not; undefined where nothing tells what was meant. */
export function wayOutOf(statement: string, at: number): WayOut | undefined {
  if (statement.length > LONGEST) return undefined;
  const lead = statement.slice(0, at);
  for (const { behind, before, says, mends } of CONTINUATIONS) {
    const found = behind.exec(statement.slice(at));
    const led = before?.exec(lead) ?? undefined;
    if (!found || (before !== undefined && !led)) continue;
    const text = says(found, led);
    if (text === undefined) continue;
    const mended = mends?.(found, led);
    if (!mended) return { text };
    const span = { start: at - (mended.back ?? 0), end: at + mended.length };
    return { text, edit: { span, text: mended.text } };
  }
  return undefined;
}

const PRODUCT = "A product is written with `*`, `·` or `×`.";

/** A unit with the exponent that people write behind it: `s`, `m2`, `s-1`, `s^-1`. */
const POWER = /^([\p{L}°µ]+)(?:\^?([-−]?\d+))?(?![\p{L}\d_(.[])/u;

const CONTINUATIONS: readonly Continuation[] = [
  {
    behind: /^,\s*(.+?)\s*\)/,
    before: /\binside\s*[([]\s*(-?[\d._]+)[^(]*$/,
    says: ([, high], led) => `A band is written \`inside ${led![1]} .. ${high}\`.`,
  },
  {
    behind: /^\.\./,
    before: /\bin\s+-?[\d._]+\s*[\p{L}°µ%]*\s*$/u,
    says: () => "A band is written `inside 11 .. 13 V`.",
  },
  { behind: /^within\s+(\S.*\.\..*?)\s*$/, says: ([, band]) => `A band is written \`inside ${band}\`.` },
  {
    behind: /^(?:\d|;)/,
    before: /\[[^\]]*$/,
    says: () => "The members of a list are separated by a comma.",
  },
  {
    // `10 Ω 1 %`, `4k7, 5 %`
    behind: /^(,?\s*)(\d[\d.]*\s*%)/,
    before: /\d\s*[\p{L}°µ]*\s*$/u,
    says: ([, , tolerance]) => `A tolerance stands behind \`±\`: \`± ${tolerance}\`.`,
    mends: ([, comma]) => ({ length: comma.length, text: comma === "" ? "± " : " ± " }),
  },
  {
    behind: /^:/,
    before: /\bif\b[^:]*$/,
    says: () => "Behind the condition stands `then`.",
    mends: () => ({ length: 1, text: " then" }),
  },
  {
    behind: /^(peak|rms|RMS|pk|pp|eff|DC|AC)\b/,
    before: /\d\s*[\p{L}°µ%]+\s+$/u,
    says: () => "Behind the unit stands nothing; say in the name or in a comment (`#`) what it is.",
  },
  {
    behind: /^per\s+([\p{L}_]\S*)/u,
    before: /\d\s*([\p{L}°µ%]\S*)\s+$/u,
    says: ([, second], led) => `“Per” is written \`/\`: \`${led![1]}/${second}\`.`,
  },
  {
    behind: /^([CF])\b/,
    before: /°(\s+)$/,
    says: ([, scale]) => `The degree stands right before its scale: \`°${scale}\`.`,
    mends: (_, led) => ({ back: led![1].length, length: 0, text: "" }),
  },
  {
    behind: /^(E\d+)\b/,
    before: /\bchoose\s+(?:nearest|next|closest)\s+$/,
    says: ([, series]) => `The value that is used stands before it: \`choose 150 Ω from ${series}\`.`,
  },
  {
    behind: /^(E\d+)\b/,
    before: /\bchoose\s.*\d.*$/,
    says: ([, series]) => `The series stands behind \`from\`: \`from ${series}\`.`,
    mends: () => ({ length: 0, text: "from " }),
  },
  {
    behind: /^([\p{L}\d_][^"#\n]*?)\s*$/u,
    before: /\b(from|use)\s+$/,
    says: ([, words], led) => `Text stands between straight quotation marks: \`${led![1]} "${words}"\`.`,
    mends: ([whole, words]) => ({ length: whole.length, text: `"${words}"` }),
  },
  {
    // `R-1 = 3 Ω`, `2R = 3 Ω`
    behind: /^[^\s="#]+\s*=/,
    before: /^(?:(?:given|assume|choose|over|measured|order)\s+)?$/,
    says: () => "A name has letters, digits and `_`, and begins with a letter.",
  },
  {
    // `4.75 to 5.25 V`: the word has been read as a unit.
    behind: /^(-?\d[^)\],]*?)\s*(?:[)\],].*)?$/,
    before: /(-?\d[\d._]*\s*[\p{L}°µ%]*?)\s+(?:to|until|thru)\s+$/u,
    says: ([, high], led) => limitsText(`${led![1]} .. ${high}`),
  },
  {
    behind: /^(?:to|until|thru)\s+(-?\d.*?)\s*$/,
    before: /(-?\d[\d._]*\s*[\p{L}°µ%]*)\s+$/u,
    says: ([, high], led) => limitsText(`${led![1]} .. ${high}`),
  },
  {
    // `[4.75, 5.25] V`
    behind: /^([\p{L}°µ%]\S*)/u,
    before: /\[\s*(-?[\d._]+)\s*,\s*(-?[\d._]+)\s*\]\s*$/,
    says: ([, unit], led) =>
      `Limits are written \`${led![1]} .. ${led![2]} ${unit}\`; in a list each number has its unit: \`[${led![1]} ${unit}, ${led![2]} ${unit}]\`.`,
  },
  { behind: /^\|\s*([^|]+?)\s*\|/, says: ([, inside]) => `The value without its sign is \`abs(${inside})\`.` },
  { behind: /^\/\//, says: () => "In parallel is written `||`; a comment begins with `#`." },
  {
    behind: /^[~≈]/,
    says: () => "About is a number with limits: `5 V ± 10 %`. In a rule it is a band: `x inside 5 V ± 10 %`.",
  },
  {
    behind: /^(<=|>=|<|>)\s*(.+?)\s*$/,
    before: /^(?:(?:given|assume)\s+)?([\p{L}_][\p{L}\d_]*)\s*=\s*$/u,
    says: ([, sign, limit], led) => `A limit is stated in a rule: \`must ${led![1]} ${sign} ${limit}\`.`,
  },
  {
    behind: /^\?\s*(.+?)\s*:\s*(.+?)\s*$/,
    before: /=\s*([^=]+?)\s*$/,
    says: ([, yes, no], led) => `A choice between two values is \`if ${led![1]} then ${yes} else ${no}\`.`,
  },
  {
    behind: /^,/,
    before: /\bif\s*\(?[^,]*$/,
    says: () => "A choice between two values is `if a > b then x else y`.",
  },
  {
    behind: /^;/,
    before: /\([^)]*$/,
    says: () => "Arguments are separated by a comma.",
    mends: () => ({ length: 1, text: "," }),
  },
  {
    behind: /^,/,
    before: /^(must|should)\b/,
    says: () => "Conditions are joined by `and`.",
    mends: () => ({ length: 1, text: " and" }),
  },
  {
    behind: /^is\b/,
    before: /^(must|should)\b/,
    says: () => "Equality is written `=`.",
    mends: () => ({ length: 2, text: "=" }),
  },
  {
    // `must be x > 3 V`
    behind: /^\S/,
    before: /^(must|should)\s+(be\s+)$/,
    says: (_, led) => `The condition stands right behind \`${led![1]}\`.`,
    mends: (_, led) => ({ back: led![2].length, length: 0, text: "" }),
  },
  {
    behind: /^within\s+(\S+(?:\s*%)?)\s+of\s+(.+?)\s*$/,
    says: ([, half, middle]) => `A band is written \`inside ${middle} ± ${half}\`.`,
  },
  {
    // `85 deg C`
    behind: /^([CF])\b/,
    before: /\d\s*(deg(?:rees)?\.?\s+)$/,
    says: ([, scale]) => `Degrees are written \`°${scale}\`.`,
    mends: ([, scale], led) => ({ back: led![1].length, length: 1, text: `°${scale}` }),
  },
  {
    // `sqrt x`, `min a`
    behind: /^([\p{L}_][\p{L}\d_.]*)/u,
    before: /(?<![\p{L}\d_.])([\p{L}_][\p{L}\d_]*)\s+$/u,
    says: ([, argument], led) =>
      NATIVES.has(led![1]) ? `A function is called with brackets: \`${led![1]}(${argument})\`.` : undefined,
  },
  {
    behind: /^in\s+(\S+)\s*$/,
    before: /^(\S+)\s*=/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    // `3 s / 2 in min`: the inch has been read.
    behind: /^(\S+)\s*$/,
    before: /^(\S+)\s*=.*\sin\s*$/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    behind: /^(min|max|typ|nom)\b\.?/,
    before: /\d\s*[\p{L}°µ%]*\s+$/u,
    says: () =>
      "Limits stand in the order of a data sheet, `2.8 .. 3.0 .. 3.2 V`; a single limit is a rule: `must x <= 5 V`.",
  },
  {
    behind: /^between\s+(.+?)\s+and\s+(.+?)\s*$/,
    says: ([, low, high]) =>
      /^[-\d]/.test(low) && /^[-\d]/.test(high)
        ? `A band is written \`inside ${low} .. ${high}\`.`
        : `A band is written as a chain: \`${low} <= x <= ${high}\`.`,
  },
  { behind: /^because\b/, says: () => "A reason stands behind `#`." },
  {
    behind: /^(±|\+\/-)/,
    before: /(±|\+\/-)[^=]*$/,
    says: () => "A number has one `±`. Add the two limits, or multiply by a second one, such as `(1 ± 1 %)`.",
  },
  {
    // `2 x 3 V`: the sign has been read as a unit.
    behind: /^\d/,
    before: /\d\s*[xX](\s*)$/,
    says: () => PRODUCT,
    mends: (_, led) => ({ back: led![1].length + 1, length: 0, text: "* " }),
  },
  {
    behind: /^(\d\S*\s*[\p{L}°µ]+)/u,
    before: /(\d\S*\s*[\p{L}°µ]+)\s*$/u,
    says: ([, second], led) => `Two numbers are added by a sign: \`${led![1]} + ${second}\`.`,
  },
  {
    behind: /^mod\s+(.+?)\s*$/,
    before: /([\p{L}_][\p{L}\d_.]*)\s*$/u,
    says: ([, divisor], led) => `The remainder is \`mod(${led![1]}, ${divisor})\`.`,
  },
  {
    behind: /^from\s+(\S+)/,
    before: /\bchoose\s+(?:at (?:least|most)\s+)?$/,
    says: ([, series]) => `The value that is used stands before it: \`choose 150 Ω from ${series}\`.`,
  },
  { behind: /^€/, says: () => "Money has the code of its currency behind the number, such as `2.35 EUR`." },
  { behind: /^\$/, says: () => "Money has the code of its currency behind the number, such as `2.35 USD`." },
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
    // `3 N m`, `3 m s-1`, `0.4 W/m K`
    behind: POWER,
    before: /\d\s*([\p{L}°µ]\S*)(\s+)$/u,
    says: ([, second, exponent = ""], led) => {
      const [above, below] = led![1].split("/");
      if (!isBuiltInUnit(second)) return undefined;
      if (below === undefined) return joinedText(`${above}·${second}${powerText(exponent)}`);
      return joinedText(`${above}/(${below.replace(/[()]/g, "")}·${second}${powerText(exponent)})`);
    },
    mends: ([whole, second, exponent = ""], led) =>
      led![1].includes("/")
        ? undefined
        : { back: led![2].length, length: whole.length, text: `·${second}${powerText(exponent)}` },
  },
  {
    // `3 V x 2`, `a x b`
    behind: /^[xX](?=\s+[\p{L}\d_(])/u,
    says: () => PRODUCT,
    mends: () => ({ length: 1, text: "*" }),
  },
  {
    behind: /^([\p{L}°µ]+)/u,
    before: /\/\(([\p{L}°µ]+)\s+$/u,
    says: ([, second], led) => `The units of a product are joined by \`·\`: \`${led![1]}·${second}\`.`,
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
  {
    // `U R`
    behind: /^([\p{L}_][\p{L}\d_.]*)(?!\s*[\p{L}\d_"])/u,
    before: /(?:=|\bmust|\bshould|[-+*/^(,<>])\s*(2?[\p{L}_][\p{L}\d_.]*)(\s+)$/u,
    says: ([, second], led) => `Nothing is multiplied by standing side by side. Write \`${led![1]} * ${second}\`.`,
    mends: (_, led) => ({ back: led![2].length, length: 0, text: " * " }),
  },
  {
    behind: /^[\p{L}_][^=<>"]*$/u,
    before: /\d\s*[\p{L}°µ%][^\s]*\s+$/u,
    says: () => "A remark stands behind `#`.",
  },
];

function joinedText(unit: string): string {
  return `The units of a product are joined by \`·\`: \`${unit}\`.`;
}

function powerText(exponent: string): string {
  return exponent === "" ? "" : `^${exponent.replace("−", "-")}`;
}

function limitsText(limits: string): string {
  return `Limits are written with \`..\`: \`${limits}\`.`;
}

function isUnitText(text: string): boolean {
  const unit = parseUnit(text.replace(/Ohm$/, "ohm"));
  return unit !== undefined && unit.powers.every(({ name }) => isBuiltInUnit(name));
}
