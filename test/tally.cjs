/**
 * Mocha's own report, and its counts as one line of JSON appended to the file that COPPERBOOK_TALLY names, so that several runs can be summed
 * wherever they run, be it inside an editor.
 */
const { appendFileSync } = require("node:fs");
const { reporters, Runner } = require("mocha");

module.exports = class Tally extends reporters.Spec {
  constructor(runner, options) {
    super(runner, options);
    const file = process.env.COPPERBOOK_TALLY;
    if (file === undefined) return;
    runner.once(Runner.constants.EVENT_RUN_END, () => {
      const { passes, failures } = runner.stats;
      appendFileSync(file, `${JSON.stringify({ passed: passes, failed: failures })}\n`);
    });
  }
};
