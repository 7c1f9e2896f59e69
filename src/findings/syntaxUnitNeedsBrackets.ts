import { findName } from "../phrases/side";
import { isBuiltInUnit } from "../quantity/unit";
import type { ProblemOf, Site, Wording } from "./finding";
import { alternatives, rewritings } from "./fixing";

/** `W/m·K`, `W/m/K`. */
export const syntaxUnitNeedsBrackets: Wording<"syntax.unitNeedsBrackets"> = {
  severity: "error",
  reference:
    "A unit has one solidus, and what stands below it in brackets where it is several: `W/(m·K)` (ISO 80000-1).",
  message: (problem, site) => {
    const apart = withNameApart(problem, site);
    return apart === undefined
      ? `What stands below the \`/\` of a unit is not plain. Write ${alternatives(problem.rewritten)}.`
      : `\`${apart.name}\` is a quantity and no unit. Set the sign before it apart: \`${apart.text}\`.`;
  },
  fixes: (problem, site) => {
    const apart = withNameApart(problem, site);
    return rewritings(apart === undefined ? problem : { span: problem.span, rewritten: [apart.text] }, site.row);
  },
};

/** `NTC/light*p_NTC`, where what is joined last is a quantity: `NTC/light * p_NTC`. */
function withNameApart(
  { span }: ProblemOf<"syntax.unitNeedsBrackets">,
  { row, context }: Site<"syntax.unitNeedsBrackets">,
): { readonly name: string; readonly text: string } | undefined {
  const written = row.statement.text.slice(span.start, span.end);
  const [, unit, sign, name] = /^(.*)([*·/])([\p{L}_][\p{L}\d_]*)$/u.exec(written) ?? [];
  if (name === undefined || isBuiltInUnit(name)) return undefined;
  const kind = findName(name, context)?.outcome.kind;
  return kind === undefined || kind === "items" ? undefined : { name, text: `${unit} ${sign} ${name}` };
}
