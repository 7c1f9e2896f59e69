import type { Slip } from "./slip";

const PRODUCT = "A product is written with `*`, `·` or `×`.";

/** Two values side by side, or with a letter between them. */
export const PRODUCTS: readonly Slip[] = [
  {
    // `2 x 3 V`: the sign has been read as a unit.
    behind: /^\d/,
    before: /\d\s*[xX](\s*)$/,
    says: () => PRODUCT,
    mends: (_, led) => ({ back: led![1].length + 1, length: 0, text: "* " }),
  },
  {
    // `3x LED`
    behind: /^([\p{L}_][\p{L}\d_]*)/u,
    before: /(\d[\d.]*)\s*[xX]\s+$/u,
    says: ([, word], led) => `${PRODUCT} What is counted stands right behind its number: \`${led![1]} ${word}\`.`,
  },
  {
    // `2 π r`: the number has been read as a unit.
    behind: /^[\p{L}_][\p{L}\d_]*/u,
    before: /\d(\s*π\s+)$/u,
    says: () => "Nothing is multiplied by standing side by side.",
    mends: (_, led) => ({ back: led![1].length, length: 0, text: " * π * " }),
  },
  {
    // `1 ft 3 in`
    behind: /^(\d\S*\s*[\p{L}°µ]+)/u,
    before: /(\d\S*\s*[\p{L}°µ]+)\s*$/u,
    says: ([, second], led) => `Two numbers are added by a sign: \`${led![1]} + ${second}\`.`,
  },
  {
    // `3 V x 2`, `a x b`
    behind: /^[xX](?=\s+[\p{L}\d_(])/u,
    says: () => PRODUCT,
    mends: () => ({ length: 1, text: "*" }),
  },
  {
    // `parts.LED red.price`: a row of a table, or a product.
    behind: /^([\p{L}\d_]+(?: [\p{L}\d_]+)*)\.([\p{L}_][\p{L}\d_]*)/u,
    before: /(?<![\p{L}\d_.])([\p{L}_][\p{L}\d_]*)\.([\p{L}\d_]+)\s+$/u,
    says: ([, word, column], led) =>
      `A row whose name has a space is written \`${led![1]}["${led![2]} ${word}"].${column}\`. Nothing is multiplied by standing side by side.`,
  },
  {
    // `parts.0603.price`
    behind: /^\.(\d[\p{L}\d_]*)\.([\p{L}_][\p{L}\d_]*)/u,
    before: /([\p{L}_][\p{L}\d_]*)$/u,
    says: ([, row, column], led) =>
      `A row whose name begins with a digit is written \`${led![1]}["${row}"].${column}\`.`,
    mends: ([, row], led) => ({ back: led![1].length, length: row.length + 1, text: `${led![1]}["${row}"]` }),
  },
  {
    // `U R`
    behind: /^([\p{L}_][\p{L}\d_.]*)(?!\s*[\p{L}\d_"])/u,
    before: /(?:=|\bmust|\bshould|[-+*/^(,<>])\s*(2?[\p{L}_][\p{L}\d_.]*)(\s+)$/u,
    says: ([, second], led) => `Nothing is multiplied by standing side by side. Write \`${led![1]} * ${second}\`.`,
    mends: (_, led) => ({ back: led![2].length, length: 0, text: " * " }),
  },
];
