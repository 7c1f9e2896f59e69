import { chapterAt, CHAPTERS } from "../engine/handbook";
import { CONSTANTS, NATIVES } from "../engine/natives";
import type { ClauseOutcome, RuleOutcome } from "../engine/outcome";
import { referenceAt, type Notes, type Reference, type Referent } from "../engine/referent";
import type { Row, Snapshot } from "../engine/snapshot";
import { rowsOf } from "../engine/tableReferent";
import { isTableFile } from "../engine/uses";
import { otherChoiceText, type OtherChoice } from "../phrases/choosing";
import { describeFunction, type CallPlace, type Trial } from "../phrases/describeFunction";
import { describeItems } from "../phrases/describeItems";
import { describeQuantity, named, ruleText } from "../phrases/describeQuantity";
import { describeCell, describeColumn, describeFile, describeRow, describeTable } from "../phrases/describeTable";
import { code, codeBlock, escaped } from "../phrases/markdown";
import { countedText, rulePhrase, worstInputs } from "../phrases/rule";
import { ruleLine } from "../phrases/ruleLine";
import { STATEMENT_HELP, WORD_HELP } from "../phrases/statementHelp";
import { readingOf } from "../phrases/pieces";
import { toldApart } from "../phrases/toldApart";
import { unitHelp } from "../phrases/unitHelp";
import { extentText, valueText } from "../phrases/value";
import { decade, isSeriesName } from "../quantity/series";
import { Kind, Operator, type Node } from "../syntax/tree";
import { touches } from "../text/span";
import type { Hover, WorkedOut } from "./feature";

/** What a hover asks for beyond the snapshots. */
export interface Beyond {
  /** What an expression gives, were it defined above a row. */
  readonly tried: Trial;
  /** What takes longer than a look, if it was asked for before. */
  readonly workedOut: (row: Row) => WorkedOut | undefined;
}

/** What is known of the word under the pointer, or else of the rule. */
export function hover(snapshot: Snapshot, offset: number, notes: Notes, beyond: Beyond): Hover | undefined {
  const reference = referenceAt(snapshot, offset, notes);
  const paragraphs = reference ? describe(reference, snapshot, notes, beyond) : [];
  if (reference && paragraphs.length > 0) {
    const page = pageOf(reference);
    return { span: reference.span, markdown: paragraphs.join("\n\n"), ...(page ? { page } : {}) };
  }
  const row = snapshot.rowAt(offset);
  if (row?.cells) return cellHover(snapshot, row, offset);
  return row && (anotherHover(row, offset, snapshot, notes) ?? wordHover(row, offset) ?? ruleHover(row, beyond));
}

/** The page of the handbook that has more to say. */
function pageOf({ referent }: Reference): Hover["page"] {
  const chapter = "path" in referent ? chapterAt(referent.path) : undefined;
  if (chapter === undefined) return undefined;
  return referent.kind === "defined" ? { chapter, name: referent.name } : { chapter };
}

function describe(
  { referent, row, use }: Reference,
  snapshot: Snapshot,
  notes: Notes,
  beyond: Beyond,
): readonly string[] {
  switch (referent.kind) {
    case "defined": {
      const home = notes.get(referent.path);
      return home
        ? describeDefined(referent, home, { row, node: use?.node, note: snapshot, scope: use?.scope }, notes, beyond)
        : [];
    }
    case "row": {
      const home = notes.get(referent.path);
      return home ? describeRow(home, referent.row, referent.index) : [];
    }
    case "bound":
      return describeBound(referent);
    case "note":
      return [noteText(referent.path, notes)];
    case "series":
      return seriesText(referent.name);
    case "native": {
      const native = NATIVES.get(referent.name);
      const reading = row && use && referent.name === "total" ? callReading(row, use.node, snapshot, notes) : "";
      return native ? [code(native.signature), native.does, reading].filter(isSaid) : [];
    }
    case "constant":
      return [`**${code(referent.name)}** ${CONSTANTS.get(referent.name)}`];
    case "unit": {
      const help = unitHelp(referent.name);
      return help ? [`**${code(referent.name)}** ${escaped(help.names)}`, escaped(help.factor)].filter(isSaid) : [];
    }
  }
}

type Named<K extends Referent["kind"]> = Extract<Referent, { kind: K }>;

