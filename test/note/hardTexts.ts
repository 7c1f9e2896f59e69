/** Texts that drive a careless scanner to quadratic time, by their length. */
export const texts: Readonly<Record<string, (length: number) => string>> = {
  "one line of quote markers": (length) => ">".repeat(length),
  "quotes, then lines that continue them lazily": (length) => `${">".repeat(length / 2)}a\n${"a\n".repeat(length / 4)}`,
  "quotes, then lines that could end them": (length) =>
    `${"> ".repeat(length / 4)}a | b\n${"> a | b\n".repeat(length / 16)}`,
  "one line of list markers": (length) => "- ".repeat(length / 2),
  "one line of list markers that is no thematic break": (length) => `${"- ".repeat(length / 2)}x`,
  "lists on one line, then blank lines": (length) => `${"* ".repeat(length / 4)}a\n${"\n".repeat(length / 2)}b`,
  "lists in a quote, then its blank lines": (length) => `> ${"* ".repeat(length / 4)}a\n${">\n".repeat(length / 4)}b`,
  "lists and quotes in turn": (length) => "> - ".repeat(length / 4),
  "lists on one line, then a row of a table": (length) =>
    `${"- ".repeat(length / 4)}a | b\n${" ".repeat(length / 4)}${"-|".repeat(length / 8)}`,
  "one line of backticks": (length) => "`".repeat(length),
  "runs of backticks, each longer than the last": (length) => {
    let text = "";
    for (let run = 1; text.length < length; run++) text += `${"`".repeat(run)} `;
    return text;
  },
  "one line of brackets": (length) => "[".repeat(length),
  "links that are none": (length) => "`x` [a](b ".repeat(length / 10),
  "brackets that close": (length) => `\`x\` ${"[".repeat(length / 4)}${"](a)".repeat(length / 8)}`,
  "definitions with open titles": (length) => "[a]: /url\n'b\n===\n".repeat(length / 17),
  "definitions with open labels": (length) => "[a\n".repeat(length / 3),
  "a label that never ends": (length) => `[${"a\n".repeat(length / 2)}`,
  "tags that never end": (length) => `\`x\` ${"<a b='".repeat(length / 6)}`,
  "comments that never end": (length) => `\`x\` ${"<!-- ".repeat(length / 5)}`,
  "lines of tags in a paragraph": (length) => "a\n<a b\n".repeat(length / 7),
  "rows of pipes": (length) => "|\n".repeat(length / 2),
  "a table of one row": (length) => `${"a|".repeat(length / 4)}\n${"-|".repeat(length / 4)}`,
  "one long line": (length) => "a".repeat(length),
  "one long line of spaces": (length) => `a\n${" ".repeat(length)}b`,
  "one long line of tabs in a list": (length) => `- a\n\n${"\t".repeat(length)}b`,
  "lone carriage returns": (length) => "a\r".repeat(length / 2),
  hashes: (length) => `# ${"#".repeat(length)}x`,
  "a paragraph of traps": (length) => `a\n${"    b = 2\n".repeat(length / 10)}`,
  "calculation lines": (length) => "    b = 2\n".repeat(length / 10),
};
