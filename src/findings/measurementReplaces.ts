import type { Wording } from "./finding";

/** `measured supply = 24.3 V instead` where supply is given. */
export const measurementReplaces: Wording<"measurement.replaces"> = {
  severity: "error",
  reference:
    "`instead` puts a measurement in the place of an assumption, of nothing else. Every other measurement is compared.",
  message: ({ name, is }) => `\`instead\` replaces assumptions only, and ${name} is ${KINDS[is] ?? "none"}.`,
};

const KINDS: Readonly<Record<string, string>> = {
  given: "given",
  over: "an operating condition",
  derived: "derived",
  choice: "chosen",
  order: "ordered",
};
