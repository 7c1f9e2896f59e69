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
  handrail: { at: "rail.calcs.md:56", code: "rule.fails", severity: "error", of: /K1, K2, K3 and 3 more, 100 % short/ },
  "seedling-shelf": {
    at: "shelf.calcs.md:16",
    code: "rule.fails",
    severity: "warning",
    of: /I_total <= adapter\.I_plan/,
  },
  "stair-lights": {
    at: "stairs.calcs.md:73",
    code: "rule.fails",
    severity: "warning",
    of: /cost <= budget.*6 % short/,
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

  it("add up a set of stair lights as it adds up by hand", async () => {
    const [{ values }] = parsed(
      await runIn(PROJECT, ["values", "samples/stair-lights/stairs.calcs.md", "--format", "json"]),
    ).notes;
    const endsOf = (name: string) => {
      const found = values.find((value) => value.name === name)!;
      return [found.min, found.value, found.max]
        .filter((x) => x !== undefined)
        .map((x) => Number(Number(x).toPrecision(6)));
    };
    // In grams: 14 * (6.5 + 48 + 12) + 12 + 35 + 210 + 180, and the same with all at one end.
    assert.deepEqual(endsOf("mass"), [1.2778, 1.368, 1.4582]);
    // Two strings a step between supply and three LEDs, and the controller.
    assert.deepEqual(endsOf("I_total"), [0.388861, 0.6075, 0.830455]);
    // 1680 LEDs, 560 resistors, 280 profiles, 300 leads, 20 controllers and adapters, 280 boards, each at the price for so many:
    // 84 * 0.068 + 28 * 0.008 + 14 * 2.45 + 15 * 0.95 + 14.5 + 11.2 + 14 * 2.6.
    assert.equal(endsOf("cost")[1], 116.586);
  });

  it("feed a rail as it is fed by hand", async () => {
    const [{ values }] = parsed(
      await runIn(PROJECT, ["values", "samples/handrail/rail.calcs.md", "--format", "json"]),
    ).notes;
    const named = (name: string) => values.find((value) => value.name === name)!;
    const near = (actual: string | number | undefined, expected: number, what: string) =>
      assert.ok(Math.abs(Number(actual) - expected) < 1e-9, `${what}: ${actual}, not ${expected}`);
    // Moments about the upper end of the loop of 10 mΩ, five times 8 mΩ, and 70 mΩ: six boards at 10, 18, … 50 mΩ of 120 mΩ.
    near(named("rail.lower.current").value, (0.35 * 180) / 120, "rail.lower.current");
    // 24 V less what drops in adapter and lower lead, and in the return.
    const returned = (5 + 4 + 3 + 2 + 1) * 0.35 * 8e-3 + 2.1 * 10e-3;
    near(named("rail.B6.supply").value, 24 - 2.1 * 60e-3 - 0.525 * 70e-3 - returned, "rail.B6.supply");
    // The return carries what is drawn behind each link, whatever the links are.
    near(named("rail.K1.current").min, 5 * 0.32, "rail.K1.current");
    near(named("rail.K1.current").max, 5 * 0.4, "rail.K1.current");
    near(named("rail.adapter.current").max, 6 * 0.4, "rail.adapter.current");
    // At the worst corner of links and loads, found by trying all by another program: 23.1727 V.
    assert.ok(Number(named("rail.B6.supply").min) <= 23.17273973 && Number(named("rail.B6.supply").min) > 23.1);
  });

  it("end with 1 all together", async () => {
    const { code, output } = await runIn(PROJECT, ["check", "samples"]);
    assert.equal(code, 1);
    assert.match(output, /\n8 notes: 4 fail · 30 hold · 10 guesses · 12 open items\n/);
  });
});
