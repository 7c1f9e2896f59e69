import type { Slip } from "./slip";

/** Rules: bands, words between their conditions, and the share of builds for which they hold. */
export const CONDITIONS: readonly Slip[] = [
  {
    // `must V inside (2 V, 4 V)`
    behind: /^,\s*(.+?)\s*\)/,
    before: /\binside\s*[([]\s*(-?[\d._]+)[^(]*$/,
    says: ([, high], led) => `A band is written \`inside ${led![1]} .. ${high}\`.`,
  },
  {
    // `must V inside 2 V, 4 V`
    behind: /^,\s*(-?\d.*?)\s*$/,
    before: /\binside\s+(-?\d[^,]*?)(\s*)$/,
    says: ([, high], led) => `A band is written \`inside ${led![1]} .. ${high}\`.`,
    mends: (_, led) => ({ back: led![2].length, length: 1, text: " .." }),
  },
  {
    // `must V in 2 .. 4 V`
    behind: /^\.\.\s*(.+?)\s*$/,
    before: /\bin(\s+)(-?[\d._]+\s*[\p{L}°µ%]*?)(\s*)$/u,
    says: ([, high], led) => `A band is written \`inside ${led![2].trim()} .. ${high}\`.`,
    mends: (_, led) => ({ back: led![0].length, length: 0, text: `inside${led![1]}${led![2]}${led![3]}` }),
  },
  {
    // `must V within 2 .. 4 V`
    behind: /^within\s+(\S.*\.\..*?)\s*$/,
    says: ([, band]) => `A band is written \`inside ${band}\`.`,
    mends: () => ({ length: "within".length, text: "inside" }),
  },
  {
    // `must V within 5 % of 12 V`
    behind: /^within\s+(\S+(?:\s*%)?)\s+of\s+(.+?)\s*$/,
    says: ([, half, middle]) => `A band is written \`inside ${middle} ± ${half}\`.`,
  },
  {
    // `must V between 2 V and 4 V`
    behind: /^between\s+(.+?)\s+and\s+(.+?)\s*$/,
    says: ([, low, high]) =>
      /^[-\d]/.test(low) && /^[-\d]/.test(high)
        ? `A band is written \`inside ${low} .. ${high}\`.`
        : `A band is written as a chain: \`${low} <= x <= ${high}\`.`,
  },
  {
    // `must x < 3 V, y < 2 V`
    behind: /^,/,
    before: /^(must|should)\b/,
    says: () => "Conditions are joined by `and`.",
    mends: () => ({ length: 1, text: " and" }),
  },
  {
    // `must: x < 3 V`
    behind: /^:\s*(?=\S)/,
    before: /^(must|should)\s*$/,
    says: (_, led) => `The condition stands right behind \`${led![1]}\`.`,
    mends: ([whole], led) => ({ back: led![0].length, length: whole.length, text: `${led![1]} ` }),
  },
  {
    // `must x less than 4 V`, `must x at least 2 V`
    behind: /^(?:is\s+)?((?:\p{L}+\s+){0,2}\p{L}+)\s+(?=-?\d|[\p{L}_(])/u,
    before: /^(?:must|should)\s+\S/,
    says: ([, words]) => (SIGNS.has(words) ? `It is written \`${SIGNS.get(words)}\`.` : undefined),
    mends: ([whole, words]) => ({ length: whole.length, text: `${SIGNS.get(words)} ` }),
  },
  {
    // `must 2 V < x and < 4 V`
    behind: /^(?:<=|>=|<|>|≤|≥)\s*\S/,
    before: /\b(?:and|or)\s+$/,
    says: () => "Each condition has two sides; a chain is written `2 V < x < 4 V`.",
  },
  {
    // `must x is 3 V`
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
    // `given supply = <= 5 V`
    behind: /^(<=|>=|<|>)\s*(.+?)\s*$/,
    before: /^(?:(?:given|assume)\s+)?([\p{L}_][\p{L}\d_]*)\s*=\s*$/u,
    says: ([, sign, limit], led) => `A limit is stated in a rule: \`must ${led![1]} ${sign} ${limit}\`.`,
  },
  {
    // `given V > 1.8 V`
    behind: /^(<=|>=|<|>|≤|≥)\s*(.+?)\s*$/,
    before: /^(?:given|assume)\s+([\p{L}_][\p{L}\d_]*)\s*$/u,
    says: ([, sign, limit], led) => `A limit is stated in a rule: \`must ${led![1]} ${sign} ${limit}\`.`,
    mends: (_, led) => ({ back: led![0].length, length: 0, text: `must ${led![1]} ` }),
  },
  {
    // `must x < 3 V if y > 2 V`
    behind: /^(?:if|when|whenever|where|while)\s+(.+?)\s*$/,
    before: /^(must|should)\s+(.+?)\s*$/,
    says: ([, condition], led) => `A rule under a condition is \`${led![1]} not (${condition}) or ${led![2]}\`.`,
    mends: ([whole, condition], led) => ({
      back: led![0].length,
      length: whole.length,
      text: `${led![1]} not (${condition}) or ${led![2]}`,
    }),
  },
  {
    // `must x < 3 V at 25 °C`, `must x < 3 V for T = 25 °C`
    behind: /^(?:at|for|over|under)\s+(?!\d[\d.]*\s*(?:%|sigma|σ))/,
    before: /^(?:must|should)\s+\S/,
    says: () => "A rule holds throughout the operating conditions, which are stated: `over T = -20 .. 50 °C`.",
  },
  {
    // `must x < 3 V in 3 sigma`
    behind: /^(?:sigmas?|σ|s\.?d\.?)(?![\p{L}\d])\s*$/iu,
    before: /^(?:must|should)\b.*(\b(?:in|at|to|within|for|with)\s+([1-4])\s*)$/,
    says: (_, led) => sigmasText(led![2]),
    mends: ([whole], led) => ({ back: led![1].length, length: whole.length, text: shareClause(WITHIN[led![2]]) }),
  },
  {
    // `must x < 3 V at 3 sigma`
    behind: /^(?:at|to|within|for|with)\s+([1-4])\s*(?:sigmas?|σ)(?![\p{L}\d])\s*$/iu,
    before: /^(?:must|should)\b/,
    says: ([, times]) => sigmasText(times),
    mends: ([whole, times]) => ({ length: whole.length, text: shareClause(WITHIN[times]) }),
  },
  {
    // `must x < 3 V for 99 % of builds`, `… at 99 %`
    behind: /^(?:for|at|with|on|by)\s+(\d[\d.]*)\s*%(?:\s*of\b.*)?\s*$/,
    before: /^(?:must|should)\b/,
    says: ([, share]) => shareText(share),
    mends: ([whole, share]) => ({ length: whole.length, text: shareClause(share) }),
  },
  {
    // `must 99 % of builds V < 4 V`
    behind: /^of\b/,
    before: /^(must|should)\s+(?:in\s+)?(\d[\d.]*)\s*%\s*$/,
    says: (_, led) => `The share of builds stands behind the condition: \`${led![1]} … ${shareClause(led![2])}\`.`,
  },
  {
    // `must x < 3 V in 99 % of boards`
    behind: /^.*$/,
    before: /^(?:must|should)\b.*\bin\s+(\d[\d.]*)\s*%(\s+of\s+)$/,
    says: (_, led) => shareText(led![1]),
    mends: ([whole]) => ({ length: whole.trimEnd().length, text: "builds" }),
  },
  {
    // `must x < 3 V in 99 %`
    behind: /^.*$/,
    before: /^(?:must|should)\b.*\bin\s+(\d[\d.]*)\s*%\s*$/,
    says: (_, led) => shareText(led![1]),
    mends: ([whole]) => ({ length: whole.trimEnd().length, text: whole === "" ? " of builds" : "of builds" }),
  },
];

/** Comparisons in words. */
const SIGNS: ReadonlyMap<string, string> = new Map([
  ["less than", "<"],
  ["smaller than", "<"],
  ["lower than", "<"],
  ["below", "<"],
  ["under", "<"],
  ["more than", ">"],
  ["greater than", ">"],
  ["larger than", ">"],
  ["higher than", ">"],
  ["above", ">"],
  ["exceeds", ">"],
  ["at least", ">="],
  ["not less than", ">="],
  ["no less than", ">="],
  ["min", ">="],
  ["minimum", ">="],
  ["at most", "<="],
  ["up to", "<="],
  ["not more than", "<="],
  ["no more than", "<="],
  ["max", "<="],
  ["maximum", "<="],
  ["equals", "="],
  ["equal to", "="],
]);

/** The per cent of a normal distribution within so many standard deviations of its mean, either way. */
const WITHIN: Readonly<Record<string, string>> = { 1: "68.27", 2: "95.45", 3: "99.73", 4: "99.994" };

function shareClause(percent: string): string {
  return `in ${percent} % of builds`;
}

function shareText(percent: string): string {
  return `A rule for most builds ends with their share: \`${shareClause(percent)}\`.`;
}

function sigmasText(times: string): string {
  return `A rule for most builds ends with their share; within ${times} standard deviations of a normal distribution lie ${WITHIN[times]} %: \`${shareClause(WITHIN[times])}\`.`;
}
