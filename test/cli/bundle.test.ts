import assert from "node:assert/strict";
import { spawn, spawnSync, type StdioOptions } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, openSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { runIn, Workspace } from "./workspace";

/** A device that has no space left, where there is one. */
const FULL = "/dev/full";
const PROJECT = join(__dirname, "../..");

/** The command line as a process of its own, bundled for the purpose. */
describe("the program", () => {
  const folder = mkdtempSync(join(tmpdir(), "copperbook-program-"));
  const program = join(folder, "cli.js");
  let workspace: Workspace;

  before(async () => {
    const entryPoints = [join(PROJECT, "src/cli/main.ts")];
    await build({ entryPoints, outfile: program, bundle: true, platform: "node", format: "cjs", logLevel: "error" });
  });
  after(() => rmSync(folder, { recursive: true }));
  beforeEach(() => (workspace = new Workspace().write("a.calcs.md", "    given I = 2 A\n    must I <= 1 A\n")));
  afterEach(() => workspace.remove());

  const run = (args: readonly string[], cwd = workspace.folder) =>
    spawnSync(process.execPath, [program, ...args], { encoding: "utf8", cwd });

  const codes: readonly [args: readonly string[], code: number][] = [
    [["--help"], 0],
    [["values", "a.calcs.md"], 1],
    [["check"], 1],
    [["check", "gone"], 2],
    [["--no-such-option"], 2],
  ];
  for (const [args, code] of codes)
    it(`ends with ${code} for “${args.join(" ")}”`, () => assert.equal(run(args).status, code));

  it("prints what it prints in this process", async () => {
    for (const args of [["check", "samples"], ["check", "samples", "--format", "json"], ["chekc"]]) {
      const { output, errors, code } = await runIn(PROJECT, args);
      const { stdout, stderr, status } = run(args, PROJECT);
      assert.deepEqual([stdout, stderr, status], [output, errors, code]);
    }
  });

  it("reads the handbook beside it, and says where it is gone", () => {
    workspace.write("led.calcs.md", "    R = led.series_resistor(24 V, 7, 3 V, 20 mA)\n    must R = 150 Ω\n");
    const gone = run(["check", "led.calcs.md"]);
    assert.equal(gone.status, 1);
    assert.match(gone.stdout, /The chapter\s+`led` of the handbook cannot be read/);
    cpSync(join(PROJECT, "src/handbook"), join(folder, "handbook"), { recursive: true });
    assert.equal(run(["check", "led.calcs.md"]).status, 0);
  });

  it("says in a sentence that the current folder is gone", () => {
    const script = `mkdir gone && cd gone && rmdir ../gone && exec "$0" "$1" --version`;
    const { stderr, status } = spawnSync("sh", ["-c", script, process.execPath, program], {
      encoding: "utf8",
      cwd: workspace.folder,
    });
    assert.match(stderr, /^copperbook: The current folder cannot be read: [^\n]+\.\n$/);
    assert.equal(status, 2);
  });

  it("says in a sentence that what it prints cannot be written", function () {
    if (!existsSync(FULL)) return this.skip();
    for (const args of [["check"], ["values", "a.calcs.md"], ["--help"]]) {
      const stdio: StdioOptions = ["ignore", openSync(FULL, "w"), "pipe"];
      const { status, stderr } = spawnSync(process.execPath, [program, ...args], {
        encoding: "utf8",
        cwd: workspace.folder,
        stdio,
      });
      assert.equal(status, 2);
      assert.match(stderr, /^copperbook: the output cannot be written: there is no space left\.\n/m);
      assert.doesNotMatch(stderr, /\n {4}at /);
    }
    const muted = spawnSync(process.execPath, [program, "check"], {
      cwd: workspace.folder,
      stdio: ["ignore", openSync(FULL, "w"), openSync(FULL, "w")],
    });
    assert.equal(muted.status, 2, "It can tell nobody, and still says so by its code.");
  });

  it("ends quietly where its reader goes away", async () => {
    const lines = Array.from({ length: 5000 }, (_, i) => `    x${i} = ${i} V\n`).join("");
    workspace.write("long.calcs.md", lines);
    const child = spawn(process.execPath, [program, "values", "long.calcs.md", "--format", "json"], {
      cwd: workspace.folder,
    });
    let errors = "";
    child.stderr.on("data", (text: Buffer) => (errors += text.toString()));
    child.stdout.once("data", () => child.stdout.destroy());
    const code = await new Promise((ended) => child.once("close", ended));
    assert.deepEqual({ code, errors }, { code: 0, errors: "" });
  });
});
