import type { Wording } from "./finding";

type TrapCode = "note.afterParagraph" | "note.inList";

/** An indented line that continues the paragraph above. */
export const noteAfterParagraph: Wording<TrapCode> = {
  severity: "warning",
  reference:
    "The line reads as a statement and does not compute, because without a blank line before it Markdown takes it for part of the paragraph.",
  message: ({ lines }) =>
    lines === 1
      ? "This line does not compute: it continues the paragraph above. Put a blank line before it."
      : `These ${lines} lines do not compute: they continue the paragraph above. Put a blank line before the first.`,
  fixes: ({ insertAt, insert }) => [
    {
      title: "Insert a blank line",
      edits: [{ span: { start: insertAt, end: insertAt }, text: insert }],
      isPreferred: true,
    },
  ],
};

/** An indented line that belongs to the list above. */
export const noteInList: Wording<TrapCode> = {
  severity: "warning",
  reference:
    "The line reads as a statement and does not compute, because Markdown takes it for part of the list above it. End the list with a heading or a comment.",
  message: ({ lines }) =>
    lines === 1
      ? "This line does not compute: it belongs to the list above. End the list with a heading or `<!-- -->`."
      : `These ${lines} lines do not compute: they belong to the list above. End the list before the first, with a heading or \`<!-- -->\`.`,
  fixes: ({ insertAt, insert }) => [
    {
      title: "End the list with <!-- -->",
      edits: [{ span: { start: insertAt, end: insertAt }, text: insert }],
      isPreferred: true,
    },
  ],
};
