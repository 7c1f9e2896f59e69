import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { assertFollowsSchema } from "./schema";
import { parsed, runIn } from "./workspace";

const PROJECT = join(__dirname, "../..");

/** The one honest problem of each sample: where it is, what kind, and what it speaks of. */
const PROBLEMS: Readonly<Record<string, { at: string; code: string; severity: string; of: RegExp }>> = {
  "display-case-bar": { at: "bar.calcs.md:65", code: "rule.failsAtLimits", severity: "error", of: /T_bar <= 55 °C/ },
  "soil-probe": { at: "probe.calcs.md:38", code: "measurement.disjoint", severity: "error", of: /I_sleep/ },
  "camera-slider": { at: "slider.calcs.md:44", code: "choice.overtaken", severity: "warning", of: /160 mΩ.*150 mΩ/ },
  "seedling-shelf": {
    at: "shelf.calcs.md:16",
    code: "rule.fails",
    severity: "warning",
    of: /I_total <= adapter\.I_plan/,
  },
};

describe("the samples", () => {
  const folders = readdirSync(join(PROJECT, "samples"), { withFileTypes: true }).filter((entry) => entry.isDirectory());

  it("are those whose problem is known", () =>
    assert.deepEqual(folders.map(({ name }) => name).sort(), Object.keys(PROBLEMS).sort()));

  for (const { name } of folders) {
    it(`have one problem in ${name}`, async () => {
      const run = await runIn(PROJECT, ["check", `samples/${name}`, "--format", "json"]);
      assertFollowsSchema(run.output);
      const { at, code, severity, of } = PROBLEMS[name];
      const found = parsed(run).notes.flatMap(({ path, findings }) =>
        findings.map((finding) => ({ ...finding, at: `${path}:${finding.line}` })),
      );
      assert.deepEqual(
        found.map((finding) => [finding.at, finding.code, finding.severity]),
        [[`samples/${name}/${at}`, code, severity]],
      );
      assert.match(found[0].message, of);
      assert.equal(run.code, severity === "error" ? 1 : 0);
    });

    it(`have guesses, choices, rules and open items in ${name}`, async () => {
      const run = await runIn(PROJECT, ["check", `samples/${name}`]);
      assert.match(run.output, /\n {2}settle first {2}/);
      assert.match(run.output, /\n {2}open items {2}/);
      const notes = parsed(await runIn(PROJECT, ["check", `samples/${name}`, "--format", "json"])).notes;
      assert.ok(notes.some(({ values }) => values.some(({ kind }) => kind === "chosen")) || name === "seedling-shelf");
      for (const { values, path } of notes)
        for (const value of values) assert.ok("value" in value, `${path}: ${value.name} has a value.`);
    });
  }

  it("end with 1 all together", async () => {
    const { code, output } = await runIn(PROJECT, ["check", "samples"]);
    assert.equal(code, 1);
    assert.match(output, /\n6 notes: 2 fail · 23 hold · 8 guesses · 8 open items\n/);
  });
});
