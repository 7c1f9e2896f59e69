import type { Span } from "../text/span";

/**
 * What is wrong with a statement as text. Plain data; `findings/` has the sentences and the fixes.
 * Spans count from the start of the statement.
 */
export type SyntaxProblem = { readonly span: Span } & SyntaxTrouble;

export type SyntaxTrouble =
  /** Something else was expected here. `found` is empty at the end of the statement. */
  | { readonly code: "syntax.unexpected"; readonly expected: string; readonly found: string };
