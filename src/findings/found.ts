import { sameData } from "../engine/sameData";
import { chapterAt } from "../engine/handbook";
import { mentionsOf } from "../engine/mentions";
import type { Problem } from "../engine/outcome";
import { problemsOf, type Row, type Snapshot } from "../engine/snapshot";
import { passedLimits } from "../phrases/cautions";
import { restingOn } from "../phrases/dependence";
import type { ProseBlock, Trap } from "../note/block";
import { OPENING_WORDS } from "../syntax/name";
import type { SyntaxProblem } from "../syntax/problem";
import { isTableFile } from "../engine/uses";
import { readsAsStatement } from "../syntax/parse";
import { shift, type Span } from "../text/span";
import type { AnyProblem, FindingContext, TextProblem } from "./finding";

/** A problem, and the row of its statement; none for what is found outside of statements. */
export interface Found {
  readonly problem: AnyProblem;
  readonly row?: Row;
}

/**
 * All that is worth saying of a note: one slip gives one finding. What follows from something that is reported
 * elsewhere is left out.
 * @param isError whether a problem is an error where it is reported.
 */
export function foundIn(context: FindingContext, isError: (problem: Problem) => boolean): readonly Found[] {
  const { snapshot } = context;
  const found: Found[] = [];
  const inCircles = new Set<string>();
  const isBroken = snapshot.rows.some((row) =>
    problemsOf(row).some(({ code }) => /^(syntax|name)\./.test(code) && code !== "name.lookAlike"),
  );
  const explained = explainedRows(context, isError);
  for (const row of snapshot.rows) {
    const seen = new Set<string>();
    for (const problem of problemsOf(row)) {
      const condition = problem.code === "function.domain" ? `${problem.name} ${problem.condition}` : "";
      const key = `${problem.code} ${problem.span.start} ${problem.span.end} ${condition}`;
      if (seen.has(key) || followsFromText(problem, row) || isEcho(problem, context, inCircles)) continue;
      if (isBroken && problem.code === "assumption.unused") continue;
      seen.add(key);
      found.push({ problem, row });
    }
    found.push(...cautions(row, context));
    found.push(...fileProblems(row, context));
    const ofRule = ruleProblem(row, explained);
    if (ofRule) found.push(ofRule);
  }
  return [...found, ...textProblems(snapshot).map((problem) => ({ problem }))];
}

/** Whether a problem says again what is wrong with the text: at the same place, or because of a character that cannot be seen. */
function followsFromText(problem: Problem, { statement, cells }: Row): boolean {
  const { problems } = statement;
  // Each cell of a column is a text of its own.
  const cell = cells?.lines.lineAt(problem.span.start);
  const ofText = cells ? problems.filter(({ span }) => cells.lines.lineAt(span.start) === cell) : problems;
  if (ofText.some((other) => isCauseOf(other, problem))) return true;
  if (problem.code === "rule.notACondition" && ofText.some(({ code }) => code === "syntax.unexpected")) return true;
  if (problem.code === "syntax.unexpected") return ofText.some(({ code }) => code === "syntax.invisibleCharacter");
  // An outcome that is the same after an edit is kept, with the problems of the statement as it was before.
  if (ofText.some((other) => sameData(other, problem))) return false;
  // `meausred V = 2 V`: what the word was meant as tells whether the name is defined twice.
  if (problem.code === "name.doubled" && ofText.some(({ code }) => code === "syntax.unknownStatement")) return true;
  return ofText.some(({ span }) => span.start < problem.span.end && problem.span.start < span.end);
}

/**
 * Whether a problem of the text is all that needs to be said of another: where the grammar was left first, what comes behind
 * is not read as it was meant, nor what is around it; and a text in quotes that has no place there may have any marks.
 */
function isCauseOf({ code, span }: SyntaxProblem, problem: Problem): boolean {
  if (!problem.code.startsWith("syntax.")) return false;
  const { start, end } = problem.span;
  const isInside = span.start < start && end <= span.end;
  const isAround = start <= span.start && span.end <= end;
  switch (code) {
    case "syntax.unexpected":
      return span.start < start || (isAround && REWRITE_ALL.has(problem.code));
    case "syntax.literalExpected":
      return span.end <= start;
    case "syntax.unclosedBracket":
      return problem.code === "syntax.unexpected" && problem.found === "";
    case "syntax.unclosedQuote":
      return problem.code === "syntax.unexpected" && span.start <= start;
    case "syntax.missingOperator":
      return isInside || (problem.code === "syntax.unexpected" && start >= span.end);
    default:
      return false;
  }
}

