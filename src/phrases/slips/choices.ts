import type { Slip } from "./slip";

/** The choice of a value from a series. */
export const CHOICES: readonly Slip[] = [
  {
    // `R = 3 kΩ nearest E24`
    behind: /^(?:nearest|closest|next)\s+(?:(?:of|in|from|to)\s+)?(E\d+)\s*$/,
    before: /=\s*(\d(?:(?!\bchoose\b)[^=])*?)\s*$/,
    says: ([, series], led) => `A value of a series is chosen: \`choose ${led![1]} from ${series}\`.`,
    mends: ([whole, series], led) => ({ length: whole.length, text: `choose ${led![1]} from ${series}` }),
  },
  {
    // `R = U / I choose nearest E24`
    behind: /^(?:nearest|closest|next)(?:\s+(?:(?:of|in|from|to)\s+)?(E\d+))?\b/,
    before: /\bchoose\s+$/,
    says: ([, series = "E24"]) => chosenText(series),
  },
  {
    // `R = U / I nearest E24`
    behind: /^(?:nearest|closest|next)\s+(?:(?:of|in|from|to)\s+)?(E\d+)\s*$/,
    says: ([, series]) =>
      `The value that is used is written down, \`choose 150 Ω from ${series}\`, or computed, \`nearest("${series}", x)\`.`,
  },
  {
    // `R = U / I choose from E24`
    behind: /^from\s+(\S+)/,
    before: /\bchoose\s+(?:at (?:least|most)\s+)?$/,
    says: ([, series]) => chosenText(series),
  },
  {
    // `R = U / I choose E24`
    behind: /^(E\d+)\b/,
    before: /\bchoose\s+(?:at (?:least|most)\s+)?$/,
    says: ([, series]) => chosenText(series),
  },
  {
    // `R = U / I choose >= 150 Ω from E24`
    behind: /^(>=|≥|<=|≤)\s*(?=\d)/,
    before: /\bchoose\s+$/,
    says: ([, sign]) => `It is written \`choose ${sensed(sign)}\`.`,
    mends: ([whole, sign]) => ({ length: whole.length, text: `${sensed(sign)} ` }),
  },
  {
    // `R = U / I choose at minimum 150 Ω`
    behind: /^(min|minimum|max|maximum)\b/,
    before: /\bchoose\s+at\s+$/,
    says: ([, word]) => `It is written \`choose at ${word.startsWith("min") ? "least" : "most"}\`.`,
    mends: ([, word]) => ({ length: word.length, text: word.startsWith("min") ? "least" : "most" }),
  },
  {
    // `choose R = E24`, `choose R from E24`
    behind: /^(?:[\p{L}_][\p{L}\d_]*\s+from\s+)?(E\d+)\b/u,
    before: /^choose\s+(?:\S+\s*=\s*)?$/,
    says: ([, series]) => withFormulaText(series),
  },
  {
    // `choose N from 3`, `choose N 3`
    behind: /^([\p{L}_][\p{L}\d_]*)\s+(?:from\s+|of\s+|as\s+|to be\s+)?(\d[^=<>]*)$/u,
    before: /^choose\s+$/,
    says: ([, name, value]) => `A value that is chosen stands behind \`=\`: \`choose ${name} = ${value.trim()}\`.`,
    mends: ([whole, name, value]) => ({ length: whole.length, text: `${name} = ${value.trim()}` }),
  },
  {
    // `choose N from [1, 2]`
    behind: /^([\p{L}_][\p{L}\d_]*)\s+from\b/u,
    before: /^choose\s+$/,
    says: ([, name]) => `A value that is chosen stands behind \`=\`, written out: \`choose ${name} = …\`.`,
  },
  {
    // `choose R = 150 Ω from E24`
    behind: /^from\s+(E\d+)\s*$/,
    before: /^choose\s+\S+\s*=.*?(\s*)$/,
    says: ([, series]) => withFormulaText(series),
    mends: ([whole], led) => ({ back: led![1].length, length: whole.length, text: "" }),
  },
  {
    // `R = U / I choose 620 Ω E24`
    behind: /^(E\d+)\b/,
    before: /\bchoose\s.*\d.*$/,
    says: ([, series]) => `The series stands behind \`from\`: \`from ${series}\`.`,
    mends: () => ({ length: 0, text: "from " }),
  },
];

function sensed(sign: string): string {
  return /[>≥]/.test(sign) ? "at least" : "at most";
}

function withFormulaText(series: string): string {
  return `A value is judged against a series where a formula wants one: \`R = U / I choose 150 Ω from ${series}\`.`;
}

function chosenText(series: string): string {
  return `The value that is used stands before it: \`choose 150 Ω from ${series}\`.`;
}