/** A cell of a table where no name stands: its value, or what it computes. */
function cellHover(snapshot: Snapshot, row: Row, offset: number): Hover | undefined {
  const { cells, outcome } = row;
  const place = snapshot.placeIn(row, offset);
  if (!cells || place === undefined || outcome.kind !== "column") return undefined;
  const line = cells.lines.lineAt(place);
  const span = snapshot.spanOf(row, { start: cells.lines.starts[line], end: cells.lines.ends[line] });
  const told = line === 0 ? describeColumn(snapshot, row, outcome) : describeCell(snapshot, row, outcome, line - 1);
  return { span, markdown: told.join("\n\n") };
}

function describeDefined(
  { name, row, cell }: Named<"defined">,
  home: Snapshot,
  at: CallPlace,
  notes: Notes,
  beyond: Beyond,
): readonly string[] {
  const { outcome, statement } = row;
  switch (outcome.kind) {
    case "quantity":
      return describeQuantity({ name, row, home }, outcome, notes, beyond.workedOut(row)?.distribution);
    case "truth":
      return [`**${code(name)}** ${escaped(valueText(outcome))}`, escaped(statement.comment)].filter(isSaid);
    case "use":
      return [noteText(outcome.path, notes)];
    case "table":
      return describeTable(home, row);
    case "column":
      return cell === undefined ? describeColumn(home, row, outcome) : describeCell(home, row, outcome, cell);
    case "part": {
      const place = notes.get(outcome.path);
      const head = place?.find(outcome.table);
      const about = place && head ? describeRow(place, head, rowsOf(head).indexOf(outcome.row)) : [];
      return [`**${code(name)}** is ${code(outcome.row)} of ${code(outcome.table)}`, ...about.slice(1)];
    }
    case "items":
      return describeItems(name, row, home, notes);
    case "function":
      return statement.kind === "function" ? describeFunction(statement, row, home, at, notes, beyond.tried) : [];
    case "later":
      return [`${code(name)} is read and not computed yet.`];
    default:
      return [`${code(name)} has no value: its line cannot be read.`];
  }
}

function describeBound({ name, row }: Named<"bound">): readonly string[] {
  const { statement } = row;
  if (statement.kind !== "function") return [`${code(name)} runs through the values behind ${code("for")}.`];
  const parameter = statement.parameters.find((each) => statement.tree.text(each.name) === name);
  const by = parameter?.default;
  const otherwise =
    by === undefined
      ? ""
      : `, ${code(statement.text.slice(statement.tree.start(by), statement.tree.end(by)))} unless it is given`;
  return [`${code(name)} is a parameter of ${code(statement.tree.text(statement.name))}${otherwise}.`];
}

function noteText(path: string, notes: Notes): string {
  const note = notes.get(path);
  const chapter = chapterAt(path);
  if (chapter !== undefined)
    return `The chapter **${code(chapter)}** of the handbook: ${escaped(CHAPTERS.get(chapter) ?? "")}`;
  if (!note) return `The note ${code(path)} is not read.`;
  const head = note.rows[0] as Row | undefined;
  if (isTableFile(path) && head) return describeFile(note, head, path).join("\n\n");
  const heading = note.blocks.flatMap(({ block }) => (block.kind === "prose" ? block.headings : []))[0] as
    { readonly text: string } | undefined;
  return heading ? `The note ${code(path)}: ${escaped(heading.text)}` : `The note ${code(path)}`;
}

function seriesText(name: string): readonly string[] {
  if (!isSeriesName(name)) return [];
  return [
    `**${code(name)}** of IEC 60063, one decade`,
    decade(name)
      .map((member) => member.toPrecision(MEMBER_DIGITS[name] ?? 3))
      .join(" · "),
  ];
}

/** The coarse series have members of two digits. */
const MEMBER_DIGITS: Readonly<Record<string, number>> = { E3: 2, E6: 2, E12: 2, E24: 2 };

/** Which pieces a call of `total` adds up, from the node of its name. */
function callReading(row: Row, callee: Node, snapshot: Snapshot, notes: Notes): string {
  const { tree } = row.statement;
  for (let node = callee + 1; node < tree.count; node++)
    if (tree.kind(node) === Kind.Call && tree.first(node) === callee) return readingOf(row, node, snapshot, notes);
  return "";
}

