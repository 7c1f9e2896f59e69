import type { Related, Wording } from "./finding";

/** `a = b` and `b = a`. */
export const nameCircular: Wording<"name.circular"> = {
  severity: "error",
  reference:
    "A quantity depends on itself, so that none of those on the way has a value. Break the circle with a number, or solve it by hand.",
  message: ({ path, left }) => {
    if (path.length <= 2) return `\`${path[0]}\` depends on itself. Its definition must not use it.`;
    const shown = left === 0 ? path : [...path.slice(0, -1), `${left} more`, ...path.slice(-1)];
    return `\`${path[0]}\` depends on itself: ${shown.join(" → ")}. One of these must not use the next.`;
  },
  related: ({ path }, { context: { snapshot } }) =>
    [...new Set(path.slice(1, -1))].flatMap((name): Related[] => {
      const row = snapshot.find(name);
      const span = row && { start: row.start, end: row.start + row.statement.text.length };
      return span ? [{ path: snapshot.path, span, message: `\`${name}\` is on the way.` }] : [];
    }),
};
