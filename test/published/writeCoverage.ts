/** Writes the list of what checks the functions of the handbook into DEVELOPERS.md: `npx tsx test/published/writeCoverage.ts`. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { coverageLines } from "./handbookCases";

export const DEVELOPERS = join(__dirname, "../../DEVELOPERS.md");
const HEADING = "\n## Coverage of the handbook\n";

/** The list in the text, and what stands around it. */
export function sectionOfCoverage(text: string): { before: string; lines: readonly string[]; after: string } {
  const at = text.indexOf(HEADING);
  if (at < 0) throw new Error(`DEVELOPERS.md has no section${HEADING}`);
  const first = text.indexOf("\n- ", at) + 1;
  const end = text.indexOf("\n\n", first);
  return { before: text.slice(0, first), lines: text.slice(first, end).split("\n"), after: text.slice(end) };
}

if (require.main === module) {
  const { before, after } = sectionOfCoverage(readFileSync(DEVELOPERS, "utf8"));
  writeFileSync(DEVELOPERS, before + coverageLines().join("\n") + after);
}
