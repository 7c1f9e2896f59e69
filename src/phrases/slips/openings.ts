import { isName } from "../../syntax/name";
import { isBuiltInUnit } from "../../quantity/unit";
import type { Slip } from "./slip";

/** The beginning of a statement: its opening word, its name, and where its value comes from. */
export const OPENINGS: readonly Slip[] = [
  {
    // `given V = 5 V from adapter sheet`
    behind: /^([\p{L}\d_][^"#\n]*?)\s*$/u,
    before: /\b(from)\s+$/,
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
    before: /^(given|assume|order)\s+$/,
    says: ([, value, name], led) => `The name stands first: \`${led![1]} ${name} = ${value}\`.`,
    mends: ([whole, value, name]) => ({ length: whole.trimEnd().length, text: `${name} = ${value}` }),
  },
  {
    // `+ 2 V`, where the line above ends without a sign
    behind: /^([-+*/·×])\s*[\p{L}\d_(][^=]*$/u,
    before: /^$/,
    says: ([, sign]) =>
      `A statement goes on where its line ends with a sign: put the \`${sign}\` there, and set this line in deeper.`,
  },
  {
    // `* supply = 5 V`
    behind: /^[-*+•]\s+(?=[\p{L}_][^=]*=)/u,
    before: /^$/,
    says: () => "A line that computes begins with its name or its opening word, without a bullet.",
    mends: ([whole]) => ({ length: whole.length, text: "" }),
  },
  {
    // `use other.calcs.md as other`
    behind: /^([^\s"]+\.(?:calcs\.md|csv))/,
    before: /^use\s+$/,
    says: ([, path]) => `A path stands between straight quotation marks: \`"${path}"\`.`,
    mends: ([, path]) => ({ length: path.length, text: `"${path}"` }),
  },
  {
    // `use "power.calcs.md"`
    behind: /^\s*$/,
    before: /^use\s+"(?:[^"]*\/)?([^"/.]*)[^"]*"\s*$/,
    says: (_, led) => `Under which name it is used stands behind it: \`as ${nameFor(led![1])}\`.`,
    mends: ([whole], led) => ({ length: whole.length, text: ` as ${nameFor(led![1])}` }),
  },
  {
    // `given V = 5 V "adapter sheet"`
    behind: /^"[^"]*"\s*$/,
    before: /^(?:given|assume|measured)\s+[\p{L}_][\p{L}\d_]*\s*=.*\d/u,
    says: () => "Where a value comes from stands behind `from`.",
    mends: () => ({ length: 0, text: "from " }),
  },
  {
    // `given: supply = 24 V`
    behind: /^:\s*(?=[\p{L}_])/u,
    before: /^(given|assume|over|choose|measured|order|let|items)\s*$/,
    says: (_, led) => `The name stands right behind \`${led![1]}\`.`,
    mends: ([whole], led) => ({ back: led![0].length, length: whole.length, text: `${led![1]} ` }),
  },
  {
    // `given supply: 24 V`, `over T in -20 .. 50 °C`
    behind: /^(?::|(?:in|from|is|are|between|of|be)\b)\s*(?=-?\d)/,
    before: /^(?:given|assume|over|choose|measured|order)\s+[\p{L}_][\p{L}\d_]*(\s*)$/u,
    says: () => "Behind the name stands `=`.",
    mends: ([whole], led) => ({ back: led![1].length, length: whole.length, text: " = " }),
  },
  {
    // `given supply [V] = 24`, `given supply (V) = 24`
    behind: /^[([]\s*([\p{L}°µ%]\S*?)\s*[)\]]\s*=\s*(-?\d[\d._]*)\s*$/u,
    before: /^(?:given|assume|over|order)\s+[\p{L}_][\p{L}\d_]*(\s*)$/u,
    says: ([, unit, number]) => `What is put in has its unit behind the number: \`${number} ${unit}\`.`,
    mends: ([whole, unit, number], led) => ({
      back: led![1].length,
      length: whole.length,
      text: ` = ${number} ${unit}`,
    }),
  },
  {
    // `given "supply" = 24 V`
    behind: /^"([^"]*)"(?=\s*=)/,
    before: /^(?:given|assume|over|choose|measured|order)\s+$/,
    says: () => "A name has no quotation marks.",
    mends: ([whole, name]) => (isName(name) ? { length: whole.length, text: name } : undefined),
  },
  {
    // `given supply voltage = 24 V`, `given V-supply = 24 V`
    behind: /^([-.]?[\p{L}\d_]+(?:[-. \t]+[\p{L}\d_]+)*)\s*(?==)/u,
    before: /^(?:given|assume|over|choose|measured|order)\s+([\p{L}_][\p{L}\d_]*)(\s*)$/u,
    says: ([, rest], led) => `A name is one word of letters, digits and \`_\`: \`${oneWord(led![1], rest)}\`.`,
    mends: ([, rest], led) => ({
      back: led![1].length + led![2].length,
      length: rest.length,
      text: oneWord(led![1], rest),
    }),
  },
  {
    // `measured V = 3.1 V 2026-03-14`
    behind: /^\d{4}-\d{2}-\d{2}\b/,
    before: /^measured\b/,
    says: () => "The day stands behind `on`.",
    mends: () => ({ length: 0, text: "on " }),
  },
  {
    // `measured V = 3.1 V, 5 pcs`
    behind: /^,?\s*(?:n\s*=\s*)?(\d+)\s*(?:pcs|pieces|parts|units|off|x)?\s*$/,
    before: /^measured\b.*?(\s*)$/,
    says: ([, pieces]) => `Of how many pieces stands behind \`of\`: \`of ${pieces}\`.`,
    mends: ([whole, pieces], led) => ({ back: led![1].length, length: whole.trimEnd().length, text: ` of ${pieces}` }),
  },
  {
    // `items LED = 12`, `items 12 LED`
    behind: /^(?:=|\d)/,
    before: /^items\b/,
    says: () => "`items` names what is counted; how many there are is a quantity: `n = 12 LED`.",
  },
  {
    // `items LED board`
    behind: /^[\p{L}_]/u,
    before: /^items\s.*?(\s+)$/,
    says: () => "Names are separated by a comma.",
    mends: (_, led) => ({ back: led![1].length, length: 0, text: ", " }),
  },
  {
    // `x += 3 V`
    behind: /^=/,
    before: /^([\p{L}_][\p{L}\d_]*)\s*([-+*/])\s*$/u,
    says: (_, led) =>
      `A quantity is defined once and does not change. The new value has a name of its own: \`${led![1]}_2 = ${led![1]} ${led![2]} …\`.`,
  },
  {
    // `given supply = 24 V, I = 20 mA`
    behind: /^,\s*[\p{L}_][\p{L}\d_]*\s*=/u,
    before: /^(?:given|assume|over|order|[\p{L}_][\p{L}\d_]*\s*=)/u,
    says: () => "Each statement has a line of its own.",
  },
  {
    // `R-1 = 3 Ω`, `2R = 3 Ω`
    behind: /^[^\s="#]+\s*=/,
    before: /^(?:(?:given|assume|choose|over|measured|order)\s+)?$/,
    says: () => "A name has letters, digits and `_`, and begins with a letter.",
  },
];

function oneWord(first: string, rest: string): string {
  return `${first}_${rest.replace(/^[-.\s]+/, "").replace(/[-.\s]+/g, "_")}`;
}

/** A name for what a file holds, after the file. */
function nameFor(file: string): string {
  const name = file.replace(/[^\p{L}\d_]+/gu, "_");
  return isName(name) && !isBuiltInUnit(name) ? name : "other";
}
