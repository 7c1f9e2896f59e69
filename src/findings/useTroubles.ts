import type { Wording } from "./finding";

/** `use` of the note itself. */
export const useSelf: Wording<"use.self"> = {
  severity: "error",
  reference: "A note cannot use itself; its quantities are at hand by their names.",
  message: () => "This is the note itself; its quantities are at hand by their names.",
};

export const useOutside: Wording<"use.outside"> = {
  severity: "error",
  reference: "The path leads out of the folders that are open. Notes are named by a path relative to the note.",
  message: ({ path, detail }) =>
    `\`${path}\` leads out of the folders that are open.${sentence(detail)} Give a path relative to this note.`,
};

export const useMissing: Wording<"use.missing"> = {
  severity: "error",
  reference: "There is no note at the path. Paths are relative to the note and use `/`.",
  message: ({ path, detail }) => `There is no note \`${path}\`.${sentence(detail)} A path is relative to this note.`,
};

export const useUnreadable: Wording<"use.unreadable"> = {
  severity: "error",
  reference: "The note is there and cannot be read.",
  message: ({ path, detail }) => `The note \`${path}\` cannot be read.${sentence(detail)}`,
};

export const useNotANote: Wording<"use.notANote"> = {
  severity: "error",
  reference: "Only notes are used, and their names end in `.calcs.md`; or tables, in `.csv`.",
  message: ({ path }) => `\`${path}\` is no note and no table: their names end in \`.calcs.md\` and in \`.csv\`.`,
};

/** What the file system said, as a sentence of its own. */
function sentence(detail: string): string {
  return detail === "" ? "" : ` ${detail[0].toUpperCase()}${detail.slice(1).replace(/\.?$/, ".")}`;
}
