import assert from "node:assert/strict";
import type { Problem } from "../../src/engine/outcome";
import { openNotes } from "../notation";

/** The way round that the finding of a name tells, and how many names it leaves out. */
function circle(note: string, name: string): { path: readonly string[]; left: number } {
  const { outcome } = openNotes(note).snapshot().find(name)!;
  const problem = outcome.problems.find(({ code }) => code === "name.circular");
  assert.ok(problem?.code === "name.circular", `${name} is in no circle`);
  return { path: problem.path.map((each) => each.name), left: problem.left };
}

/** What is wrong in the body that is at fault, however many calls lead to it. */
function innermostCode(problem: Problem): string {
  return problem.code === "function.body" ? innermostCode(problem.problem) : problem.code;
}

const ring = (length: number) => Array.from({ length }, (_, i) => `    c${i} = c${(i + 1) % length} + 1\n`).join("");

describe("a circle of definitions", () => {
  it("is told from each of its members", () => {
    assert.deepEqual(circle(ring(3), "c1"), { path: ["c1", "c2", "c0", "c1"], left: 0 });
    assert.deepEqual(circle("    a = 2 * a\n", "a"), { path: ["a", "a"], left: 0 });
  });

  it("is the shortest where several hang together", () => {
    const note = "    a = b + c\n    b = c\n    c = a\n";
    assert.deepEqual(circle(note, "a").path, ["a", "c", "a"]);
    assert.deepEqual(circle(note, "b").path, ["b", "c", "a", "b"]);
  });

  it("is cut where it is long, and says by how much", () => {
    const { path, left } = circle(ring(150), "c2");
    assert.deepEqual(path, ["c2", "c3", "c4", "c5", "c6", "c7", "c8", "c9", "c2"]);
    assert.equal(left, 150 - 8);
  });

  it("of very many goes by a common member, and is a way round for each", () => {
    for (const [name, i] of [
      ["c2", 2],
      ["c0", 0],
      ["c998", 998],
    ] as const) {
      const { path, left } = circle(ring(1000), name);
      assert.deepEqual(
        path.slice(0, 8),
        Array.from({ length: 8 }, (_, k) => `c${(i + k) % 1000}`),
      );
      assert.equal(path.at(-1), name);
      assert.equal(left, 1000 - 8);
    }
    // Each of these rests on the first and on the next.
    const star = Array.from({ length: 500 }, (_, i) => `    s${i} = s0 + s${(i + 1) % 500}\n`).join("");
    const { path, left } = circle(star, "s3");
    assert.deepEqual([path[0], path[1], path.at(-1)], ["s3", "s0", "s3"]);
    assert.equal(left, 0);
  });

  it("has an end: what is not in it computes, what rests on it waits", () => {
    const { rows } = openNotes(`${ring(2)}    d = c0 + 1\n    e = 3\n`).snapshot();
    const [d, e] = rows.slice(2).map(({ outcome }) => outcome);
    assert.ok(d.kind === "quantity" && d.values.length === 0 && d.blockedBy === "c0" && d.problems.length === 0);
    assert.ok(e.kind === "quantity" && e.values[0].nominal === 3);
  });

  it("of functions has its callers look again at what a body mentions", () => {
    const circle = "    a(V [V]) = b(x)\n    b(x [V]) = a(x)\n    k = a(3 V)\n";
    const given = "    x = 3 V\n";
    const path = "note.calcs.md";
    const { program } = openNotes(circle);
    const codes = () => program.snapshot(path)!.find("k")!.outcome.problems.map(innermostCode);
    const edit = (start: number, end: number, text: string) => {
      program.edit(path, { span: { start, end }, text });
      program.settle();
    };
    assert.deepEqual(codes(), ["name.unknown"]);
    edit(0, 0, given);
    assert.deepEqual(codes(), ["function.recursive"]);
    edit(0, given.length, "");
    assert.deepEqual(codes(), ["name.unknown"]);
  });
});
