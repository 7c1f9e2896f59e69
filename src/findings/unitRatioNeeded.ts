import { sideText } from "../phrases/side";
import type { Row } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { ProblemOf, Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `sin(3 V)`, `2 ^ (1 s)`, `floor(2.5 V)`, `5 * 10^3 V`. */
export const unitRatioNeeded: Wording<"unit.ratioNeeded"> = {
  severity: "error",
  reference:
    "A plain number is needed here. Divide by a quantity of the same kind, or give a rounding function its step: `ceil(x, 0.5 V)`.",
  message: (problem, { row, context }) => {
    const { where, side } = problem;
    const plain = `${capital(where)} takes a plain number, not ${sideText(side, row, context)}.`;
    const scaled = powerOfTen(problem, row);
    if (scaled) return `${plain} A number takes its power of ten before its unit: \`${scaled.text}\`.`;
    const raised = unitOfWhole(problem);
    if (raised !== undefined) return `${plain} If the unit is that of the whole, write \`^${raised}\`.`;
    const swapped = where.startsWith("total(n, x)") ? numberBehind(problem, row) : undefined;
    if (swapped !== undefined) return `${plain} The number comes first: \`${swapped}\`.`;
    const wayOut = where.includes("without a step")
      ? "Give a step as the second argument."
      : "Divide it by a quantity of the same kind.";
    return `${plain} ${wayOut}`;
  },
  fixes: (problem, { row }) => {
    const scaled = powerOfTen(problem, row);
    const raised = unitOfWhole(problem);
    if (!scaled && raised !== undefined)
      return [{ title: `Write ${raised}`, edits: [replaceIn(row, problem.side.span, raised)] }];
    if (!scaled) return [];
    return [{ title: `Write ${scaled.text}`, edits: [replaceIn(row, scaled.span, scaled.text)], isPreferred: true }];
  },
};

/** `2^0.5 V`: the exponent without the unit, which multiplies the power. */
function unitOfWhole({ where, side }: ProblemOf<"unit.ratioNeeded">): string | undefined {
  const [, exponent, unit] = (where === "an exponent" && /^(-?[\d.]+)\s*([^\s\d].*)$/.exec(side.text)) || [];
  return exponent === undefined ? undefined : `${exponent} * 1 ${unit}`;
}

/** `total(V_f, 7)`: the call with its arguments the other way round, where the second is a number. */
function numberBehind({ side }: ProblemOf<"unit.ratioNeeded">, { statement: { text } }: Row): string | undefined {
  const [, number] = /^\s*,\s*(\d+)\s*\)/.exec(text.slice(side.span.end)) ?? [];
  return number === undefined ? undefined : `total(${number}, ${side.text})`;
}

/** How far before its exponent a power of ten is looked for. */
const LONGEST_FACTOR = 50;

/** `5 * 10^3 V`: the unit belongs to the exponent by the letter, and to the whole as it was meant. */
function powerOfTen(
  { side }: ProblemOf<"unit.ratioNeeded">,
  { statement: { text } }: Row,
): { readonly span: Span; readonly text: string } | undefined {
  const [, exponent, unit] = /^(-?\d+)\s*([^\s\d].*)$/.exec(side.text) ?? [];
  const before = /(?<![\d.,_\p{L}])(?:([\d._]+)\s*[*·×]\s*)?10\s*\^\s*$/u.exec(
    text.slice(Math.max(0, side.span.start - LONGEST_FACTOR), side.span.start),
  );
  if (exponent === undefined || !before) return undefined;
  const start = side.span.start - before[0].length;
  return { span: { start, end: side.span.end }, text: `${before[1] ?? 1}e${exponent} ${unit}` };
}

function capital(where: string): string {
  return where.startsWith("an ") ? `A${where.slice(1)}` : where;
}
