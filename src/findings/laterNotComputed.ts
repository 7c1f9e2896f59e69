import type { Wording } from "./finding";

/** What this version reads and does not compute. */
export const laterNotComputed: Wording<"later.notComputed"> = {
  severity: "warning",
  severityOf: ({ what }) => (what === "plot" ? "information" : "warning"),
  reference: "This part of the language is read and not computed yet. Nothing that rests on it has a value.",
  message: ({ what }) => `${SUBJECTS[what] ?? `\`${what}\``} cannot be computed yet.`,
};

const SUBJECTS: Readonly<Record<string, string>> = {
  fab: "Fabrication files",
  "fabrication files": "Fabrication files",
  plot: "A plot",
  variant: "A variant",
  table: "A table",
  "text as a value": "Text as a value",
};
