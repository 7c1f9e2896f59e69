import type { Slip } from "./slip";

/** What stands around a value: the choice from a series, the source, the name. */
export const CHOICES: readonly Slip[] = [
  {
    // `R = 3 kΩ nearest E24`
    behind: /^(?:nearest|closest|next)\s+(?:(?:of|in|from|to)\s+)?(E\d+)\s*$/,
    before: /=\s*(\d[^=]*?)\s*$/,
    says: ([, series], led) => `A value of a series is chosen: \`choose ${led![1]} from ${series}\`.`,
    mends: ([whole, series], led) => ({ length: whole.length, text: `choose ${led![1]} from ${series}` }),
  },
  {
    // `R = U / I choose nearest E24`
    behind: /^(?:nearest|closest|next)\s+(?:(?:of|in|from|to)\s+)?(E\d+)\b/,
    before: /\bchoose\s+$/,
    says: ([, series]) => chosenText(series),
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
    // `R = U / I choose 620 Ω E24`
    behind: /^(E\d+)\b/,
    before: /\bchoose\s.*\d.*$/,
    says: ([, series]) => `The series stands behind \`from\`: \`from ${series}\`.`,
    mends: () => ({ length: 0, text: "from " }),
  },
  {
    // `given V = 5 V from adapter sheet`
    behind: /^([\p{L}\d_][^"#\n]*?)\s*$/u,
    before: /\b(from|use)\s+$/,
    says: ([, words], led) => `Text stands between straight quotation marks: \`${led![1]} "${words}"\`.`,
    mends: ([whole, words]) => ({ length: whole.length, text: `"${words}"` }),
  },
  {
    // `d = usb / 2 from usb`, where a definition has no source
    behind: /^from\s+"?([^"#\n]+?)"?\s*$/,
    before: /^[\p{L}_][\p{L}\d_]*\s*(?:\[[^\]]*\]\s*)?=/u,
    says: ([, words]) =>
      `What is given, assumed or measured says where it comes from; behind a formula it is a comment: \`# from ${words}\`.`,
    mends: ([whole, words]) => ({ length: whole.trimEnd().length, text: `# from ${words}` }),
  },
  {
    // `let x = 3 V`
    behind: /^=/,
    before: /^(let\s+)[\p{L}_][\p{L}\d_]*\s*$/u,
    says: () => "A quantity is defined without a word before its name; `let` solves an equation.",
    mends: (_, led) => ({ back: led![0].length, length: 0, text: led![0].slice(led![1].length) }),
  },
  {
    // `given 5 V supply`
    behind: /^(\d[\d._]*(?:\s*[\p{L}°µ%]\S*)?)\s+([\p{L}_][\p{L}\d_]*)\s*$/u,
    before: /^(given|assume)\s+$/,
    says: ([, value, name], led) => `The name stands first: \`${led![1]} ${name} = ${value}\`.`,
    mends: ([whole, value, name]) => ({ length: whole.trimEnd().length, text: `${name} = ${value}` }),
  },
  {
    // `* supply = 5 V`
    behind: /^[-*+•]\s+(?=[\p{L}_])/u,
    before: /^$/,
    says: () => "A line that computes begins with its name or its opening word, without a bullet.",
    mends: ([whole]) => ({ length: whole.length, text: "" }),
  },
  {
    // `R-1 = 3 Ω`, `2R = 3 Ω`
    behind: /^[^\s="#]+\s*=/,
    before: /^(?:(?:given|assume|choose|over|measured|order)\s+)?$/,
    says: () => "A name has letters, digits and `_`, and begins with a letter.",
  },
];

function chosenText(series: string): string {
  return `The value that is used stands before it: \`choose 150 Ω from ${series}\`.`;
}
