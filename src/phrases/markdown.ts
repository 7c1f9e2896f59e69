/**
 * Text of a note as it reads, whatever signs are in it, as part of a paragraph or all of it: nothing of it becomes a link,
 * a tag, emphasis, a list or a heading.
 */
export function escaped(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[\\`*_{}[\]<>()#!|~$@&^]|:(?=\/\/)|^ ?[-+=]|^ ?\d+(?=[.)](?: |$))|www(?=\.)/gi, (sign) =>
      escapedSign(sign),
    );
}

/** A backslash before a sign; behind a number or `www`, whose dot it takes the meaning from. */
function escapedSign(sign: string): string {
  return /[\dw]$/i.test(sign) ? `${sign}\\` : sign.replace(/\S/, "\\$&");
}

/** Text of a note as a code span. */
export function code(text: string): string {
  const fence = "`".repeat(longestRun(text) + 1);
  const padding = text.startsWith("`") || text.endsWith("`") ? " " : "";
  return `${fence}${padding}${text.replace(/\s+/g, " ")}${padding}${fence}`;
}

/** Lines that are set as they are. */
export function codeBlock(text: string): string {
  const fence = "`".repeat(Math.max(3, longestRun(text) + 1));
  return `${fence}text\n${text}\n${fence}`;
}

/** The most backticks that stand together. */
function longestRun(text: string): number {
  return Math.max(0, ...(text.match(/`+/g) ?? []).map((run) => run.length));
}
