import assert from "node:assert/strict";
import { Service } from "../../src/service";
import { libraryOf } from "../features/notes";

/**
 * Each bad input stands above a few good lines. It must be found where it is, the rest must be computed, and nothing may
 * hang or overflow the stack. The times are those of a watchdog, many times what is needed.
 */
const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };
const PATH = "bad.calcs.md";
const REST = "\n    rest = 2 * 21\n    must rest = 42\n";

/** Far more than the slowest case takes on a slow machine. */
const PATIENCE_SECONDS = 20;

/** Opens a note whose bad lines stand above good ones; its findings by line, from 1. */
async function found(bad: string, files: Readonly<Record<string, string>> = {}): Promise<Service> {
  const service = new Service(libraryOf(files), SETTINGS);
  const start = process.hrtime.bigint();
  service.open(PATH, bad + REST);
  await service.load();
  service.findings(PATH);
  service.results(PATH);
  const { rules } = service.record(PATH);
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  assert.ok(seconds < PATIENCE_SECONDS, `It took ${seconds} s.`);
  assert.equal(rules.at(-1)?.state, "holds", "The rest of the note is computed.");
  return service;
}

function codes(service: Service): string[] {
  const lines = service.snapshot(PATH)!.lines;
  return service.findings(PATH).map(({ code, span }) => `${lines.positionAt(span.start).line + 1} ${code}`);
}

function value(service: Service, name: string): number | undefined {
  return service.record(PATH).values.find((each) => each.name === name)?.value;
}

const repeated = (count: number, line: (i: number) => string) =>
  Array.from({ length: count }, (_, i) => line(i)).join("");

