import { problemsOf } from "../engine/snapshot";
import type { Finding, FindingContext } from "./finding";

/** All that is to be said of a note, in the order of its text. */
export function findingsOf(context: FindingContext): readonly Finding[] {
  const { snapshot } = context;
  const findings: Finding[] = [];
  for (const row of snapshot.rows) {
    for (const { code, span } of problemsOf(row))
      findings.push({ code, severity: "error", span: snapshot.spanOf(row, span), message: "" });
  }
  return findings.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}
