/**
 * How work grows with the length of a text, counted and not timed: the same on any machine, busy or idle. What runs inside
 * a native call (a regular expression, a search in a text) counts as the one call that it is.
 */
import { execFileSync } from "node:child_process";
import { join } from "node:path";

const SHORT = 2_000;
/** Eight times the text takes eight times the work if it is linear, sixty-four if it is quadratic. */
export const GROWTH = 8;
export const TOLERATED = 10;

/** For each text of a module: how many times the work is done for {@link GROWTH} times the text. */
export function growthOfWork(texts: string, name: string, from: string): Readonly<Record<string, number>> {
  const lengths = [SHORT, SHORT, SHORT * GROWTH].map(String);
  const script = join(__dirname, "count.ts");
  const printed = execFileSync(process.execPath, ["--require", "tsx/cjs", script, texts, name, from, ...lengths]);
  // The first count holds what happens only once.
  const counts = JSON.parse(String(printed)) as Record<string, readonly [number, number, number]>;
  return Object.fromEntries(Object.entries(counts).map(([title, [, short, long]]) => [title, long / short]));
}
