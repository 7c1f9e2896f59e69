import { howToAccept } from "../phrases/cautions";
import type { Row } from "../engine/snapshot";
import type { AcceptProblem, Finding } from "./finding";

/** What an `accept` can be of: a finding, and the name of its rule where it is about one. */
export interface Acceptable {
  readonly finding: Finding;
  /** `should.I_total`. */
  readonly rule?: string;
}

export interface Accepted {
  readonly findings: readonly Finding[];
  readonly problems: readonly { readonly row: Row; readonly problem: AcceptProblem }[];
}

/**
 * The findings of a note with those that it accepts turned into hints, and what is wrong with its acceptances.
 * Errors are never accepted. Rules are accepted one by one, by the first name in them.
 * @param codes all codes of findings.
 * @param rules what the rules of the note are accepted by, those that hold included.
 */
export function accept(
  candidates: readonly Acceptable[],
  rows: readonly Row[],
  codes: ReadonlySet<string>,
  rules: readonly string[],
): Accepted {
  const findings = candidates.map(({ finding }) => finding);
  const problems: { row: Row; problem: AcceptProblem }[] = [];
  for (const row of rows) {
    const { statement } = row;
    if (statement.kind !== "accept" || statement.problems.length > 0) continue;
    const { code, codeSpan: span, tree, reason } = statement;
    const isRule = /^(rule|must)\./.test(code);
    if (isRule || !(codes.has(code) || rules.includes(code))) {
      const instead = isRule ? rules : [...codes, ...rules];
      problems.push({ row, problem: { code: "accept.unknown", span, accepted: code, instead } });
      continue;
    }
    const matching = candidates.flatMap(({ finding, rule }, i) => ((rule ?? finding.code) === code ? [i] : []));
    const acceptable = matching.filter((i) => candidates[i].finding.severity !== "error");
    for (const i of acceptable) findings[i] = accepted(candidates[i].finding, tree.text(reason));
    if (acceptable.length > 0) continue;
    problems.push({
      row,
      problem: { code: "accept.idle", span, accepted: code, reason: matching.length > 0 ? "error" : "none" },
    });
  }
  return { findings, problems };
}

function accepted(finding: Finding, reason: string): Finding {
  return {
    ...finding,
    severity: "hint",
    message: `${finding.message.replace(howToAccept(finding.code), "")} Accepted because ${reason.replace(/\.?$/, ".")}`,
  };
}
