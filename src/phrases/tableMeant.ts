import type { Snapshot } from "../engine/snapshot";

/** The line under the headers of a pipe table: `| --- | ---: |`. */
const UNDER_HEADERS = /^\s*\|?(\s*:?-+:?\s*\|)+(\s*:?-+:?\s*)?\|?\s*$/;

/**
 * What a table of the text lacks to be the one that is named: the colon behind its name, or the line under its headers.
 * A sentence; undefined where no table begins with the name.
 */
export function tableMeant(name: string, { text }: Snapshot): string | undefined {
  const lines = text.split(/\r?\n/);
  const at = lines.findIndex((line) => {
    const [before, first] = line.split("|");
    return before.trim() === "" && first !== undefined && first.trim().replace(/:$/, "") === name;
  });
  if (at < 0) return undefined;
  if (!lines[at].includes(`${name}:`))
    return `The table on line ${at + 1} is text: with a colon behind its first header, \`${name}:\`, it is data of that name.`;
  if (!UNDER_HEADERS.test(lines[at + 1] ?? ""))
    return `The table on line ${at + 1} has no line under its headers: \`| --- |\`, as often as it has columns.`;
  return undefined;
}
