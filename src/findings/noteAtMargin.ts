import type { InSlices } from "../engine/slices";
import type { Edit } from "../text/edit";
import type { FindingContext, ProblemOf, Wording } from "./finding";

/** A paragraph at the margin that is nothing but statements. */
export const noteAtMargin: Wording<"note.atMargin"> = {
  severity: "information",
  reference:
    "A paragraph that is nothing but statements, such as `must I <= 3 A`, stands at the margin, where prose stands, and does not compute. Set its lines in by four columns.",
  message: ({ lines }) =>
    lines.length === 1
      ? "This line does not compute: it stands at the margin, as prose does. A calculation line is set in by four columns."
      : `These ${lines.length} lines do not compute: they stand at the margin, as prose does. Calculation lines are set in by four columns.`,
  *fixes(problem, { context }) {
    for (const edits of [setIn(problem), [...listEnded(problem, context), ...setIn(problem)]])
      if (yield* computes(edits, problem, context))
        return [{ title: "Set in by four columns", edits, isPreferred: true }];
    return [];
  },
};

const INDENTATION = "    ";

function setIn({ lines }: ProblemOf<"note.atMargin">): readonly Edit[] {
  return lines.map((span) => ({ span, text: INDENTATION }));
}

/** Behind a list, what is set in would belong to it. */
function listEnded({ span: { start } }: ProblemOf<"note.atMargin">, { snapshot }: FindingContext): readonly Edit[] {
  const line = snapshot.lines.lineStart(snapshot.lines.lineAt(start));
  const lineBreak = /\r\n|\n|\r/.exec(snapshot.text)?.[0] ?? "\n";
  return [{ span: { start: line, end: line }, text: `<!-- -->${lineBreak}${lineBreak}` }];
}

/** Whether the lines are read as statements after the edits. */
function computes(
  edits: readonly Edit[],
  { lines }: ProblemOf<"note.atMargin">,
  context: FindingContext,
): InSlices<boolean> {
  const wanted = context.snapshot.rows.length + lines.length;
  return context.whatIf(edits, ({ rows }) => rows.length === wanted);
}
