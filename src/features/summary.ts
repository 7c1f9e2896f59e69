import type { Row } from "../engine/snapshot";
import type { Summary } from "./feature";

/** The state of a note in numbers; of its findings only the severities count. */
export function summary(rows: readonly Row[], severities: readonly string[], openItems: number): Summary {
  const count = { holds: 0, failsAtLimits: 0, fails: 0, undecided: 0 };
  let guesses = 0;
  let isMustOpen = false;
  for (const { outcome } of rows) {
    if (outcome.kind === "quantity" && outcome.isGuess && outcome.origin === "assumed") guesses++;
    if (outcome.kind !== "rule") continue;
    count[outcome.state]++;
    isMustOpen ||= outcome.word === "must" && outcome.state !== "holds";
  }
  const errors = severities.filter((severity) => severity === "error").length;
  const parts = [
    some(count.fails + count.failsAtLimits, "fail"),
    some(count.undecided, "undecided"),
    some(count.holds, "hold"),
    some(guesses, guesses === 1 ? "guess" : "guesses"),
  ];
  return {
    fail: count.fails,
    failAtLimits: count.failsAtLimits,
    undecided: count.undecided,
    hold: count.holds,
    guesses,
    errors,
    warnings: severities.filter((severity) => severity === "warning").length,
    openItems,
    isGood: !isMustOpen && errors === 0,
    text: parts.filter((part) => part !== "").join(" · "),
  };
}

function some(count: number, word: string): string {
  return count === 0 ? "" : `${count} ${word}`;
}
