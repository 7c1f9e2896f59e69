import { definedName } from "../engine/entry";
import type { ClauseOutcome, RuleOutcome } from "../engine/outcome";
import type { Row, Snapshot } from "../engine/snapshot";
import { quotedCondition } from "./condition";
import { dependentsOf } from "./dependence";
import { decisiveClause } from "./rule";
import { shortened, valueOfName } from "./side";
import { extentText } from "./value";

/**
 * What follows from a change, for the title of a fix: the quantity that matters most, which is the varying side of the
 * tightest rule that rests on the name, of those that did not hold before if there are any (without a rule, the first
 * quantity that does); and whether all rules of the note hold: `I_string 18.8 mA, all rules hold`, `P_R 51 mW, 1 rule fails: P_R <= P_max`. Empty where nothing rests on it.
 */
export function effectOf(before: Snapshot, after: Snapshot, name: string): string {
  const dependents = dependentsOf(name, after);
  const quantity = tightest(troubled(dependents, before)) ?? tightest(dependents) ?? first(dependents, after);
  const parts =
    quantity === undefined || quantity.name === name
      ? []
      : [stays(quantity, before) ? `${quantity.name} stays ${quantity.value}` : `${quantity.name} ${quantity.value}`];
  const rules = rulesText(after);
  return (rules === "" ? parts : [...parts, rules]).join(", ");
}

interface Shown {
  readonly name: string;
  readonly value: string;
}

/** The rules that did not hold before the change: it is on their account that somebody looks for another value. */
function troubled(dependents: readonly Row[], before: Snapshot): readonly Row[] {
  const failing = new Set<string>();
  for (const { statement, outcome } of before.rows)
    if (outcome.kind === "rule" && outcome.state !== "holds") failing.add(statement.text);
  return dependents.filter(({ statement }) => failing.has(statement.text));
}

function tightest(dependents: readonly Row[]): Shown | undefined {
  let best: { readonly clause: ClauseOutcome; readonly spare: number } | undefined;
  for (const { outcome } of dependents) {
    const clause = outcome.kind === "rule" ? decisiveClause(outcome) : undefined;
    const spare = clause?.spare ?? (clause?.room === undefined ? Infinity : Math.sign(clause.room));
    if (clause && (!best || spare < best.spare)) best = { clause, spare };
  }
  return best && sideThatVaries(best.clause);
}

/** A limit is often a plain number, on either side; what varies is what the rule is about. */
function sideThatVaries(clause: ClauseOutcome): Shown | undefined {
  const isNumber = (text: string) => /^[-−\d]/.test(text);
  const [text, extent] =
    isNumber(clause.leftText) && !isNumber(clause.rightText)
      ? [clause.rightText, clause.right]
      : [clause.leftText, clause.left];
  const value = extentText(extent, clause);
  return value === "" ? undefined : { name: shortened(text), value };
}

function first(dependents: readonly Row[], snapshot: Snapshot): Shown | undefined {
  for (const { statement } of dependents) {
    const name = definedName(statement);
    const value = name === undefined ? undefined : valueOfName(name, { snapshot, other: () => undefined });
    if (name !== undefined && value !== undefined) return { name, value };
  }
  return undefined;
}

function stays({ name, value }: Shown, before: Snapshot): boolean {
  return valueOfName(name, { snapshot: before, other: () => undefined }) === value;
}

/** `all rules hold`, `1 rule fails: P_R <= P_max`, `2 rules fail`; empty in a note without rules. */
function rulesText({ rows }: Snapshot): string {
  const rules = rows.filter((row): row is Row & { outcome: RuleOutcome } => row.outcome.kind === "rule");
  if (rules.length === 0) return "";
  const failing = rules.filter(({ outcome: { state } }) => state === "fails" || state === "failsAtLimits");
  if (failing.length > 0) return countText(failing, "fails", "fail");
  const undecided = rules.filter(({ outcome: { state } }) => state === "undecided");
  return undecided.length > 0 ? countText(undecided, "is undecided", "are undecided") : "all rules hold";
}

function countText(rules: readonly Row[], one: string, several: string): string {
  return rules.length === 1 ? `1 rule ${one}: ${quotedCondition(rules[0])}` : `${rules.length} rules ${several}`;
}
