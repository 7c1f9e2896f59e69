import assert from "node:assert/strict";
import { distance } from "fastest-levenshtein";
import fc from "fast-check";
import { canBeMeant, Candidates, nearestName } from "../../src/engine/suggest";
import { howMany } from "../howMany";

/** Short words of few letters, so that many are near each other, some with a long common beginning. */
const word = fc
  .tuple(
    fc.constantFrom("", "", "I_", "temperature_of_"),
    fc.string({ unit: fc.constantFrom(..."aAbB12"), maxLength: 9 }),
  )
  .map(([beginning, end]) => beginning + end);
const words = fc.array(word, { maxLength: 40 });

/** What is said of suggestions in the language, word for word. */
function plainly(candidates: readonly string[], name: string): string | undefined {
  const others = [...new Set(candidates)].filter((candidate) => candidate !== name);
  const byCase = others.filter((candidate) => candidate.toLowerCase() === name.toLowerCase());
  if (byCase.length === 1) return byCase[0];
  if (name.length < 3) return undefined;
  for (let slips = 1; slips <= (name.length < 6 ? 1 : 2); slips++) {
    const near = others.filter((candidate) => candidate.length >= 3 && distance(candidate, name) === slips);
    if (near.length > 0) return near.length === 1 ? near[0] : undefined;
  }
  return undefined;
}

describe("the name that an unknown one is likely to mean", () => {
  it("is the one that differs by case, or else the only one with the fewest slips", () => {
    assert.equal(nearestName(["burden", "supply"], "burdne"), "burden");
    assert.equal(nearestName(["V_in", "v_in_2"], "v_in"), "V_in");
    assert.equal(nearestName(["R1", "R2"], "R3"), undefined);
    assert.equal(nearestName(["load_1", "load_2"], "load_3"), undefined);
    assert.equal(nearestName(["burden", "burden"], "burdne"), "burden");
  });

  it("is the same whether few or many are asked for", () => {
    fc.assert(
      fc.property(words, fc.array(word, { minLength: 60, maxLength: 80 }), (candidates, names) => {
        const known = new Candidates(candidates);
        for (const name of names) assert.equal(known.nearest(name), plainly(candidates, name), name);
      }),
      { numRuns: howMany(1000) },
    );
  });

  it("changes only where a word comes that can be meant", () => {
    fc.assert(
      fc.property(words, word, word, (candidates, more, name) => {
        if (canBeMeant(more, name)) return;
        assert.equal(nearestName([...candidates, more], name), nearestName(candidates, name));
      }),
      { numRuns: howMany(4000) },
    );
  });
});
