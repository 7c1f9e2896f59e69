import { declaredNames } from "../engine/entry";
import { chapterPath, isChapter } from "../engine/handbook";
import { mentionsOf } from "../engine/mentions";
import { NATIVES } from "../engine/natives";
import { chapterMeant } from "../engine/referent";
import type { InSlices } from "../engine/slices";
import { nearestName } from "../engine/suggest";
import { problemsOf, type Row, type Snapshot } from "../engine/snapshot";
import { divide, RATIO, siUnit, type Dimension } from "../quantity/dimension";
import { SERIES_NAMES } from "../quantity/series";
import { isName } from "../syntax/name";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";
import { otherName, type OtherName } from "../phrases/otherNames";
import { nearMembers } from "../phrases/nearMembers";
import { findName, shortened } from "../phrases/side";
import { tableMeant } from "../phrases/tableMeant";
import type { FindingContext, ProblemOf, Wording } from "./finding";
import { replaceIn, rewritings, statementAbove } from "./fixing";

/** `b = burdne / 2`: nothing of that name is defined. */
export const nameUnknown: Wording<"name.unknown"> = {
  severity: "error",
  reference: "Nothing of this name is defined. Correct the name, define it, or state it as an assumption.",
  message: (problem, { row, context }) => {
    const { name: written, suggestion, isUnit, isHolder, span } = problem;
    const name = shortened(written);
    if (isHolder) return unknownHolder(name, suggestion, context.snapshot);
    const dot = name.indexOf(".");
    if (dot > 0 && chapterMeant(context.snapshot, name.slice(0, dot)) !== undefined)
      return notInChapter(name, dot, suggestion, membersNear(name, dot, context));
    if (dot > 0 && findName(name.slice(0, dot), context)) return notInOtherNote(name, dot, context);
    const usual = usualName(problem, row);
    if (usual !== undefined) return `\`${name}\` is not defined. ${usual.says}`;
    const series = seriesAsArgument(problem, row);
    if (series !== undefined)
      return `\`${name}\` is a series. As an argument its name stands in quotes: \`${series}\`.`;
    if ((SERIES_NAMES as readonly string[]).includes(name.toUpperCase()))
      return `\`${name.toUpperCase()}\` is a series. A value is chosen from it: \`choose 620 Ω from ${name.toUpperCase()}\`.`;
    if (/^E\d+$/.test(name)) return `\`${name}\` is no series: the series are ${SERIES_NAMES.join(", ")}.`;
    if (/^[RkMmunp]\d+$/.test(name) && suggestion === undefined)
      return `\`${name}\` is not defined. A letter code begins with a digit: \`0${name}\`.`;
    if (suggestion !== undefined) return `\`${name}\` is not defined. Did you mean \`${suggestion}\`?`;
    if (isUnit)
      return `\`${name}\` is a unit, and a unit belongs to a number. Write \`${withNumber(name, span, row).shown}\`, or define a quantity of that name.`;
    if (isChapter(name))
      return `\`${name}\` is a chapter of the handbook, and a quantity is wanted here. Its functions are called by \`${name}.NAME(…)\`.`;
    if (row.statement.kind === "measured" && span.start > row.statement.tree.start(row.statement.name))
      return `\`${name}\` is a condition of the measurement and not defined in this note. Define it, or leave the condition out.`;
    if (row.statement.kind === "measured")
      return `\`${name}\` is measured and not defined. Define it, so that the measurement can be compared.`;
    if (isCalledAt(span, row))
      return `\`${name}\` is not defined in this note. Define it; if the handbook has it, \`copperbook handbook ${name}\` tells in which chapter.`;
    return `\`${name}\` is not defined in this note. Define it, or state what you assume of it.`;
  },
  *fixes(problem, { row, context }) {
    const { suggestion, span, name, isUnit } = problem;
    const usual = usualName(problem, row);
    if (usual !== undefined) return rewritings({ span, rewritten: usual.texts }, row);
    if (suggestion !== undefined)
      return [{ title: `Write ${suggestion}`, edits: [replaceIn(row, span, suggestion)], isPreferred: true }];
    const series = seriesAsArgument(problem, row);
    if (series !== undefined) return [{ title: `Write ${series}`, edits: [replaceIn(row, span, series)] }];
    const number = withNumber(name, span, row);
    const fixes: Fix[] = isUnit
      ? [{ title: `Write ${number.shown}`, edits: [replaceIn(row, number.span, number.text)] }]
      : [];
    const assumed = isName(name) ? yield* assumption(problem, row, context) : undefined;
    return assumed ? [...fixes, assumed] : fixes;
  },
};

/** What other languages mean by a name; a name of the note that differs by a slip only comes before it. */
function usualName({ name, suggestion, span }: ProblemOf<"name.unknown">, row: Row): OtherName | undefined {
  const isOurs = suggestion === undefined || NATIVES.has(suggestion);
  return isOurs ? otherName(name, isCalledAt(span, row)) : undefined;
}

