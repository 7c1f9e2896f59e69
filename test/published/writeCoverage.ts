/** Writes the tables of what checks the functions of the handbook into DEVELOPERS.md: `npx tsx test/published/writeCoverage.ts`. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { coverageTables } from "./handbookCases";

export const DEVELOPERS = join(__dirname, "../../DEVELOPERS.md");
const HEADING = "\n## Coverage of the handbook\n";

/** The tables, with which the text ends, and what stands before them. */
export function sectionOfCoverage(text: string): { before: string; tables: string } {
  const at = text.indexOf(HEADING);
  if (at < 0) throw new Error(`DEVELOPERS.md has no section${HEADING}`);
  const first = text.indexOf("\n### ", at) + 1;
  return { before: text.slice(0, first), tables: text.slice(first) };
}

if (require.main === module) {
  const { before } = sectionOfCoverage(readFileSync(DEVELOPERS, "utf8"));
  writeFileSync(DEVELOPERS, before + coverageTables());
}
