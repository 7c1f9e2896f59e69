/** From a fresh clone to the samples in an editor: installs, builds, checks the samples in the terminal and shows them. */
import { dependenciesAreInstalled, step } from "../../steps.mjs";

const A_RULE_DOES_NOT_HOLD = 1;

if (!dependenciesAreInstalled()) must("Dependencies", "npm", ["ci"]);
must("Bundles", "npm", ["run", "--silent", "build"]);

const code = step("The samples in the terminal", "node", ["dist/cli.js", "check", "samples"]);
if (code === A_RULE_DOES_NOT_HOLD)
  console.log("\nThe check ends with 1, as it should: each sample holds one honest problem.");
else if (code !== 0) process.exit(code);

must("The samples in an editor", "npx", ["tsx", "test/editor/host/showSamples.ts"]);

function must(title, command, args) {
  const code = step(title, command, args);
  if (code !== 0) process.exit(code);
}