/** On the word `another`: what it means, and what it draws anew here. */
function anotherHover(row: Row, offset: number, snapshot: Snapshot, notes: Notes): Hover | undefined {
  const { tree } = row.statement;
  for (let node = 0; node < tree.count; node++) {
    if (tree.kind(node) !== Kind.Unary || tree.operator(node) !== Operator.Another) continue;
    const start = row.start + tree.start(node);
    const span = { start, end: start + "another".length };
    if (!touches(span, offset)) continue;
    const markdown = [WORD_HELP.get("another")!, readingOf(row, node, snapshot, notes)].filter(isSaid).join("\n\n");
    return { span, markdown };
  }
  return undefined;
}

/** Help on a word of the language. */
function wordHover({ statement, start }: Row, offset: number): Hover | undefined {
  const { text } = statement;
  for (const { 0: word, index } of text.matchAll(/"[^"\n]*"|#[^\n]*|[\p{L}_][\p{L}\p{M}\p{N}_]*/gu)) {
    if (!touches({ start: index, end: index + word.length }, offset - start)) continue;
    // A rule has more to say of itself than its first word has.
    const help = index === 0 && statement.kind !== "rule" ? STATEMENT_HELP.get(word) : undefined;
    const markdown = help ? `${code(help.syntax)}\n\n${help.meaning}` : WORD_HELP.get(word);
    if (markdown !== undefined && statement.kind !== "broken")
      return { span: { start: start + index, end: start + index + word.length }, markdown };
  }
  return undefined;
}

/** A rule: how it stands, its dimension line, where it is worst, each comparison, and what would make it hold. */
function ruleHover(row: Row, { workedOut }: Beyond): Hover | undefined {
  const { outcome, statement } = row;
  if (outcome.kind !== "rule") return undefined;
  const paragraphs = [
    `${code(ruleText(row))} ${escaped(rulePhrase(outcome))}`,
    ...clauseTexts(outcome),
    nearestChoice(workedOut(row)),
    escaped(statement.comment),
  ].filter(isSaid);
  const span = { start: row.start, end: row.start + statement.text.length };
  return { span, markdown: paragraphs.join("\n\n") };
}

/** The nearest choice with which a rule that fails would hold. */
function nearestChoice(known: WorkedOut | undefined): string {
  const [nearest] = (known?.otherChoices ?? []) as readonly (OtherChoice | undefined)[];
  if (!nearest) return "";
  const text = otherChoiceText(nearest);
  return escaped(`${text[0].toUpperCase()}${text.slice(1)}`);
}

/** Comparisons of a rule that are drawn; a rule over a long list has one for each row. */
const MOST_DRAWN = 3;

function clauseTexts({ clauses, state }: RuleOutcome): readonly string[] {
  const decisive = clauses.filter((clause) => clause.state === state);
  const shown = (decisive.length > 0 ? decisive : clauses).slice(0, MOST_DRAWN);
  const drawn = new Set<string>();
  return shown.flatMap((clause) => {
    const line = drawing(clause, clauses);
    // Both limits of a band are on one line.
    const picture = drawn.has(line) ? "" : line;
    drawn.add(line);
    return [sidesText(clause), picture, worstText(clause)].filter(isSaid);
  });
}

function sidesText(clause: ClauseOutcome): string {
  const side = (text: string, value: string) =>
    value === "" || text === value ? code(text) : `${code(text)} ${escaped(value)}`;
  const of = toldApart(clause);
  const left = side(clause.leftText, extentText(clause.left, of));
  return `${left} ${escaped(clause.relation)} ${side(clause.rightText, extentText(clause.right, of))}`;
}

function drawing(clause: ClauseOutcome, all: readonly ClauseOutcome[]): string {
  const line = ruleLine(clause, all);
  return line ? codeBlock(line.drawing) : "";
}

function worstText(clause: ClauseOutcome): string {
  const inputs = worstInputs(clause);
  const lines = [inputs.length > 0 ? `Worst at ${escaped(named(inputs))}` : "", escaped(countedText(clause))];
  return lines.filter(isSaid).join("  \n");
}

function isSaid(text: string): boolean {
  return text !== "";
}
