import { choose } from "../phrases/choosing";
import { quotedCondition } from "../phrases/condition";
import { dependentsOf } from "../phrases/dependence";
import type { Row, Snapshot } from "../engine/snapshot";
import type { Wording } from "./finding";

/** The want has moved, and another member of the series is nearer to it. */
export const choiceOvertaken: Wording<"choice.overtaken"> = {
  severity: "warning",
  severityOf: (_, { row, context }) => (ruleBehind(row, context.snapshot) ? "information" : "warning"),
  reference:
    "Another member of the series or list is nearer to what is wanted than the one in use: the inputs have moved since it was chosen. Where a rule that rests on the value has less to spare than the value is off, it may be off on purpose: then write `choose at least` or `choose at most`.",
  message: ({ used, wanted, series, better }, { row, context }) => {
    const plain = `${used} is used, but ${better} of ${series} is nearer to the ${wanted} wanted.`;
    const rule = ruleBehind(row, context.snapshot);
    if (rule === undefined) return plain;
    const sense = senseOf(row);
    return sense === undefined
      ? `${plain} \`${quotedCondition(rule)}\` may be the reason: it rests on this value, with less to spare than that.`
      : `${plain} If that is for \`${quotedCondition(rule)}\`, write \`choose at ${sense} ${used}\`.`;
  },
  fixes: ({ better }, { row, context }) => choose([better], row, context),
};

/**
 * A rule that may be the reason for the value: it rests on it and holds, with less to spare than the value is off what is
 * wanted. To try the nearer member would tell for certain, but findings are made with every key pressed.
 */
function ruleBehind(row: Row, snapshot: Snapshot): Row | undefined {
  const { statement, outcome } = row;
  if (statement.kind !== "derived" || outcome.kind !== "quantity" || !outcome.wanted) return undefined;
  const used = outcome.values[0].nominal;
  const off = Math.abs((used - outcome.wanted[0].nominal) / used);
  return dependentsOf(statement.tree.text(statement.name), snapshot).find(
    ({ outcome: rule }) =>
      rule.kind === "rule" && rule.state === "holds" && rule.spare !== undefined && rule.spare < off,
  );
}

/** The sense in which the value serves the whole range of what is wanted, if it does in one. */
function senseOf({ outcome }: Row): "least" | "most" | undefined {
  if (outcome.kind !== "quantity" || !outcome.wanted) return undefined;
  const [used, wanted] = [outcome.values[0], outcome.wanted[0]];
  if (used.low >= wanted.high) return "least";
  return used.high <= wanted.low ? "most" : undefined;
}
