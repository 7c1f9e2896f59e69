import type { Outcome } from "../engine/outcome";
import { rulePhrase } from "./rule";
import { valueText } from "./value";

/** Outcomes outlive the snapshots that hold them, and so do their texts: an edit words anew only what it changed. */
const texts = new WeakMap<Outcome, string>();

/** What came out of a statement, in one line: a value with its range, a rule in words; empty for all else. */
export function outcomeText(outcome: Outcome): string {
  let text = texts.get(outcome);
  if (text === undefined) texts.set(outcome, (text = worded(outcome)));
  return text;
}

function worded(outcome: Outcome): string {
  switch (outcome.kind) {
    case "quantity":
    case "truth":
      return valueText(outcome);
    case "rule":
      return rulePhrase(outcome);
    default:
      return "";
  }
}
