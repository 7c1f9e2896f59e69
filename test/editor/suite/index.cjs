// The entry of the suite, loaded by the extension host.
require("tsx/cjs");
const { appendFileSync, readdirSync } = require("node:fs");
const { join } = require("node:path");
const { format } = require("node:util");

// The host hides its console behind setters that ignore an assignment, hence the definition. It must come before mocha keeps the console.
const output = process.env.COPPERBOOK_SUITE_OUTPUT;
if (output !== undefined) {
  const write = (...values) => appendFileSync(output, `${format(...values)}\n`);
  for (const name of ["log", "warn", "error"])
    Object.defineProperty(console, name, { value: write, configurable: true });
}

exports.run = async () => {
  const Mocha = require("mocha");
  const mocha = new Mocha({ timeout: 60_000, reporter: join(__dirname, "../../tally.cjs") });
  for (const name of readdirSync(__dirname)) if (name.endsWith(".test.ts")) mocha.addFile(join(__dirname, name));
  const failures = await new Promise((end) => mocha.run(end));
  if (failures > 0) throw new Error(`${failures} of the suite's tests failed.`);
};
