import type { Slip } from "./slip";

/** Comments with the signs of other languages, and words behind a value. */
export const REMARKS: readonly Slip[] = [
  {
    // `x = 3 V // the supply`, and not `a // b`
    behind: /^\/\/\s*(?=[^\s\d(]+\s+\S|$)/,
    says: () => "A comment begins with `#`.",
    mends: ([whole]) => ({ length: whole.length, text: whole === "//" ? "#" : "# " }),
  },
  {
    // `given supply = 24 V // sheet`
    behind: /^\/\/\s*/,
    before: /^(?:given|assume|over|measured|must|should)\b/,
    says: () => "A comment begins with `#`.",
    mends: ([whole]) => ({ length: whole.length, text: "# " }),
  },
  {
    // `a // b`
    behind: /^\/\//,
    says: () => "In parallel is written `||`; a comment begins with `#`.",
  },
  {
    // `x = 3 V /* the supply */`: the slash has been read.
    behind: /^\*\s*(.*?)\s*\*\/\s*$/,
    before: /\/$/,
    says: () => "A comment begins with `#`.",
    mends: ([whole, words]) => ({ back: 1, length: whole.trimEnd().length, text: `# ${words}` }),
  },
  {
    // `C = 100 nF, X7R`
    behind: /^[,;]\s*(?=[\p{L}_][^=<>"]*$)/u,
    before: /=\s*-?\d[^([=]*$/,
    says: () => "A remark stands behind `#`.",
    mends: ([whole]) => ({ length: whole.length, text: " # " }),
  },
  {
    // `I = 20 mA (per string)`
    behind: /^\(\s*([\p{L}][\p{L}\d.]*(?:\s+[\p{L}\d.,°%]+)+)\s*\)\s*$/u,
    says: () => "A remark stands behind `#`.",
    mends: ([whole, words]) => ({ length: whole.trimEnd().length, text: `# ${words}` }),
  },
  {
    // `I = 3 A at 24 V`
    behind: /^at\b/,
    before: /=/,
    says: () => "The conditions of a value are a comment, behind `#`; only `measured` has `at NAME = value`.",
    mends: () => ({ length: 0, text: "# " }),
  },
  { behind: /^because\b/, says: () => "A reason stands behind `#`." },
  {
    // `C = 100 nF X7R`
    behind: /^(?!(?:each|instead|log)\b)[\p{L}_][^=<>"]*$/u,
    before: /\d\s*[\p{L}°µ%][^\s]*\s+$/u,
    says: () => "A remark stands behind `#`.",
    mends: ([whole]) => ({ length: 0, text: whole === "" ? "" : "# " }),
  },
];
