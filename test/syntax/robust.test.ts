import assert from "node:assert/strict";
import fc from "fast-check";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { DEEPEST_NESTING, TALLEST_TREE } from "../../src/syntax/cursor";
import { parseStatement, readsAsStatement } from "../../src/syntax/parse";
import { splitStatements } from "../../src/syntax/split";
import type { Statement } from "../../src/syntax/statement";
import { Arena, Kind, compact } from "../../src/syntax/tree";
import { howMany } from "../howMany";
import { GROWTH, growthOfWork, TOLERATED } from "../counting/growth";
import { texts } from "./longStatements";
import { codes, parse, render } from "./rendering";

/** All examples of the grammar, right and wrong: what the mutations begin with. */
const EXAMPLES = [
  ...readFileSync(join(__dirname, "../../DEVELOPERS.md"), "utf8").matchAll(/^```(?:right|wrong)\n(.*?)^```$/gms),
]
  .flatMap((block) => block[1].split("\n"))
  .filter((line) => line !== "" && !/^ *~+ syntax/.test(line));

const SCRAPS = [
  ..."()[]±.*/^²\"#=<–,;%-·√°µΩ|&!?\\{}'“\n\t",
  ..." if | then | else |not |another |readings [|from |choose |each | for | in | without | of 3 | on 2026-01-01".split(
    "|",
  ),
  ..."..|1/2|4k7|0x|1e|1_|3,3|±5 %|(k = 2)|\u200b|\u202e|\ud800|\u{1d465}|\u00a0|e\u0301|__proto__".split("|"),
];

