import { Kind } from "../syntax/tree";
import type { Fix } from "../text/fix";
import { wayOutIn } from "../phrases/slips/wayOut";
import type { Wording } from "./finding";
import { mending, replaceIn } from "./fixing";

/** `x = 3 V from "data sheet"`. */
export const syntaxClauseNotHere: Wording<"syntax.clauseNotHere"> = {
  severity: "error",
  reference:
    'The clause belongs to another kind of statement: `from "…"` to what is given, assumed or measured, `choose` to a definition.',
  message: ({ word, statement, span }, { row }) => {
    const plain = `\`${word}\` has no place in ${STATEMENTS[statement] ?? `a statement with \`${statement}\``}.`;
    const meant = wayOutIn(row, span.start);
    return meant === undefined ? plain : `${plain} ${meant.text}`;
  },
  fixes: ({ word, span }, { row }) => {
    const { statement } = row;
    if (statement.kind !== "derived" || statement.tree.kind(statement.value) !== Kind.Literal)
      return mending(wayOutIn(row, span.start)?.edit, row);
    const opened = (opening: string, title: string): Fix => ({
      title,
      edits: [replaceIn(row, { start: 0, end: 0 }, `${opening} `)],
    });
    const assumed = opened("assume", "Write assume: a working assumption");
    if (word === "each") return [assumed];
    return word === "from" ? [opened("given", "Write given: fixed by the brief or a document"), assumed] : [];
  },
};

const STATEMENTS: Readonly<Record<string, string>> = {
  derived: "a definition",
  choice: "a decision",
  function: "a function",
  rule: "a rule",
};