describe("bad input", () => {
  const small: readonly [what: string, bad: string, expected: readonly string[]][] = [
    ["CRLF", "    a = 2\r\n    b = a +\r\n      3\r\n    c = nothing\r\n", ["4 name.unknown"]],
    ["a lone CR is a line end", "    a = 2\r    b = nothing\r", ["2 name.unknown"]],
    ["10^10^10", "    a = 10^10^10\n", ["1 value.undefined"]],
    ["division by zero", "    a = 1 / 0\n    b = a + 1\n", ["1 value.undefined"]],
    ["division by what can be zero", "    assume z = -1 .. 2\n    a = 1 / z\n    must a < 9", ["2 range.undefined"]],
    ["zero by zero", "    a = 0 / 0\n", ["1 value.undefined"]],
    [
      "no real root",
      "    a = sqrt(-1)\n    b = ln(0)\n    c = asin(2)\n",
      ["1 value.undefined", "2 value.undefined", "3 value.undefined"],
    ],
    ["NaN and Infinity are names like others", "    a = NaN + Infinity\n", ["1 name.unknown", "1 name.unknown"]],
    ["a huge exponent", "    a = 1e999999\n", ["1 literal.unreadable"]],
    ["a huge exponent of a unit", "    a = 3 m^99999\n", ["1 unit.unknown"]],
    ["a power whose unit nobody can count", "    a = (2 m)^1e300\n", ["1 value.undefined"]],
    ["a tiny exponent", "    a = 1e-999999\n", ["1 literal.unreadable"]],
    ["a quantity of its own", "    a = a\n", ["1 name.circular"]],
    ["a function of its own", "    f(x) = f(x - 1)\n    a = f(3)\n", ["1 name.circular"]],
    ["use of itself", `    use "${PATH}" as me\n    a = me.rest\n`, ["1 use.self"]],
    ["use of a missing note", '    use "gone.calcs.md" as gone\n    a = gone.x\n', ["1 use.missing"]],
    ["use from outside", '    use "../../etc/passwd.calcs.md" as out\n', ["1 use.outside"]],
    ["use of what is no note", '    use "board.txt" as board\n', ["1 use.notANote"]],
  ];
  for (const [what, bad, expected] of small) {
    it(what, async () => assert.deepEqual(codes(await found(bad)), expected));
  }

  it("names of what every object has are names like others", async () => {
    const names = [
      "constructor",
      "__proto__",
      "prototype",
      "hasOwnProperty",
      "toString",
      "valueOf",
      "__defineGetter__",
    ];
    const bad = names.map((name, i) => `    ${name} = ${i} + 1\n    twice_${name} = 2 * ${name}\n`).join("");
    const service = await found(bad);
    assert.deepEqual(codes(service), []);
    names.forEach((name, i) => {
      assert.equal(value(service, name), i + 1, name);
      assert.equal(value(service, `twice_${name}`), 2 * (i + 1), name);
    });
    const unknown = await found(names.map((name) => `    y_${name} = ${name} + 1 ${name}\n`).join(""));
    const perLine = new Set(codes(unknown).map((code) => code.split(" ")[0]));
    assert.equal(perLine.size, names.length, "Each line has its finding.");
    const parameters = await found(
      `    f(${names.slice(0, 3).join(", ")}) = constructor + __proto__ * prototype\n    a = f(1, prototype = 3, __proto__ = 2)\n`,
    );
    assert.equal(value(parameters, "a"), 7);
  });

  it("notes that use each other in a circle", async () => {
    const service = await found('    use "other.calcs.md" as other\n    a = other.b + 1\n', {
      "other.calcs.md": `    use "${PATH}" as bad\n    b = bad.a + 1\n    c = bad.rest\n`,
    });
    assert.deepEqual(codes(service), ["2 name.circular"]);
    assert.equal(service.record("other.calcs.md").values.find(({ name }) => name === "c")?.value, 42);
  });

  it("a megabyte on one line, of prose and of a statement", async () => {
    assert.deepEqual(codes(await found("word ".repeat(200_000) + "\n\n")), []);
    const sum = await found(`    a = 1${" + 1".repeat(250_000)}\n`);
    assert.ok(codes(sum).length > 0 || value(sum, "a") === 250_001);
    assert.ok(codes(await found(`    a = ${"nonsense ".repeat(110_000)}\n`)).length > 0);
    assert.ok(codes(await found(`    ${"x".repeat(1_000_000)} = 3 +\n    b = 2\n`)).length > 0);
  });

  it("twenty thousand lines", async () => {
    const service = await found(repeated(20_000, (i) => `    v${i} = ${i} * 1 mA\n`));
    assert.deepEqual(codes(service), []);
    assert.ok(Math.abs(value(service, "v19999")! - 19.999) < 1e-9);
  });

  it("five hundred brackets in each other", async () => {
    assert.deepEqual(codes(await found(`    a = ${"(".repeat(500)}1${")".repeat(500)}\n`)), ["1 syntax.tooDeep"]);
    assert.ok(codes(await found(`    a = ${"(".repeat(500)}\n`)).length > 0);
    assert.ok(codes(await found(`    a = ${"-".repeat(500)}1\n`)).length > 0);
    assert.ok(codes(await found(`    a = ${"sqrt(".repeat(500)}1${")".repeat(500)}\n`)).length > 0);
    assert.ok(codes(await found(`    a = 2${"^2".repeat(500)}\n`)).length > 0);
  });

  it("a chain of ten thousand lines, in order and against it", async () => {
    const inOrder = await found(`    c0 = 1 ± 1 %\n${repeated(10_000, (i) => `    c${i + 1} = c${i} + 1\n`)}`);
    assert.equal(value(inOrder, "c10000"), 10_001);
    const against = await found(
      `${repeated(10_000, (i) => `    c${9_999 - i} = c${10_000 - i} + 1\n`)}    c10000 = 1\n`,
    );
    assert.equal(value(against, "c0"), 10_001);
  });

  it("a circle of ten thousand lines", async () => {
    const service = await found(repeated(10_000, (i) => `    c${i} = c${(i + 1) % 10_000} + 1\n`));
    assert.deepEqual(codes(service), ["1 name.circular"]);
    assert.ok(service.findings(PATH)[0].message.length < 1000, "The path is cut short.");
    for (const { outcome } of service.snapshot(PATH)!.rows.slice(0, 10_000)) {
      assert.ok(outcome.kind === "quantity" && outcome.values.length === 0);
      assert.deepEqual(
        outcome.problems.map(({ code }) => code),
        ["name.circular"],
      );
    }
  });

  it("a call with three thousand arguments, a list of a hundred thousand members", async () => {
    const call = codes(await found(`    a = max(${repeated(3_000, (i) => `${i}, `)}1)\n`));
    assert.deepEqual(call, ["1 function.arguments"]);
    const list = await found(`    a = [${repeated(100_000, (i) => `${i}, `)}1]\n    b = sum(a)\n`);
    assert.ok(codes(list).length > 0 || value(list, "b") === 4_999_950_001);
  });

  it("functions that call each other twice over", async () => {
    const service = await found(
      `    f0(x) = x\n${repeated(40, (i) => `    f${i + 1}(x) = f${i}(x) + f${i}(x)\n`)}    a = f40(1)\n`,
    );
    const [problem] = service.findings(PATH);
    assert.equal(problem.code, "function.body");
    assert.equal(value(service, "a"), undefined);
  });

  it("functions that do nothing, twice over", async () => {
    const service = await found(
      `    f0(x) = x\n${repeated(40, (i) => `    f${i + 1}(x) = f${i}(f${i}(x))\n`)}    a = f40(1)\n`,
    );
    assert.ok(codes(service).length > 0 || value(service, "a") === 1);
  });

  it("functions that call a hundred others in a row", async () => {
    const service = await found(
      `    f0(x) = x + 1\n${repeated(100, (i) => `    f${i + 1}(x) = f${i}(x)\n`)}    a = f100(1)\n`,
    );
    assert.ok(codes(service).length > 0 || value(service, "a") === 2);
  });
});
