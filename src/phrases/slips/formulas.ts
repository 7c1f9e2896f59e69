import { NATIVES } from "../../engine/natives";
import type { Slip } from "./slip";

/** Calls, choices between two values, lists, and signs of other notations. */
export const FORMULAS: readonly Slip[] = [
  {
    // `x = [1 V 2 V]`
    behind: /^(?:\d|;)/,
    before: /\[[^\]]*$/,
    says: () => "The members of a list are separated by a comma.",
  },
  {
    // `x = if V > 2 V: 1 else 2`
    behind: /^:/,
    before: /\bif\b[^:]*$/,
    says: () => "Behind the condition stands `then`.",
    mends: () => ({ length: 1, text: " then" }),
  },
  {
    // `x = if (a > 1) 3 else 4`
    behind: /^(?=\S.*\belse\b)/,
    before: /\bif\s*\(.*\)\s*$/,
    says: () => "Behind the condition stands `then`.",
    mends: () => ({ length: 0, text: "then " }),
  },
  {
    // `x = if(a > 1, 3, 4)`
    behind: /^[,;]\s*([^(),;]*?)\s*[,;]\s*([^(),;]*?)\s*\)(.*)/,
    before: /(=\s*)?\bif\s*\(\s*([^(),;]*?)\s*$/,
    says: ([, yes, no], led) => chosenText(led![2], yes, no),
    mends: ([whole, yes, no, rest], led) => {
      const [lead, equals = "", condition] = led!;
      const choice = `if ${condition} then ${yes} else ${no}`;
      const isWhole = equals !== "" && rest.trim() === "";
      return {
        back: lead.length - equals.length,
        length: whole.length - rest.length,
        text: isWhole ? choice : `(${choice})`,
      };
    },
  },
  {
    // `x = if(max(a, b) > 1, 3, 4)`
    behind: /^[,;]/,
    before: /\bif\b[^=]*$/,
    says: () => "A choice between two values is `if a > b then x else y`.",
  },
  {
    // `x = 3 V if a > 2 else 2 V`
    behind: /^if\s+(.+?)\s+else\s+(.+?)\s*$/,
    before: /=\s*([^=]+?\s*)$/,
    says: ([, condition, no], led) => chosenText(condition, led![1].trim(), no),
    mends: ([whole, condition, no], led) => ({
      back: led![1].length,
      length: whole.length,
      text: `if ${condition} then ${led![1].trim()} else ${no}`,
    }),
  },
  {
    // `x = 3 V if a > 2`
    behind: /^(?:if|when)\s+(.+?)\s*$/,
    before: /=\s*([^=]+?)\s*$/,
    says: ([, condition], led) =>
      `A choice between two values is \`if ${condition} then ${led![1]} else …\`, with what it is otherwise.`,
  },
  {
    // `x = a > 2 ? 3 V : 2 V`
    behind: /^\?\s*(.+?)\s*:\s*(.+?)\s*$/,
    before: /=\s*([^=]+?\s*)$/,
    says: ([, yes, no], led) => chosenText(led![1].trim(), yes, no),
    mends: ([whole, yes, no], led) => ({
      back: led![1].length,
      length: whole.length,
      text: `if ${led![1].trim()} then ${yes} else ${no}`,
    }),
  },
  {
    // `x = max(a; b)`
    behind: /^;/,
    before: /\([^)]*$/,
    says: () => "Arguments are separated by a comma.",
    mends: () => ({ length: 1, text: "," }),
  },
  {
    // `y = |x - 1|`
    behind: /^\|\s*([^|]+?)\s*\|/,
    says: ([, inside]) => `The value without its sign is \`abs(${inside})\`.`,
    mends: ([whole, inside]) => ({ length: whole.length, text: `abs(${inside})` }),
  },
  {
    // `sum(k for k in 1 .. 10)`
    behind: /^in\b/,
    before: /\bfor\s+([\p{L}_][\p{L}\d_]*)\s+$/u,
    says: (_, led) => `The counter is written \`for ${led![1]} = 1 .. 10\`.`,
    mends: () => ({ length: "in".length, text: "=" }),
  },
  {
    // `led:burden(24 V)`, `led::burden(24 V)`
    behind: /^::?(?=[\p{L}_][\p{L}\d_]*\()/u,
    before: /[\p{L}\d_]$/u,
    says: () => "What belongs to a chapter, a note or a table stands behind a dot.",
    mends: ([colon]) => ({ length: colon.length, text: "." }),
  },
  {
    // `sqrt x`, `sqrt 2`, `max 1 V, 2 V`
    behind:
      /^((?:[\p{L}_][\p{L}\d_.]*|\d[\d._]*(?:\s*[\p{L}°µ%]+)?)(?:\s*,\s*(?:[\p{L}_][\p{L}\d_.]*|\d[\d._]*(?:\s*[\p{L}°µ%]+)?))*)(.*)/u,
    before: /(?<![\p{L}\d_.])([\p{L}_][\p{L}\d_]*)(\s+)$/u,
    says: ([, argument], led) =>
      NATIVES.has(led![1]) ? `A function is called with brackets: \`${led![1]}(${argument})\`.` : undefined,
    mends: ([, argument, rest], led) =>
      rest.trim() !== ""
        ? undefined
        : { back: led![1].length + led![2].length, length: argument.length, text: `${led![1]}(${argument})` },
  },
  {
    // `x = a mod b`
    behind: /^mod\s+(.+?)\s*$/,
    before: /([\p{L}_][\p{L}\d_.]*)\s*$/u,
    says: ([, divisor], led) => `The remainder is \`mod(${led![1]}, ${divisor})\`.`,
  },
  {
    // `x = 5 % of y`
    behind: /^of\s/,
    before: /%\s*$/,
    says: () => "A share of something is a product: write `*`.",
    mends: () => ({ length: "of".length, text: "*" }),
  },
];

function chosenText(condition: string, yes: string, no: string): string {
  return `A choice between two values is \`if ${condition} then ${yes} else ${no}\`.`;
}
