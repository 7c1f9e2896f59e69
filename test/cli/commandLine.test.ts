import assert from "node:assert/strict";
import { version } from "../../package.json";
import { HELP, parseCommandLine, UsageError } from "../../src/cli/commandLine";
import { runIn } from "./workspace";

describe("the arguments", () => {
  const right: readonly [args: string, command: ReturnType<typeof parseCommandLine>][] = [
    ["check", { kind: "check", paths: [], format: "text" }],
    ["check a b/c.calcs.md", { kind: "check", paths: ["a", "b/c.calcs.md"], format: "text" }],
    ["check --format json a", { kind: "check", paths: ["a"], format: "json" }],
    ["--format=json check", { kind: "check", paths: [], format: "json" }],
    ["check --format json --format text", { kind: "check", paths: [], format: "text" }],
    ["check -- --odd.calcs.md", { kind: "check", paths: ["--odd.calcs.md"], format: "text" }],
    ["values a.calcs.md", { kind: "values", path: "a.calcs.md", format: "text" }],
    ["values --format json a.calcs.md", { kind: "values", path: "a.calcs.md", format: "json" }],
    ["values a.calcs.md --format csv", { kind: "values", path: "a.calcs.md", format: "csv" }],
    ["values a.calcs.md --trials adaptive", { kind: "values", path: "a.calcs.md", format: "text", trials: "adaptive" }],
    ["check --all-rules", { kind: "check", paths: [], format: "text", allRules: true }],
    ["check --trials 1000 a", { kind: "check", paths: ["a"], format: "text", trials: 1000 }],
    ["values a.calcs.md --trials 10_000", { kind: "values", path: "a.calcs.md", format: "text", trials: 10_000 }],
    ["handbook", { kind: "handbook" }],
    ["handbook led.burden", { kind: "handbook", word: "led.burden" }],
    ["handbook led burden", { kind: "handbook", word: "led.burden" }],
    ["--help", { kind: "help" }],
    ["check --help", { kind: "help" }],
    ["-h", { kind: "help" }],
    ["help", { kind: "help" }],
    ["--version", { kind: "version" }],
    ["version", { kind: "version" }],
    ["--version --help", { kind: "version" }],
  ];
  for (const [args, command] of right)
    it(`take “${args}”`, () => assert.deepEqual(parseCommandLine(args.split(" ")), command));

  const wrong: readonly [args: readonly string[], message: string][] = [
    [[], "A command is missing: check, values or handbook."],
    [["chekc"], "There is no command “chekc”: the commands are check, values and handbook."],
    [["constructor"], "There is no command “constructor”: the commands are check, values and handbook."],
    [["chek"], "There is no command “chek”: the commands are check, values and handbook. Did you mean check?"],
    [
      ["lamp.calcs.md"],
      "There is no command “lamp.calcs.md”. To judge the note write “copperbook check lamp.calcs.md”.",
    ],
    [["check", "--fromat", "json"], "There is no option --fromat. Did you mean --format?"],
    [["check", "--json"], "There is no option --json. Did you mean --format json?"],
    [["check", "-f", "json"], "There is no option -f."],
    [["check", "--__proto__"], "There is no option --__proto__."],
    [["check", "-x"], "There is no option -x."],
    [["check", "--format"], "--format wants a name behind it, such as json."],
    [["check", "--format="], "--format wants a name behind it, such as json."],
    [["check", "--format", "csv"], "“check” has no format csv: its formats are text, json."],
    [["values", "a", "--format", "xml"], "“values” has no format xml: its formats are text, json, csv."],
    [["values"], "“values” prints one note, and none was named."],
    [["values", "a", "b"], "“values” prints one note, and 2 were named."],
    [["handbook", "led", "burden", "wire"], "“handbook” looks one word up, and 3 were named."],
    [["handbook", "--format", "json"], "“handbook” is printed as text and has no other format."],
    [
      ["values", "a", "--trials", "ten"],
      "--trials wants “adaptive” or a whole number from 100 to 10000000 behind it, here “ten”.",
    ],
    [["values", "a", "--trials"], "--trials wants “adaptive” or a whole number from 100 to 10000000 behind it."],
    [
      ["values", "a", "--trials", "1e9"],
      "--trials wants “adaptive” or a whole number from 100 to 10000000 behind it, here “1e9”.",
    ],
    [
      ["values", "a", "--trials", "-100"],
      "--trials wants “adaptive” or a whole number from 100 to 10000000 behind it, here “-100”.",
    ],
    [
      ["values", "a", "--trials=99"],
      "--trials wants “adaptive” or a whole number from 100 to 10000000 behind it, here “99”.",
    ],
    [["values", "a", "--all-rules"], "--all-rules belongs to “check”."],
    [["handbook", "--trials", "1000"], "--trials belongs to “check” and “values”."],
    [["--help=yes"], "--help takes no value, here “yes”."],
  ];
  for (const [args, message] of wrong) {
    it(`refuse “${args.join(" ")}”`, () =>
      assert.throws(
        () => parseCommandLine(args),
        (error) => error instanceof UsageError && error.message === message,
      ));
  }

  it("answer --help with all commands, options and exit codes", async () => {
    const run = await runIn(".", ["--help"]);
    assert.deepEqual(run, { code: 0, output: HELP, errors: "" });
    for (const part of ["check", "values", "--format text|json|csv", "--help", "--version", "  0  ", "  1  ", "  2  "])
      assert.ok(HELP.includes(part), part);
    for (const line of HELP.split("\n")) assert.ok(line.length <= 80, line);
  });

  it("answer --version with the version of the package", async () => {
    const run = await runIn(".", ["--version"]);
    assert.deepEqual(run, { code: 0, output: `copperbook ${version}\n`, errors: "" });
  });

  it("end with 2 and a sentence where they make no sense", async () => {
    const run = await runIn(".", ["check", "--all"]);
    const errors = "copperbook: There is no option --all.\nSee copperbook --help.\n";
    assert.deepEqual(run, { code: 2, output: "", errors });
  });
});

describe("what is said of a path", () => {
  it("has no power over the terminal", async () => {
    const { code, errors } = await runIn(".", ["check", "ba\u001b[31md\n.calcs.md"]);
    assert.equal(code, 2);
    assert.ok(!errors.includes("\u001b"), JSON.stringify(errors));
    assert.equal(errors.trimEnd().split("\n").length, 1);
  });
});
