import assert from "node:assert/strict";
import { valueText } from "../../src/phrases/value";
import { checkFindings, openNotes } from "../notation";

/** A note, and what must come out: a value as it is shown, or the state of the rule on that line. */
export type Told = readonly [statement: string, shown: string];

/**
 * Checks a note line by line: each statement stands beside what is shown of it. An empty text means that nothing is
 * asked; "—" that it has no value. The note must have no findings.
 */
export function tells(lines: readonly Told[], others: Readonly<Record<string, string>> = {}): void {
  const drawn = `${lines.map(([statement]) => `    ${statement}\n`).join("")}${Object.entries(others)
    .map(([path, text]) => `=== ${path}\n${text}`)
    .join("")}`;
  checkFindings(drawn);
  assert.deepEqual(
    shownIn(drawn),
    lines.map(([, shown], i) => (shown === "" ? shownIn(drawn)[i] : shown)),
  );
}

/** What is shown of each statement of the first note. */
export function shownIn(drawn: string): string[] {
  const notes = openNotes(drawn);
  return notes.snapshot().rows.map(({ outcome }) => {
    switch (outcome.kind) {
      case "quantity":
        return outcome.values.length === 0 ? "—" : valueText(outcome);
      case "truth":
        return outcome.values.map((value) => value ?? "open").join(", ");
      case "rule":
        return outcome.state;
      default:
        return outcome.kind;
    }
  });
}
