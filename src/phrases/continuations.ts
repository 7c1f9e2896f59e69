import { isBuiltInUnit } from "../quantity/unit";
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

/** The way out of a text that goes on as the grammar does not. */
export interface WayOut {
  /** A sentence. */
  readonly text: string;
  /** The edit that mends it, where one alone does. */
  readonly edit?: { readonly span: Span; readonly text: string };
}

/** The way out for a text that goes on in a place as the grammar does not; undefined where nothing tells what was meant. */
export function wayOutOf(statement: string, at: number): WayOut | undefined {
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
];

function joinedText(unit: string): string {
  return `The units of a product are joined by \`·\`: \`${unit}\`.`;
}

function powerText(exponent: string): string {
  return exponent === "" ? "" : `^${exponent.replace("−", "-")}`;
}
