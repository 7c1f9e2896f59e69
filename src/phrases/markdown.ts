/** Text of a note as it reads, whatever signs are in it: nothing of it becomes a link, a tag or emphasis. */
export function escaped(text: string): string {
  return text.replace(/[!-/:-@[-`{-~]/g, "\\$&").replace(/\s+/g, " ");
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