/** What is said of a span as if it were what it should be. */
const REWRITE_ALL: ReadonlySet<string> = new Set([
  "syntax.needsBrackets",
  "syntax.secondEquals",
  "syntax.quotes",
  "syntax.literalExpected",
  "syntax.numberDot",
  "syntax.otherSign",
]);

/** Whether a problem repeats another: of a circle one member speaks, and of a slip in a function its definition does. */
function isEcho(problem: Problem, context: FindingContext, inCircles: Set<string>): boolean {
  if (problem.code === "name.circular") {
    const members = problem.path.map(({ name, note }) => `${note} ${name}`);
    const isKnown = members.some((member) => inCircles.has(member));
    for (const member of members) inCircles.add(member);
    return isKnown;
  }
  if (problem.code === "table.emptyCell") return isLeftOut(problem.row, problem.column, context.snapshot);
  if (problem.code !== "function.body") return false;
  const { within, problem: inner } = problem;
  // Functions that call each other are a circle, of which their definitions speak.
  if (inner.code === "function.recursive") return true;
  const home = within.path === context.snapshot.path ? context.snapshot : context.other(within.path);
  const row = home?.rowOf(within.statement);
  return (
    row !== undefined &&
    problemsOf(row).some(({ code, span }) => code === inner.code && span.start === within.span.start)
  );
}

/** Whether a row has too few cells, which says all of its empty ones. */
function isLeftOut(row: string, column: string, snapshot: Snapshot): boolean {
  const head = snapshot.find(column.slice(0, column.indexOf(".")));
  return head !== undefined && head.statement.problems.some((each) => each.code === "table.ragged" && each.row === row);
}

/** The statements that a reported problem leaves without a verdict: asked for once, and only if some rule has none. */
function explainedRows(context: FindingContext, isError: (problem: Problem) => boolean): ReadonlySet<Row> {
  const isOpen = ({ outcome }: Row) => outcome.kind === "rule" && outcome.state === "undecided";
  if (!context.snapshot.rows.some(isOpen)) return new Set();
  return restingOn(context, (row) =>
    problemsOf(row).some((problem) => isError(problem) || EXPLANATIONS.has(problem.code)),
  );
}

/** What is wrong with a table that is a file, where the file is used: what could not be read of it, and the slips in it. */
function fileProblems(row: Row, context: FindingContext): readonly Found[] {
  const { statement, outcome } = row;
  if (statement.kind !== "use" || outcome.kind !== "use" || !isTableFile(outcome.path)) return [];
  const { path } = outcome;
  const file = context.other(path);
  if (!file) return [];
  const place = { span: statement.tree.span(statement.path), path };
  if (!file.rows.some((inRow) => inRow.statement.kind === "column"))
    return [{ row, problem: { ...place, code: "table.emptyFile" } }];
  const lost = file.text.split("\uFFFD").length - 1;
  const unreadable: readonly Found[] =
    lost > 0 ? [{ row, problem: { ...place, code: "table.notUtf8", count: lost } }] : [];
  const isSaid = (problem: Problem) =>
    problem.code === "table.emptyCell" && isLeftOut(problem.row, problem.column, file);
  const all = file.rows.flatMap((inRow) =>
    problemsOf(inRow).flatMap((problem) => (isSaid(problem) ? [] : [{ inRow, problem }])),
  );
  if (all.length === 0) return unreadable;
  const places = all.map(({ inRow, problem }) => {
    const line = file.lines.lineAt(file.spanOf(inRow, problem.span).start) + 1;
    const column = inRow.outcome.kind === "column" ? { column: inRow.outcome.name.split(".")[1] } : {};
    return { inRow, problem, line, ...column };
  });
  places.sort((a, b) => a.line - b.line);
  return [...unreadable, { row, problem: { ...place, code: "table.file", places } }];
}