const mutated = fc
  .tuple(
    fc.constantFrom(...EXAMPLES),
    fc.array(
      fc.record({
        at: fc.nat(80),
        remove: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.nat(6)),
        insert: fc.oneof(
          fc.constantFrom(...SCRAPS),
          fc.constantFrom(...EXAMPLES).map((line) => line.slice(line.length / 2)),
          fc.string({ unit: "binary", maxLength: 3 }),
        ),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  )
  .map(([line, edits]) =>
    edits.reduce((text, { at, remove, insert }) => text.slice(0, at) + insert + text.slice(at + remove), line),
  );

/** What holds for every statement, however garbled. */
function assertSound(read: Statement, text: string): void {
  const inside = (start: number, end: number): boolean => 0 <= start && start <= end && end <= text.length;
  assert.equal(read.text, text);
  for (const { span } of read.problems) assert.ok(inside(span.start, span.end));
  if (read.kind === "broken") assert.ok(read.problems.length > 0, "a broken statement says why");
  const { tree } = read;
  for (let node = 0; node < tree.count; node++) {
    assert.ok(inside(tree.start(node), tree.end(node)));
    if (tree.kind(node) === Kind.Missing) assert.ok(read.problems.length > 0, "what is missing is told");
    let previous = tree.start(node);
    for (const child of tree.children(node)) {
      assert.ok(child < node, "children come before their parent");
      assert.ok(previous <= tree.start(child) && tree.end(child) <= tree.end(node), "children lie in order inside");
      previous = tree.end(child);
    }
  }
}

describe("a garbled statement", () => {
  it("is read without a throw, with all spans inside the text and children inside their parents", () => {
    let broken = 0;
    let whole = 0;
    fc.assert(
      fc.property(mutated, (text) => {
        const read = parse(text);
        assertSound(read, text);
        if (read.problems.length > 0) broken++;
        else whole++;
        readsAsStatement(text);
      }),
      { numRuns: howMany(100_000) },
    );
    assert.ok(broken > whole / 10 && whole > broken / 100, `${broken} with problems, ${whole} without`);
  });

  it("splits into statements that cover its lines in order", () => {
    fc.assert(
      fc.property(fc.array(mutated, { maxLength: 6 }), (statements) => {
        const text = statements.map((line) => "    " + line).join("\n");
        const lines = [...text.matchAll(/[^\r\n]+/g)]
          .filter((found) => found[0].trim() !== "")
          .map((found) => ({ start: found.index, end: found.index + found[0].length }));
        let previous = 0;
        for (const { start, end } of splitStatements(text, lines)) {
          assert.ok(previous <= start && start < end && end <= text.length);
          previous = end;
        }
      }),
      { numRuns: howMany(5_000) },
    );
  });
});

describe("nesting and length", () => {
  const deep: Readonly<Record<string, (times: number) => string>> = {
    brackets: (n) => "x = " + "(".repeat(n) + "1" + ")".repeat(n),
    "open brackets": (n) => "x = " + "(".repeat(n),
    lists: (n) => "x = " + "[".repeat(n),
    calls: (n) => "x = " + "f(".repeat(n),
    powers: (n) => "x = 2" + "^2".repeat(n),
    "negative powers": (n) => "x = 2^" + "-".repeat(n) + "2",
    minus: (n) => "x = " + "-".repeat(n) + "a",
    not: (n) => "must " + "not ".repeat(n) + "a",
    if: (n) => "x = " + "if a then ".repeat(n),
    else: (n) => "x = " + "if a then b else ".repeat(n) + "c",
    "if in a sum": (n) => "x = " + "2 + if a then ".repeat(n),
    another: (n) => "x = " + "another ".repeat(n) + "a",
    remainders: (n) => "x = a" + " % a".repeat(n),
  };
  for (const [name, write] of Object.entries(deep))
    it(`${name}: 150 are read, 500 and 100,000 are too deep`, () => {
      assert.ok(!codes(parse(write(150))).includes("syntax.tooDeep"));
      for (const times of [500, 100_000]) {
        const text = write(times);
        const read = parse(text);
        assertSound(read, text);
        const [problem] = read.problems.filter(({ code }) => code === "syntax.tooDeep");
        assert.ok(problem?.code === "syntax.tooDeep" && problem.limit === DEEPEST_NESTING);
      }
    });

  const chains: Readonly<Record<string, (times: number) => string>> = {
    sum: (n) => "x = 1" + " + 1".repeat(n),
    product: (n) => "x = a" + " * a".repeat(n),
    parallel: (n) => "x = a" + " || a".repeat(n),
    "sum of products": (n) => "x = a" + " + a * 2 / 3 - a".repeat(n / 4),
    and: (n) => "must a" + " and a".repeat(n),
    or: (n) => "must a" + " or a".repeat(n),
  };
  for (const [name, write] of Object.entries(chains))
    it(`${name}: a chain of 100,000 is read`, () => assert.deepEqual(codes(parse(write(100_000))), []));

  const tall: Readonly<Record<string, (times: number) => string>> = {
    members: (n) => "x = a" + ".b".repeat(n),
    indices: (n) => "x = a" + "[1]".repeat(n),
  };
  for (const [name, write] of Object.entries(tall))
    it(`${name}: a chain of ${TALLEST_TREE - 5} is read, a hundred times that is too deep`, () => {
      assert.deepEqual(codes(parse(write(TALLEST_TREE - 5))), []);
      assert.deepEqual(codes(parse(write(TALLEST_TREE * 100))), ["syntax.tooDeep"]);
    });

  let growth: Readonly<Record<string, number>> = {};
  before(() => (growth = growthOfWork(join(__dirname, "longStatements.ts"), "parse", join(__dirname, "rendering.ts"))));

  for (const [name, write] of Object.entries(texts))
    it(`${name}: a megabyte is read, and the work is in step with the length`, () => {
      const text = write(1_000_000);
      assertSound(parse(text), text);
      assert.ok(growth[name] < TOLERATED, `It takes ${growth[name]} times the work for ${GROWTH} times the text.`);
    });
});

describe("the arena", () => {
  it("holds many statements, and moving one to another arena changes nothing in it", () => {
    const arena = new Arena();
    const statements = EXAMPLES.map((text) => parseStatement(arena, text));
    const snapshot = (): string[] =>
      statements.map(({ tree }) => {
        const rows: unknown[] = [];
        for (let node = 0; node < tree.count; node++)
          rows.push([
            tree.kind(node),
            tree.operator(node),
            tree.span(node),
            tree.children(node),
            tree.number(node),
            tree.text(node),
            render(tree, node),
          ]);
        return JSON.stringify(rows);
      });
    const before = snapshot();
    const alone = EXAMPLES.map((text) => {
      const { tree } = parse(text);
      return tree.count;
    });
    assert.deepEqual(
      statements.map(({ tree }) => tree.count),
      alone,
    );
    const kept = statements.filter((_, i) => i % 3 === 0).map(({ tree }) => tree);
    const smaller = compact(kept);
    assert.equal(
      smaller.count,
      kept.reduce((sum, tree) => sum + tree.count, 0),
    );
    assert.ok(smaller.count < arena.count / 2);
    assert.deepEqual(snapshot(), before);
  });
});
