import { otherChoiceText } from "../phrases/choosing";
import { fewOf, MOST_INPUTS } from "../phrases/inputTexts";
import { bandText, countedText, decisiveClause, rulePhrase, sizeText, worstInputsOf } from "../phrases/rule";
import { ruleLine } from "../phrases/ruleLine";
import type { Finding, NoteRecord, Service, Snapshot } from "../service";
import { statedSides } from "../phrases/toldApart";
import { columnsOf, NO_BREAK, printable, wrap } from "./layout";
import { nothingComputesText } from "./nothingComputes";
import type { NoteFile } from "./noteFiles";
import type { OpenNotes } from "./openNotes";
import type { Face } from "./terminal";
import { verdict } from "./verdict";

/** What is wrong in each note and what is open there, then the verdict on all of them, where the eye is at the end. */
export function checkText(open: OpenNotes, face: Face, allRules = false): string {
  const { service, notes } = open;
  const sheets = notes.map((note) => new Sheet(service, note, face).lines(allRules));
  return `${[...sheets, verdict(open, face)].map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

type Row = Snapshot["rows"][number];
type RuleOutcome = Extract<Row["outcome"], { kind: "rule" }>;

const INDENT = "    ";
/** Room for the longest of the words before the closing entries. */
const LABEL_COLUMNS = 14;

/** One note: a heading, an entry for each finding and for each rule that does not hold, and what else is to be known. */
class Sheet {
  private readonly snapshot: Snapshot;
  private readonly record: NoteRecord;

  constructor(
    private readonly service: Service,
    private readonly note: NoteFile,
    private readonly face: Face,
  ) {
    this.snapshot = service.snapshot(note.path)!;
    this.record = service.record(note.path, "brief");
  }

  lines(allRules: boolean): string[] {
    const lines = this.heading();
    for (const { entry } of this.entries()) lines.push("", ...entry);
    const silent = nothingComputesText(this.service, this.note.path);
    if (silent !== "") lines.push("", ...this.wrapped(silent));
    const closing = [
      ...(allRules ? this.labelled("hold", this.held()) : this.labelled("closest rule", this.closest())),
      ...this.labelled("settle first", this.guesses()),
    ];
    closing.push(...this.labelled("open items", this.openItems()));
    return closing.length > 0 ? [...lines, "", ...closing] : lines;
  }

  /** The path between two witness lines, with the note's state at the right; on lines of their own where that is too long. */
  private heading(): string[] {
    const path = printable(this.note.shownPath);
    const state = this.service.summary(this.note.path).text || "no rules";
    const room = this.face.columns - columnsOf(`├─ ${path}  ${state} ─┤`);
    if (room >= 1) return [`├─ ${path} ${"─".repeat(room)} ${state} ─┤`];
    return [`├─ ${path}`, ...wrap(state, this.face.columns, "   ")];
  }

  /** In the order of the text. A finding that says why a rule does not hold is told with the rule. */
  private entries(): { at: number; entry: string[] }[] {
    const findings = [...this.service.findings(this.note.path)];
    const rules = this.snapshot.rows.flatMap((row) => {
      if (row.outcome.kind !== "rule" || row.outcome.state === "holds") return [];
      const isOwn = row.outcome.state === "undecided" ? isErrorIn : isAboutRule;
      const own = findings.findIndex((finding) => isOwn(finding, row));
      const finding = own < 0 ? undefined : findings.splice(own, 1)[0];
      return [{ at: row.start, entry: this.rule(row, row.outcome, finding) }];
    });
    const others = findings.map((finding) => ({ at: finding.span.start, entry: this.finding(finding) }));
    return [...rules, ...others].sort((a, b) => a.at - b.at);
  }

  private finding(finding: Finding): string[] {
    return [...this.place(finding.span.start, finding), ...this.wrapped(finding.message)];
  }

  /** The condition, its state in words with the worst point, the reason that its author gave, and the dimension line. */
  private rule(row: Row, rule: RuleOutcome, finding: Finding | undefined): string[] {
    const { start, statement } = row;
    const clause = rule.state === "undecided" ? undefined : decisiveClause(rule);
    const line = clause && ruleLine(clause, rule.clauses);
    return [
      ...this.place(finding?.span.start ?? start, finding),
      ...this.wrapped(`${rule.word} ${this.conditionAt(this.lineOf(start))}`),
      ...this.wrapped(stateOf(rule, rule.state === "undecided" ? [] : worstInputsOf(rule))).map(this.face.strong),
      ...[
        // What is drawn need not be said.
        clause && !line ? statedSides(clause).join(", and ") : "",
        clause ? countedText(clause) : "",
        clause ? bandText(clause) : "",
        this.otherChoice(row, rule),
      ]
        .filter(isSaid)
        .flatMap((text) => this.wrapped(text)),
      ...(statement.comment ? this.wrapped(`# ${statement.comment}`) : []),
      ...(finding && !STATE_CODES.has(finding.code) ? this.wrapped(finding.message) : []),
      ...(line ? ["", ...line.drawing.split("\n").map((row) => INDENT + printable(row))] : []),
    ];
  }

  /** The nearest other value with which a rule that fails would hold. */
  private otherChoice(row: Row, { state }: RuleOutcome): string {
    const isFailing = state === "fails" || state === "failsAtLimits";
    const other = isFailing ? this.service.otherChoices(this.note.path, row).at(0) : undefined;
    return other ? otherChoiceText(other) : "";
  }

  /** Of the rules that hold throughout, the one with the least to spare; one that holds in enough builds can be short. */
  private closest(): string[] {
    const held = this.snapshot.rows.flatMap(({ outcome, start }) =>
      outcome.kind === "rule" && outcome.state === "holds" && outcome.spare !== undefined && outcome.spare >= 0
        ? [{ outcome, start }]
        : [],
    );
    if (held.length === 0) return [];
    const { outcome, start } = held.reduce((a, b) => (b.outcome.spare! < a.outcome.spare! ? b : a));
    const line = this.lineOf(start);
    return [
      `${outcome.word} ${this.conditionAt(line)}, ${sizeText(decisiveClause(outcome)!)}  (line${NO_BREAK}${line})`,
    ];
  }

  /** The rules that hold, in the order of the text, with what is to spare or how many builds keep them. */
  private held(): string[] {
    return this.snapshot.rows.flatMap(({ outcome, start }) => {
      if (outcome.kind !== "rule" || outcome.state !== "holds") return [];
      const line = this.lineOf(start);
      const how = rulePhrase(outcome).replace(/^holds(?:, )?/, "");
      return [`${outcome.word} ${this.conditionAt(line)}${how ? `, ${how}` : ""}  (line${NO_BREAK}${line})`];
    });
  }

  /** The guesses that are open, those that move a rule most first. */
  private guesses(): string[] {
    return this.record.settleFirst.map(
      ({ name, shown, reason, line }) =>
        `${name}${NO_BREAK}${(shown || "no value").replace(/ (?=\S+$)/, NO_BREAK)}, ${reason} (line${NO_BREAK}${line})`,
    );
  }

  private openItems(): string[] {
    return this.record.openItems.map(
      ({ word, text, line }) => `${word ? `${word}: ` : ""}${text}  (line${NO_BREAK}${line})`,
    );
  }

  private conditionAt(line: number): string {
    return this.record.rules.find((rule) => rule.line === line)?.condition ?? "";
  }

  /** Where an entry is, in the form that terminals and editors make a link of, and what kind of entry it is. */
  private place(offset: number, finding: Finding | undefined): string[] {
    const { line, column } = this.snapshot.lines.positionAt(offset);
    const place = `${printable(this.note.shownPath)}:${line + 1}:${column + 1}`;
    if (!finding) return [place];
    const kind = `${finding.severity}  ${finding.code}`;
    const isFitting = columnsOf(`${place}  ${kind}`) <= this.face.columns;
    return isFitting ? [`${place}  ${kind}`] : [place, INDENT + kind];
  }

  private wrapped(text: string): string[] {
    return wrap(printable(text), this.face.columns, INDENT);
  }

  /** Entries behind a word that is written once. */
  private labelled(label: string, entries: readonly string[]): string[] {
    const indent = " ".repeat(LABEL_COLUMNS + 2);
    const lines = entries.flatMap((entry) => wrap(printable(entry), this.face.columns, indent));
    return lines.map((line, i) => (i === 0 ? `  ${label.padEnd(LABEL_COLUMNS)}${line.slice(indent.length)}` : line));
  }

  private lineOf(offset: number): number {
    return this.snapshot.lines.lineAt(offset) + 1;
  }
}

