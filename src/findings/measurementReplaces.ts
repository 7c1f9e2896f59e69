import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `measured supply = 24.3 V instead` where supply is given. */
export const measurementReplaces: Wording<"measurement.replaces"> = {
  severity: "error",
  reference:
    "`instead` puts a measurement in the place of an assumption, of nothing else. Every other measurement is compared.",
  message: ({ name, is }) =>
    `\`instead\` replaces assumptions only, and ${name} is ${KINDS[is] ?? "none"}. Without it the measurement is compared.`,
  fixes: (_, { row }) => {
    const word = /\s*\binstead\b(?=\s*(?:#|$))/.exec(row.statement.text);
    if (word === null) return [];
    const span = { start: word.index, end: word.index + word[0].length };
    return [{ title: "Remove instead: the measurement is compared", edits: [replaceIn(row, span, "")] }];
  },
};

const KINDS: Readonly<Record<string, string>> = {
  given: "given",
  over: "an operating condition",
  derived: "derived",
  choice: "chosen",
  order: "ordered",
};
