/** Everything that must hold before a change is taken, from a fresh clone. The last line sums the tests of all runs. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { step } from "./steps.mjs";

const STEPS = [
  ["Types", "npm", ["run", "--silent", "typecheck"]],
  ["Style", "npm", ["run", "--silent", "lint"]],
  ["Format", "npm", ["run", "--silent", "format:check"]],
  ["Bundles", "npm", ["run", "--silent", "build"]],
  ["Unit suite", "npx", ["mocha", "--reporter", "test/tally.cjs"], { counts: true }],
  ["Real editor", "npx", ["tsx", "test/editor/run.ts"], { counts: true }],
];

const folder = mkdtempSync(join(tmpdir(), "copperbook-verify-"));
const tally = join(folder, "tally");
const failedSteps = [];

if (step("Dependencies", "npm", ["ci"]) !== 0) failedSteps.push("Dependencies");
else for (const [title, command, args, { counts = false } = {}] of STEPS) runStep(title, command, args, counts);

const { passed, failed } = counted();
rmSync(folder, { recursive: true });
if (failedSteps.length > 0) console.log(`\nNot in order: ${failedSteps.join(", ")}.`);
console.log(`\n${passed} passed, ${failed + failedSteps.length} failed`);
process.exitCode = failed + failedSteps.length === 0 ? 0 : 1;

/** A step counts as one failure if it does not end well, unless it is a test run whose failed tests are counted already. */
function runStep(title, command, args, counts) {
  const before = counted();
  const code = step(title, command, args, { COPPERBOOK_TALLY: tally });
  const after = counted();
  const failuresAreCounted = after.failed > before.failed;
  const ranNothing = counts && after.passed === before.passed;
  if ((code !== 0 && !failuresAreCounted) || (ranNothing && !failuresAreCounted)) failedSteps.push(title);
}

/** The sums over the test runs so far. */
function counted() {
  const lines = existsSync(tally) ? readFileSync(tally, "utf8").split("\n").filter(Boolean) : [];
  const runs = lines.map((line) => JSON.parse(line));
  const sum = (what) => runs.reduce((total, run) => total + run[what], 0);
  return { passed: sum("passed"), failed: sum("failed") };
}