/** Findings that say of a rule what its phrase says. */
const STATE_CODES: ReadonlySet<string> = new Set(["rule.fails", "rule.failsAtLimits", "rule.undecided"]);

/** A rule in words; of the inputs at the worst point, the phrase names some, and more follow here. None is torn from its value. */
function stateOf(rule: RuleOutcome, inputs: readonly string[]): string {
  const phrase = rulePhrase(rule);
  const unnamed = inputs.filter((input) => !phrase.includes(input));
  const named = inputs.filter((input) => phrase.includes(input));
  const bound = named.reduce((text, input) => text.replace(input, inOne(input)), phrase);
  if (unnamed.length === 0) return bound;
  return bound + (named.length > 0 ? ", " : " at ") + fewOf(unnamed.map(inOne), MOST_INPUTS - named.length);
}

function inOne(words: string): string {
  return words.replaceAll(" ", NO_BREAK);
}

function isSaid(text: string): boolean {
  return text !== "";
}

function isAboutRule(finding: Finding, row: Row): boolean {
  return finding.code.startsWith("rule.") && isIn(finding, row);
}

/** Of a rule that cannot be judged, the first error in its line is the reason. */
function isErrorIn(finding: Finding, row: Row): boolean {
  return isAboutRule(finding, row) || (finding.severity === "error" && isIn(finding, row));
}

function isIn({ span }: Finding, { start, statement }: Row): boolean {
  return span.start >= start && span.start <= start + statement.text.length;
}
