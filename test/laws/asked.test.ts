import assert from "node:assert/strict";
import fc from "fast-check";
import { openGuesses } from "../../src/engine/influence";
import type { Program } from "../../src/engine/program";
import { budgetOf } from "../../src/engine/uncertaintyBudget";
import { howMany } from "../howMany";
import { Desk, step } from "./editing";
import { note } from "./generatedNotes";

/** Generated lines are often wrong; these rest on them and on each other, so that there is something to ask for. */
const asking = note.map(
  (text) =>
    `${text}\n    given p = 1 .. 2 V\n    assume q = 1 .. 2 .. 4\n    assume V_f = 3 V\n    r = p * q^2 - a\n    s = p * q + V_f / q\n    must s <= 9 V\n    must r <= b\n`,
);

const steps = fc.array(step, { minLength: 1, maxLength: 10 });

describe("what is worked out when asked", () => {
  it("is after any edits what it is of the final text from scratch: uncertainties, contributions, guesses", () => {
    const notes = fc.record({ "a.calcs.md": asking, "b.calcs.md": note });
    let budgets = 0;
    let guesses = 0;
    fc.assert(
      fc.property(notes, steps, (texts, taken) => {
        const desk = new Desk(texts);
        for (const each of taken) desk.take(each);
        desk.load();
        const [asked, afresh] = [desk.program, desk.afresh()].map(askedOf);
        assert.deepEqual(asked, afresh);
        budgets += asked.budgets.length;
        guesses += asked.guesses.filter(({ must }) => must !== undefined).length;
      }),
      { numRuns: howMany(1200) },
    );
    assert.ok(budgets > 50, `${budgets} values had a budget`);
    assert.ok(guesses > 10, `${guesses} guesses were under a must`);
  });

  it("has shares that are no less than nothing and add up to all", () => {
    let some = 0;
    fc.assert(
      fc.property(asking, (text) => {
        for (const { budget } of askedOf(new Desk({ "a.calcs.md": text }).program).budgets) {
          const { contributions, interactions } = budget;
          for (const part of ["ofRange", "ofVariance"] as const) {
            const shares = [...contributions.map((each) => each[part]), interactions[part]].filter(
              (x) => x !== undefined,
            );
            if (shares.length === 0) continue;
            some++;
            assert.ok(shares.every((share) => share >= 0 && share <= 1 + 1e-9));
            const sum = shares.reduce((total, share) => total + share, 0);
            assert.ok(Math.abs(sum - 1) < 1e-6, `${part}: ${sum} of ${text}`);
          }
        }
      }),
      { numRuns: howMany(1200) },
    );
    assert.ok(some > 50, `${some} had shares`);
  });
});

function askedOf(program: Program) {
  const notes = [...program.notes.values()].sort((a, b) => (a.path < b.path ? -1 : 1));
  const budgets = notes.flatMap((each) =>
    [...each.entries()].flatMap((entry) =>
      Array.from({ length: entry.results.length }, (_, result) => result).flatMap((result) => {
        const budget = budgetOf(program, entry, result);
        return budget ? [{ text: entry.statement.text, result, budget }] : [];
      }),
    ),
  );
  const guesses = openGuesses(program, notes).map(({ guess, hasLimits, most }) => ({
    guess: guess.statement.text,
    hasLimits,
    must: most?.rule.statement.text,
    share: most?.share,
  }));
  return { budgets, guesses };
}