/** `series.closest(148 Ω, E12)`: the series in quotes, where it is an argument by itself. */
function seriesAsArgument({ name, span }: ProblemOf<"name.unknown">, { statement: { text } }: Row): string | undefined {
  if (!(SERIES_NAMES as readonly string[]).includes(name.toUpperCase())) return undefined;
  const isBetween =
    /[\p{L}\d_]\([^()]*$/u.test(text.slice(0, span.start)) && /[(,]\s*$/.test(text.slice(0, span.start));
  return isBetween && /^\s*[,)]/.test(text.slice(span.end)) ? `"${name.toUpperCase()}"` : undefined;
}

function isCalledAt({ end }: Span, { statement }: Row): boolean {
  return /^\s*\(/.test(statement.text.slice(end));
}

/** The unit behind a number. `5/s` becomes `5 1/s`: with `5/1 s` the fraction would take the unit, and be 5 s. */
function withNumber(name: string, span: Span, { statement }: Row): { span: Span; text: string; shown: string } {
  const before = /([\d.]*\d)\s*\/\s*$/.exec(statement.text.slice(0, span.start));
  if (!before) return { span, text: `1 ${name}`, shown: `1 ${name}` };
  const start = before.index + before[1].length;
  return { span: { start, end: span.end }, text: ` 1/${name}`, shown: `${before[1]} 1/${name}` };
}

function unknownHolder(name: string, suggestion: string | undefined, snapshot: Snapshot): string {
  const plain = `\`${name}\` is neither something of this note nor a chapter of the handbook.`;
  const table = tableMeant(name, snapshot);
  if (table !== undefined) return `${plain} ${table}`;
  return suggestion === undefined ? plain : `${plain} Did you mean \`${suggestion}\`?`;
}

function notInChapter(name: string, dot: number, suggestion: string | undefined, near: readonly string[]): string {
  const [chapter, member] = [name.slice(0, dot), name.slice(dot + 1)];
  const plain = `\`${member}\` is not in the chapter \`${chapter}\` of the handbook.`;
  if (suggestion !== undefined) return `${plain} Did you mean \`${chapter}.${suggestion}\`?`;
  const listed = near.length === 0 ? "" : ` Near it: ${near.map((each) => `\`${chapter}.${each}\``).join(", ")}.`;
  return `${plain}${listed} All that it has is listed by \`copperbook handbook ${chapter}\`.`;
}

/** What a chapter has whose name shares a word with the one that is wanted: `led.series_resistor` for `led.resistor`. */
function membersNear(name: string, dot: number, { other }: FindingContext): readonly string[] {
  const rows = other(chapterPath(name.slice(0, dot)))?.rows ?? [];
  const members = rows.flatMap(({ statement }) => declaredNames(statement).map((declared) => declared.name));
  return nearMembers(members, name.slice(dot + 1));
}

function notInOtherNote(name: string, dot: number, { snapshot, other }: FindingContext): string {
  const [note, member] = [name.slice(0, dot), name.slice(dot + 1)];
  const use = snapshot.find(note)?.outcome;
  const rows = (use?.kind === "use" && other(use.path)?.rows) || [];
  const meant = nearestName(
    rows.flatMap(({ statement }) => declaredNames(statement).map((declared) => declared.name)),
    member,
  );
  const plain = `\`${member}\` is not defined in the note \`${note}\`.`;
  return meant === undefined ? plain : `${plain} Did you mean \`${note}.${meant}\`?`;
}

/**
 * States the name as an assumption of one unit, of the dimension that its place needs. It is found by trying: what the
 * statements that use the name complain of, were it a plain number, tells what it must be. None where nothing tells.
 */
function* assumption(
  { name }: ProblemOf<"name.unknown">,
  row: Row,
  context: FindingContext,
): InSlices<Fix | undefined> {
  const stated = (value: string) => statementAbove(row, context.snapshot, `assume ${name} = ${value}`);
  const complaintWith = (value: string) => context.whatIf([stated(value)], (after) => complaintOf(name, after));
  const complaint = yield* complaintWith("1");
  for (const value of complaint?.wanted ?? []) {
    const left = yield* complaintWith(value);
    if (left === undefined) return { title: `Assume ${name} = ${value} for now`, edits: [stated(value)] };
  }
  return undefined;
}

/** What the first statement that uses a name complains of, and the values that might answer it. */
function complaintOf(name: string, snapshot: Snapshot): { readonly wanted: readonly string[] } | undefined {
  for (const row of snapshot.rows) {
    const isUser = mentionsOf(row.statement).some((mention) => mention.name === name && mention.use === "value");
    if (!isUser || declaredNames(row.statement).some((declared) => declared.name === name)) continue;
    for (const problem of problemsOf(row)) {
      switch (problem.code) {
        case "temperature.pair":
          return { wanted: ["1 K", "25 °C"] };
        case "unit.mismatch":
        case "unit.ratioAdded":
          return { wanted: candidates(problem.left.dimension, problem.right.dimension) };
        case "unit.shownIn":
          return { wanted: candidates(problem.wantedDimension, problem.side.dimension) };
        case "value.undefined":
        case "range.undefined":
        case "assumption.unused":
          break;
        default:
          return { wanted: [] };
      }
    }
  }
  return undefined;
}

/** The name stands alone, or multiplies, or divides what stands there. */
function candidates(a: Dimension, b: Dimension): readonly string[] {
  const dimensions = [a, b, divide(a, b), divide(b, a)].filter((dimension) => dimension !== RATIO);
  return dimensions.map((dimension) => `1 ${siUnit(dimension)}`).filter((text) => !text.startsWith("1 1/"));
}
