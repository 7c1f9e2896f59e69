import { Kind } from "../syntax/tree";
import type { Fix } from "../text/fix";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `x = 3 V from "data sheet"`. */
export const syntaxClauseNotHere: Wording<"syntax.clauseNotHere"> = {
  severity: "error",
  reference:
    'The clause belongs to another kind of statement: `from "…"` to what is given, assumed or measured, `choose` to a definition.',
  message: ({ word, statement, span }, { row }) => {
    const plain = `\`${word}\` has no place in ${STATEMENTS[statement] ?? `a statement with \`${statement}\``}.`;
    const isShare = word === "of" && /%\s*$/.test(row.statement.text.slice(0, span.start));
    return isShare ? `${plain} A share of something is a product: write \`*\`.` : plain;
  },
  fixes: ({ word }, { row }) => {
    const { statement } = row;
    if (statement.kind !== "derived" || statement.tree.kind(statement.value) !== Kind.Literal) return [];
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
