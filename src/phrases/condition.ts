import type { Rule } from "../syntax/statement";

/** The condition of a rule as it is written, on one line, without the comments between its lines. */
export function conditionText({ tree, condition, text }: Rule): string {
  return text.slice(tree.start(condition), tree.end(condition)).replace(/\s*(?:#[^\n]*)?\r?\n\s*/g, " ");
}
