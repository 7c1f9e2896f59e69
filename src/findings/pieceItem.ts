import { nearestName } from "../engine/suggest";
import type { Snapshot } from "../engine/snapshot";
import { isBuiltInUnit } from "../quantity/unit";
import type { Wording } from "./finding";
import { replaceIn, statementAbove } from "./fixing";

/** `each LDE`. */
export const pieceItem: Wording<"piece.item"> = {
  severity: "error",
  reference:
    "`each` may name what there are several of, and that is something counted, as `items` says. It may also stand alone.",
  message: ({ name, is }, { context }) => {
    const meant = itemMeant(name, context.snapshot);
    const what = `\`${name}\` is ${is === undefined ? "nothing that is counted here" : `a ${is} and not counted`}.`;
    if (meant !== undefined) return `${what} Did you mean \`${meant}\`?`;
    return is === undefined && !isBuiltInUnit(name)
      ? `${what} Say so by \`items ${name}\`, or write \`each\` alone.`
      : `${what} Write \`each\` alone.`;
  },
  fixes: ({ name, is, span }, { row, context }) => {
    const meant = itemMeant(name, context.snapshot);
    if (meant !== undefined)
      return [{ title: `Write ${meant}`, edits: [replaceIn(row, span, meant)], isPreferred: true }];
    const alone = { title: "Write each alone", edits: [replaceIn(row, { start: span.start - 1, end: span.end }, "")] };
    return is === undefined && !isBuiltInUnit(name)
      ? [
          { title: `Count ${name}: items ${name}`, edits: [statementAbove(row, context.snapshot, `items ${name}`)] },
          alone,
        ]
      : [alone];
  },
};

/** What is counted in a note, and is likely meant by a word. */
function itemMeant(word: string, { rows }: Snapshot): string | undefined {
  const items = rows.flatMap(({ statement }) =>
    statement.kind === "items" ? statement.names.map((node) => statement.tree.text(node)) : [],
  );
  const singular = /^(.+)s$/.exec(word)?.[1];
  return items.find((item) => item === singular) ?? nearestName(items, word);
}