function ruleProblem(row: Row, explained: ReadonlySet<Row>): Found | undefined {
  const { outcome, statement } = row;
  if (outcome.kind !== "rule" || statement.kind !== "rule" || outcome.state === "holds") return undefined;
  if (outcome.state === "undecided" && (outcome.isPending || explained.has(row))) return undefined;
  return {
    row,
    problem: { code: `rule.${outcome.state}`, span: statement.tree.span(statement.condition), rule: outcome },
  };
}

/** The limits of safety that a quantity passes. The handbook speaks of them itself. */
function cautions(row: Row, context: FindingContext): readonly Found[] {
  const { statement, outcome } = row;
  if (outcome.kind !== "quantity" || !("name" in statement) || statement.name === undefined) return [];
  if (chapterAt(context.snapshot.path) !== undefined) return [];
  const span = statement.tree.span(statement.name);
  return passedLimits(row, context).map((passed) => ({ row, problem: { code: passed.caution.code, span, passed } }));
}

/** Warnings that leave a rule undecided, as errors do. */
const EXPLANATIONS: ReadonlySet<string> = new Set(["range.undefined", "later.notComputed", "table.emptyCell"]);

function textProblems({ text, blocks }: Snapshot): readonly TextProblem[] {
  const problems: TextProblem[] = [];
  for (const { block, start } of blocks) {
    if (block.kind !== "prose") continue;
    problems.push(...trapProblems(text, block.traps, start));
    const atMargin = marginProblem(text, block, start);
    if (atMargin) problems.push(atMargin);
  }
  const lost = text.indexOf("\uFFFD");
  if (lost >= 0)
    problems.push({
      code: "text.notUtf8",
      span: { start: lost, end: lost + 1 },
      count: text.split("\uFFFD").length - 1,
    });
  return problems;
}

/** The lines of a block that read as statements and do not compute: those that stand together give one problem. */
function trapProblems(text: string, traps: readonly Trap[], start: number): readonly TextProblem[] {
  const problems: Mutable<TrapProblem>[] = [];
  /** Where the last trap ends, whether it reads as a statement or not. */
  let end = -1;
  let run: Mutable<TrapProblem> | undefined;
  for (const { kind, span: inBlock, insertAt, insert } of traps) {
    const span = shift(inBlock, start);
    const code = `note.${kind}` as const;
    if (run && (run.code !== code || text.slice(end, span.start).trim() !== "")) run = undefined;
    end = span.end;
    if (!readsAsStatement(text.slice(span.start, span.end))) continue;
    if (run) {
      run.lines++;
      run.span = { start: run.span.start, end };
    } else problems.push((run = { code, span, lines: 1, insertAt: start + insertAt, insert }));
  }
  return problems;
}

/** An opening word with which a paragraph may begin, and what is behind it on its line. */
const OPENED = /[ ]{0,3}([a-z]+)[ \t]+[^\r\n]*/y;

/** What a line of prose has only by chance. */
const SIGN = /[=<>≤≥]/;

/** A paragraph whose lines all read as statements, of which one begins with an opening word and states something. */
function marginProblem(text: string, block: ProseBlock, start: number): TextProblem | undefined {
  OPENED.lastIndex = start;
  const [first, word] = OPENED.exec(text) ?? [];
  // A paragraph that has only definitions can be a formula in prose.
  if (first === undefined || !OPENING_WORDS.has(word) || !SIGN.test(first)) return undefined;
  if (block.headings.length > 0 || block.tables.length > 0 || block.traps.length > 0) return undefined;
  const end = start + text.slice(start, start + block.length).trimEnd().length;
  const lines: Span[] = [];
  for (const { 0: line, 1: indentation, index } of text.slice(start, end).matchAll(/([ ]*)[^\r\n]+/g)) {
    if (!readsAsStatement(line)) return undefined;
    lines.push({ start: start + index, end: start + index + indentation.length });
  }
  return { code: "note.atMargin", span: { start: lines[0].end, end }, lines };
}

type TrapProblem = Extract<TextProblem, { readonly insert: string }>;
type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** The name by which a rule is accepted, `should.NAME`: the first that it mentions. */
export function nameOfRule({ statement }: Row): string | undefined {
  if (statement.kind !== "rule") return undefined;
  const [mention] = mentionsOf(statement).filter(({ use }) => use !== "unit");
  return mention && (mention.member === undefined ? mention.name : `${mention.name}.${mention.member}`);
}
