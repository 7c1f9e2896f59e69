import type { NameInNote } from "../engine/problem";
import { fileName } from "../phrases/place";
import type { Related, Wording } from "./finding";

/** `a = b` and `b = a`. */
export const nameCircular: Wording<"name.circular"> = {
  severity: "error",
  reference:
    "A quantity depends on itself, so that none of those on the way has a value. Break the circle with a number, or solve it by hand.",
  message: ({ path, left }, { context: { snapshot } }) => {
    const [{ name }] = path;
    if (path.length <= 2) return `\`${name}\` depends on itself. Its definition must not use it.`;
    const names = path.map((each) =>
      each.note === snapshot.path ? each.name : `${each.name} of ${noteText(each.note, path)}`,
    );
    const shown = left === 0 ? names : [...names.slice(0, -1), `${left} more`, ...names.slice(-1)];
    return `\`${name}\` depends on itself: ${shown.join(" → ")}. One of these must not use the next.`;
  },
  related: ({ path }, { context }) =>
    path.slice(1, -1).flatMap(({ name, note }): Related[] => {
      const home = note === context.snapshot.path ? context.snapshot : context.other(note);
      const row = home?.find(name);
      const span = row && { start: row.start, end: row.start + row.statement.text.length };
      return span ? [{ path: note, span, message: `\`${name}\` is on the way.` }] : [];
    }),
};

/** The name of a note's file, or its whole path where another note on the way has the same. */
function noteText(note: string, way: readonly NameInNote[]): string {
  const isAlone = way.every((each) => each.note === note || fileName(each.note) !== fileName(note));
  return isAlone ? fileName(note) : note;
}
