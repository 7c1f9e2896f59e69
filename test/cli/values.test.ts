import assert from "node:assert/strict";
import { assertFollowsSchema } from "./schema";
import { parsed, Workspace } from "./workspace";

const NOTE = `    given  supply = 12 V ± 5 % from "sheet"
    assume I = 20 mA
    R = (supply - 9 V) / I choose 150 Ω from E24
    over T_a = -5 .. 35 °C
    lost = supply + nowhere
    pair = [1 V, 2 V]
    order boards = 5
`;

describe("copperbook values", () => {
  let workspace: Workspace;
  beforeEach(() => (workspace = new Workspace().write("a.calcs.md", NOTE).write("good.calcs.md", "    x = 3 V\n")));
  afterEach(() => workspace.remove());

  it("marks a range that may be too wide", async () => {
    const lines = "    given a = 1 .. 2\n    given b = 1 .. 2\n    x = floor(100 * a * b) - floor(100 * a * b * b)\n";
    workspace.write("wide.calcs.md", lines);
    const { output } = await workspace.run(["values", "wide.calcs.md"]);
    assert.match(output, /^x .* derived +line 3 +enclosure$/m);
    assert.match(output, /^a +1 \.\. 1\.5 \.\. 2 +given +line 1$/m);
  });

  it("sets names, values, where they come from and lines in columns", async () => {
    const { output } = await workspace.run(["values", "a.calcs.md"]);
    assert.equal(
      output,
      [
        "supply   11.4 .. 12 .. 12.6 V  given    line 1",
        "I        20 mA                 assumed  line 2",
        "R        150 Ω                 chosen   line 3",
        "T_a      -5 .. 15 .. 35 °C     over     line 4",
        "lost     no value              derived  line 5",
        "pair[1]  1 V                   derived  line 6",
        "pair[2]  2 V                   derived  line 6",
        "boards   5                     order    line 7",
        "",
      ].join("\n"),
    );
  });

  describe("with trials", () => {
    // A width of 1.2 V spread evenly has a standard deviation of 1.2 V/√12; 95 % of it are 1.14 V.
    const EVEN = { mean: 12, sd: 1.2 / Math.sqrt(12), low: 11.43, high: 12.57 };

    it("says how values are distributed from build to build", async () => {
      const run = await workspace.run(["values", "a.calcs.md", "--format", "json", "--trials", "100000"]);
      assertFollowsSchema(run.output);
      const values = parsed(run).notes[0].values;
      const [supply, I] = values;
      const { mean, sd, interval95 } = supply as unknown as { mean: number; sd: number; interval95: [number, number] };
      const expected = [EVEN.mean, EVEN.sd, EVEN.low, EVEN.high];
      [mean, sd, ...interval95].forEach((figure, i) =>
        assert.ok(Math.abs(figure - expected[i]) < 0.01, `${figure} is not ${expected[i]}`),
      );
      assert.equal(I.mean, undefined);
      const over = values.find(({ name }) => name === "T_a")!;
      assert.equal(over.mean, undefined, "Every build passes through all of a condition.");
    });

    it("draws the same builds for the same note", async () => {
      const args = ["values", "a.calcs.md", "--format", "csv", "--trials", "1000"];
      const first = await workspace.run(args);
      assert.equal((await workspace.run(args)).output, first.output);
      assert.match(first.output, /^name,line,kind,value,min,max,unit,shown,mean,sd,low95,high95\r\nsupply,1,/);
    });

    it("draws as many as it takes where that is asked for", async () => {
      const run = await workspace.run(["values", "a.calcs.md", "--format", "json", "--trials", "adaptive"]);
      assertFollowsSchema(run.output);
      const supply = parsed(run).notes[0].values[0] as unknown as { mean: number; sd: number };
      // Good to two digits of the standard deviation: half of the second one.
      assert.ok(Math.abs(supply.sd - EVEN.sd) <= 0.005, `${supply.sd}`);
      assert.ok(Math.abs(supply.mean - EVEN.mean) <= 0.005, `${supply.mean}`);
    });

    it("sets limits about a mean of nearly zero in a unit that fits them", async () => {
      workspace.write(
        "zero.calcs.md",
        "    given a = 10 V ± 1 V\n    given b = 2 A ± 0.1 A\n    x = a - a * b / 2 A\n",
      );
      const { output } = await workspace.run(["values", "zero.calcs.md", "--trials", "100000"]);
      assert.match(output, /^x .* 95 % of builds: -480 \.\. 0 \.\. 480 mV$/m);
    });

    it("sets the limits of 95 % of builds behind a value", async () => {
      const { output } = await workspace.run(["values", "a.calcs.md", "--trials", "100000"]);
      assert.match(
        output,
        /^supply +11\.4 \.\. 12 \.\. 12\.6 V +given +line 1 +95 % of builds: 11\.4 \.\. 12 \.\. 12\.6 V$/m,
      );
    });
  });

  it("prints CSV with the fields of the JSON", async () => {
    const { output } = await workspace.run(["values", "a.calcs.md", "--format", "csv"]);
    assert.deepEqual(output.split("\r\n"), [
      "name,line,kind,value,min,max,unit,shown",
      "supply,1,given,12,11.4,12.6,V,11.4 .. 12 .. 12.6 V",
      "I,2,assumed,0.02,0.02,0.02,A,20 mA",
      "R,3,chosen,150,150,150,Ω,150 Ω",
      "T_a,4,over,288.15,268.15,308.15,K,-5 .. 15 .. 35 °C",
      "lost,5,derived,,,,,",
      "pair[1],6,derived,1,1,1,V,1 V",
      "pair[2],6,derived,2,2,2,V,2 V",
      "boards,7,order,5,5,5,1,5",
      "",
    ]);
  });

  it("has in JSON what a value and a rule are made of, worked by hand", async () => {
    workspace.write(
      "hand.calcs.md",
      "    given a = 10 V ± 1 V\n    given b = 2 A ± 0.1 A\n    P = a * b\n    must P <= 22 W\n    must P >= c\n    c = d + 1 W\n",
    );
    const run = await workspace.run(["values", "hand.calcs.md", "--format", "json"]);
    assertFollowsSchema(run.output);
    const { values, rules } = parsed(run).notes[0];
    const P = values[2] as unknown as Record<string, unknown> & { standardUncertainty: number };
    assert.deepEqual([P.min, P.max, P.attained], [17.1, 23.1, true]);
    assert.deepEqual(P.inputsAt, { min: { a: "9 V", b: "1.9 A" }, max: { a: "11 V", b: "2.1 A" } });
    // Slopes 2 A and 10 V by half-widths 1 V and 0.1 A, each over √3: √(4/3 + 1/3) W. Of the range 4 W and 2 W of 6 W.
    assert.ok(Math.abs(P.standardUncertainty - Math.sqrt(5 / 3)) < 1e-9);
    const shares = P.contributions as { name: string; share: number; varianceShare: number }[];
    assert.deepEqual(
      shares.map(({ name, share }) => [name, share]),
      [
        ["a", 0.6667],
        ["b", 0.3333],
      ],
    );
    assert.ok(Math.abs(shares[0].varianceShare - 0.8) < 0.001 && Math.abs(shares[1].varianceShare - 0.2) < 0.001);
    const [most, least] = rules as unknown as Record<string, unknown>[];
    assert.deepEqual([most.spare, most.inputsAt], [-0.05, { worst: { a: "11 V", b: "2.1 A" } }]);
    // Above 22 W lies (11 V − 22 W/b)/2 V of the builds at each b above 2 A: (1.1 − 22·ln 1.05)/0.4 of all.
    assert.ok(Math.abs((most.share as number) - (1 - (1.1 - 22 * Math.log(1.05)) / 0.4)) < 0.003);
    assert.deepEqual([least.state, least.reason], ["undecided", "c has no value"]);
  });

  it("prints the same JSON as check", async () => {
    const values = await workspace.run(["values", "a.calcs.md", "--format", "json"]);
    const check = await workspace.run(["check", "a.calcs.md", "--format", "json"]);
    assert.equal(values.output, check.output);
    assertFollowsSchema(values.output);
    assert.deepEqual(parsed(values).notes[0].values.length, 8);
  });

  it("ends as check does, and points there where not all is well", async () => {
    const hint = "copperbook: a must does not hold, or the note has an error; copperbook check says which.\n";
    for (const format of ["text", "csv"]) {
      const { code, errors } = await workspace.run(["values", "a.calcs.md", "--format", format]);
      assert.deepEqual({ code, errors }, { code: 1, errors: hint });
    }
    const json = await workspace.run(["values", "a.calcs.md", "--format", "json"]);
    assert.deepEqual([json.code, json.errors], [1, ""]);
    const good = await workspace.run(["values", "good.calcs.md"]);
    assert.deepEqual(good, { code: 0, output: "x  3 V  derived  line 1\n", errors: "" });
  });

  it("says so where there are none", async () => {
    workspace.write("rules.calcs.md", "    must 1 V < 2 V\n").write("prose.calcs.md", "# Nothing to compute\n");
    const run = await workspace.run(["values", "rules.calcs.md"]);
    assert.deepEqual(run, { code: 0, output: "The note has no values.\n", errors: "" });
    assert.match((await workspace.run(["values", "prose.calcs.md"])).output, /^Nothing in this note computes: /);
  });

  it("ends with 2 for a folder, a file that is missing or no note, or a note too large", async () => {
    workspace.write("b.md", "").write("large.calcs.md", Buffer.alloc(17 * 1024 * 1024, "x"));
    for (const name of [".", "gone.calcs.md", "b.md", "large.calcs.md"]) {
      const { code, output, errors } = await workspace.run(["values", name]);
      assert.deepEqual([code, output], [2, ""], name);
      assert.match(errors, /^copperbook: \S.*\.\n$/);
    }
  });
});
