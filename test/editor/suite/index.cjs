// The entry of the suite, loaded by the extension host.
require("tsx/cjs");
const { appendFileSync, readdirSync } = require("node:fs");
const { join } = require("node:path");
const { format } = require("node:util");

exports.run = async () => {
  const Mocha = loadMocha(process.env.COPPERBOOK_SUITE_OUTPUT);
  const mocha = new Mocha({ timeout: 60_000, reporter: join(__dirname, "../../tally.cjs") });
  for (const name of readdirSync(__dirname)) if (name.endsWith(".test.ts")) mocha.addFile(join(__dirname, name));
  const failures = await new Promise((end) => mocha.run(end));
  if (failures > 0) throw new Error(`${failures} of the suite's tests failed.`);
};

/** Mocha keeps the console that it finds when it is loaded; with an output file it finds one that writes there. */
function loadMocha(output) {
  if (output === undefined) return require("mocha");
  const console = Object.getOwnPropertyDescriptor(globalThis, "console");
  const log = (...values) => appendFileSync(output, `${format(...values)}\n`);
  Object.defineProperty(globalThis, "console", {
    value: { ...globalThis.console, log, error: log },
    configurable: true,
  });
  try {
    return require("mocha");
  } finally {
    Object.defineProperty(globalThis, "console", console);
  }
}
