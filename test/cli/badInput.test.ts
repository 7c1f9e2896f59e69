import assert from "node:assert/strict";
import { symlinkSync } from "node:fs";
import { join } from "node:path";
import { assertFollowsSchema } from "./schema";
import { parsed, Workspace } from "./workspace";

/** Far beyond what any of these takes; only what hangs, or grows with the square of its size, comes near it. */
const PATIENCE_MILLISECONDS = 20_000;

/** Stands behind everything bad: it must be computed all the same. */
const REST = "\n# The rest\n\n    given rest = 3 V\n    twice = 2 * rest\n    must twice <= 7 V\n";

interface Bad {
  readonly what: string;
  readonly content: string | Uint8Array;
  /** The errors and warnings: `line code`. */
  readonly findings: readonly string[];
}

const BAD: readonly Bad[] = [
  {
    what: "not UTF-8",
    content: Buffer.concat([Buffer.from("    a = 2 V # "), Uint8Array.of(0xb5), Buffer.from("\n")]),
    findings: ["1 text.notUtf8"],
  },
  {
    what: "CRLF",
    content: "    a = 2 V\r\n    b = a + 1 s\r\n    c = a +\r\n        1 V\r\n",
    findings: ["2 unit.mismatch"],
  },
  {
    what: "500 nested brackets",
    content: `    a = ${"(".repeat(500)}1${")".repeat(500)}\n`,
    findings: ["1 syntax.tooDeep"],
  },
  { what: "10^10^10", content: "    a = 10^10^10\n", findings: ["1 value.undefined"] },
  { what: "division by zero", content: "    z = 0\n    a = 1 / z\n", findings: ["2 value.undefined"] },
  {
    what: "no number",
    content: "    a = 0 / 0\n    b = sqrt(-1)\n    c = ln(-2)\n",
    findings: ["1 value.undefined", "2 value.undefined", "3 value.undefined"],
  },
  {
    what: "names of the language beneath",
    content:
      "    given constructor = 1 V\n    __proto__ = 2 * constructor\n    toString = __proto__ + hasOwnProperty\n",
    findings: ["3 name.unknown"],
  },
  {
    what: "a function named after the language beneath",
    content: "    a = valueOf(2)\n    b = constructor(1)\n",
    findings: ["1 name.unknown", "2 name.unknown"],
  },
  {
    what: "units named after the language beneath",
    content: "    a = 2 constructor\n    b = 3 __proto__\n",
    findings: ["1 unit.unknown", "2 unit.unknown"],
  },
  {
    what: "a note that uses itself",
    content: '    use "bad.calcs.md" as me\n    a = me.rest\n',
    findings: ["1 use.self"],
  },
  { what: "a missing note", content: '    use "gone.calcs.md" as gone\n    a = gone.x\n', findings: ["1 use.missing"] },
  { what: "a note outside", content: '    use "../secret.calcs.md" as s\n    a = s.x\n', findings: ["1 use.outside"] },
  {
    what: "a note outside by an absolute path",
    content: '    use "/etc/secret.calcs.md" as s\n',
    findings: ["1 use.outside"],
  },
  {
    what: "a note outside by a link",
    content: '    use "link.calcs.md" as s\n    a = s.x\n',
    findings: ["1 use.outside"],
  },
  { what: "a file that is no note", content: '    use "bad.md" as s\n', findings: ["1 use.notANote"] },
  {
    what: "a folder with the name of a note",
    content: '    use "folder.calcs.md" as s\n',
    findings: ["1 use.unreadable"],
  },
  { what: "a circle", content: "    a = b + 1\n    b = a - 1\n", findings: ["1 name.circular"] },
];

describe("bad input", () => {
  let workspace: Workspace;
  beforeEach(() => {
    workspace = new Workspace().write("secret.calcs.md", "    x = 987654321\n").write("root/folder.calcs.md/x", "");
    symlinkSync("../secret.calcs.md", join(workspace.folder, "root/link.calcs.md"));
  });
  afterEach(() => workspace.remove());

  const checked = async (content: string | Uint8Array) => {
    workspace.write("root/bad.calcs.md", content);
    const started = performance.now();
    const run = await workspace.run(["check", "bad.calcs.md", "--format", "json"], {}, "root");
    const text = await workspace.run(["check", "bad.calcs.md"], {}, "root");
    assert.ok(performance.now() - started < PATIENCE_MILLISECONDS);
    assert.equal(run.errors, "");
    assert.equal(text.code, run.code);
    assertFollowsSchema(run.output);
    const [note] = parsed(run).notes;
    assert.equal(note.values.find(({ name }) => name === "twice")?.value, 6, "The rest is computed.");
    assert.equal(note.rules.at(-1)?.state, "holds");
    assert.ok(!run.output.includes("987654321"), "Nothing outside is read.");
    return { ...run, note };
  };

  for (const { what, content, findings } of BAD) {
    it(`${what} is found at its place, and the rest computed`, async () => {
      const { note, code } = await checked(Buffer.concat([Buffer.from(content), Buffer.from(REST)]));
      assert.deepEqual(
        note.findings.map((finding) => `${finding.line} ${finding.code}`),
        findings,
      );
      assert.equal(code, note.findings.some(({ severity }) => severity === "error") ? 1 : 0);
    });
  }

  it("a megabyte on one line is read", async () => {
    const { note } = await checked(`    a = 1${" + 1".repeat(250_000)}\n${REST}`);
    assert.ok(note.findings.every(({ line }) => line === 1));
    assert.ok(note.findings.length <= 1 || note.values.some(({ name, value }) => name === "a" && value === 250_001));
  });

  it("a megabyte of one word is read", async () => {
    const { note, code } = await checked(`    a = ${"x".repeat(1_000_000)}\n${REST}`);
    assert.deepEqual([note.findings.length, note.findings[0].line, code], [1, 1, 1]);
    assert.ok(note.findings[0].message.length < 1000, "The message does not repeat the megabyte.");
  });

  it("20,000 lines are computed", async () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => (i === 0 ? "    x0 = 1 V" : `    x${i} = x${i - 1} + 1 V`));
    const { note, code } = await checked(`${lines.join("\n")}\n${REST}`);
    assert.equal(code, 0);
    assert.equal(note.values.find(({ name }) => name === "x19999")?.value, 20_000);
  });

  it("an empty note has nothing to say", async () => {
    workspace.write("root/empty.calcs.md", "");
    const run = await workspace.run(["check", "empty.calcs.md", "--format", "json"], {}, "root");
    assert.deepEqual(parsed(run).notes, [
      { path: "empty.calcs.md", values: [], rules: [], findings: [], openItems: [], settleFirst: [] },
    ]);
    assert.equal(run.code, 0);
  });
});
