import type { Row } from "../engine/snapshot";
import type { Rule } from "../syntax/statement";
import { shortened } from "./side";

/** The share of builds that a rule asks for, behind its condition. */
const SHARE = /^\s*in\s+[\d._]+\s*%\s*of\s+builds/;

/**
 * The condition of a rule as it is written, with the share of builds that it asks for, on one line and without the comments
 * between its lines.
 */
export function conditionText({ tree, condition, text, share }: Rule): string {
  const end = tree.end(condition);
  const behind = share === undefined ? "" : (SHARE.exec(text.slice(end))?.[0] ?? "");
  return (text.slice(tree.start(condition), end) + behind).replace(/\s*(?:#[^\n]*)?\r?\n\s*/g, " ");
}

/** The same inside a sentence, where it is cut if it is long; empty for what is no rule. */
export function quotedCondition({ statement }: Row): string {
  return statement.kind === "rule" ? shortened(conditionText(statement)) : "";
}
