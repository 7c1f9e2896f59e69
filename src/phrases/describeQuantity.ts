import type { ValueDistribution } from "../engine/distribution";
import { nameUsesOf, type NameUse } from "../engine/nameUses";
import type { Extent, QuantityOutcome } from "../engine/outcome";
import { chapterMeant, noteUsedAs, referentOf, usesOf, type Notes } from "../engine/referent";
import type { Row, Snapshot } from "../engine/snapshot";
import type { Span } from "../text/span";
import type { Node } from "../syntax/tree";
import { conditionText } from "./condition";
import { contributionsText } from "./contributions";
import { distributionText } from "./distributionText";
import { setFormula } from "./formula";
import { code, codeBlock, escaped } from "./markdown";
import { measurementText, originText } from "./origin";
import { piecesText } from "./pieces";
import { nominalText, quantityLine } from "./quantityLine";
import { substituted } from "./substitution";
import { inputTexts } from "./inputTexts";
import { extentText, inputsAtEnd } from "./value";

/** Inputs, uses and list members that are named; the rest are counted. */
const MOST_NAMED = 8;

/** A quantity where it is defined. */
export interface Defined {
  readonly name: string;
  readonly row: Row;
  readonly home: Snapshot;
}

/** What is known of a quantity, as paragraphs of Markdown, in the order in which one asks for it. */
export function describeQuantity(
  defined: Defined,
  outcome: QuantityOutcome,
  notes: Notes,
  distribution?: ValueDistribution,
): readonly string[] {
  const { row, home } = defined;
  const [extent] = outcome.values as readonly (Extent | undefined)[];
  const line = extent && !outcome.isList ? quantityLine(extent, outcome, limitsOf(defined)) : undefined;
  return [
    heading(defined, outcome),
    line === undefined ? "" : codeBlock(line),
    formula(row, home, notes),
    piecesText(row, home, notes),
    ...(extent && !outcome.isList ? uncertainty(defined, outcome, extent, notes, distribution) : []),
    extent && !outcome.isList ? limitsText(extent, outcome) : "",
    [originText(row, outcome), escaped(row.statement.comment)].filter((part) => part !== "").join("  \n"),
    measurementsText(defined),
    usesText(defined, notes),
  ].filter((part) => part !== "");
}

/** Name, value and range; of a choice what is used and what was wanted. */
function heading({ name }: Defined, outcome: QuantityOutcome): string {
  const value = valuesText(outcome.values, outcome);
  if (value === "") {
    const reason = outcome.blockedBy === undefined ? "" : `, because ${code(outcome.blockedBy)} has none`;
    return `${code(name)} has no value${reason}.`;
  }
  const wanted = outcome.wanted ? valuesText(outcome.wanted, outcome) : "";
  return `**${code(name)}** ${escaped(value)}${wanted === "" ? "" : `, wanted ${escaped(wanted)}`}`;
}

function valuesText(values: readonly Extent[], of: QuantityOutcome): string {
  return named(values.map((extent) => extentText(extent, of)).filter((text) => text !== ""));
}

/** The formula with the numbers set under the symbols; nothing for a plain literal. */
function formula(row: Row, home: Snapshot, notes: Notes): string {
  const { statement } = row;
  if (statement.kind === "let") {
    const { tree, left, right } = statement;
    const span = { start: tree.start(left), end: tree.end(right) };
    return formulaIn(row, span, home, notes, () => undefined);
  }
  if (
    statement.kind === "function" ||
    statement.kind === "over" ||
    !("value" in statement) ||
    statement.value === undefined
  )
    return "";
  return formulaOf(row, statement.value, home, notes, () => undefined);
}

/**
 * An expression of a row with the numbers set under its symbols, as a code block. Empty where it names nothing that has a
 * value.
 * @param boundText what stands for a name that the statement binds.
 */
export function formulaOf(
  row: Row,
  expression: Node,
  home: Snapshot,
  notes: Notes,
  boundText: (name: string) => string | undefined,
): string {
  return formulaIn(row, row.statement.tree.span(expression), home, notes, boundText);
}

function formulaIn(
  row: Row,
  span: Span,
  home: Snapshot,
  notes: Notes,
  boundText: (name: string) => string | undefined,
): string {
  const { statement } = row;
  const numberOf = (use: NameUse) => (use.role === "bound" ? boundText(use.name) : numberUnder(row, use, home, notes));
  const pieces = substituted(statement.text, span, nameUsesOf(statement), numberOf);
  return pieces.some(({ number }) => number !== undefined) ? codeBlock(setFormula(pieces)) : "";
}

/** The nominal value of a name in a statement: what is set under it. */
export function numberUnder(row: Row, use: NameUse, home: Snapshot, notes: Notes): string | undefined {
  const referent = referentOf(home, row, use, notes);
  if (referent?.kind !== "defined") return undefined;
  const { outcome } = referent.row;
  if (outcome.kind !== "quantity" || outcome.values.length === 0) return undefined;
  const texts = outcome.values.slice(0, MOST_NAMED).map((extent) => nominalText(extent, outcome));
  if (outcome.values.some(({ nominal }) => Number.isNaN(nominal))) return undefined;
  return outcome.isList ? `[${texts.join(", ")}${outcome.values.length > texts.length ? ", …" : ""}]` : texts[0];
}

/** The limits that the rules of the note set to a quantity by its bare name. */
function limitsOf({ name, home }: Defined): readonly number[] {
  const limits = new Set<number>();
  for (const { row } of usesOf(home, name)) {
    if (row.outcome.kind !== "rule") continue;
    for (const { leftText, rightText, left, right, relation } of row.outcome.clauses) {
      if (leftText === name) limits.add(relation.startsWith("<") ? right.low : right.high);
      else if (rightText === name) limits.add(relation.startsWith("<") ? left.high : left.low);
    }
  }
  return [...limits];
}

/** What contributes to the range, and how the value is distributed if that is known; nothing where there is no range. */
function uncertainty(
  { row, home }: Defined,
  outcome: QuantityOutcome,
  extent: Extent,
  notes: Notes,
  distribution: ValueDistribution | undefined,
): readonly string[] {
  if (extent.isPending || (!(extent.low < extent.high) && extent.standing !== "undefined")) return [];
  const budget = notes.budget(home, row, 0);
  const [contributions = ""] = budget ? contributionsText(extent, outcome, budget) : [];
  const byTrials = distribution ? distributionText(distribution, outcome, budget) : "";
  const text = [contributions, byTrials].filter((part) => part !== "").join("  \n");
  return text === "" ? [] : [text];
}

/** At which inputs the limits occur; of an enclosure also how far it is known to reach. */
function limitsText(extent: Extent, outcome: QuantityOutcome): string {
  const { standing, pushes, low, high, found } = extent;
  if (extent.isPending) return "";
  const [highest, lowest] = [inputTexts(inputsAtEnd(extent, "high")), inputTexts(inputsAtEnd(extent, "low"))];
  const at = highest.length === 0 ? "" : `Highest at ${escaped(named(highest))}  \nLowest at ${escaped(named(lowest))}`;
  if (standing === "enclosed") {
    const bounds = "The range is an enclosure: the values lie inside it, and may not reach its ends.";
    const best =
      found && Number.isFinite(found.low) && Number.isFinite(found.high) ? { ...extent, ...found } : undefined;
    return best ? `${bounds} Found to occur: ${escaped(extentText(best, outcome))}.  \n${at}` : bounds;
  }
  if (standing !== "attained" || !(low < high)) return "";
  // A literal that is all there is needs no words about itself.
  if (pushes.length === 1 && pushes[0].input.low === low && pushes[0].input.high === high) return "";
  return at;
}

/** The measurements of a quantity in its note. */
function measurementsText({ name, home }: Defined): string {
  const lines = usesOf(home, name).flatMap(({ row, use }) => {
    const { statement, outcome } = row;
    if (statement.kind !== "measured" || use.node !== statement.name || outcome.kind !== "quantity") return [];
    return [`${measurementText(statement)}: ${escaped(valuesText(outcome.values, outcome))}`];
  });
  return lines.slice(-MOST_NAMED).join("  \n");
}

/** What rests on it: quantities by name, rules as they are written. */
function usesText(defined: Defined, notes: Notes): string {
  const { names, rules } = usersOf(defined, notes);
  const parts: string[] = [];
  if (names.length > 0) parts.push(`Used by ${named(names.map(code))}`);
  if (rules.length > 0) parts.push(rules.slice(0, MOST_NAMED).map(code).join("  \n"));
  if (rules.length > MOST_NAMED) parts.push(`and ${rules.length - MOST_NAMED} rules more`);
  return parts.join("  \n");
}

function usersOf({ name, home }: Defined, notes: Notes): { names: readonly string[]; rules: readonly string[] } {
  const names = new Set<string>();
  const rules = new Set<string>();
  for (const path of notes.paths()) {
    const snapshot = notes.get(path);
    if (!snapshot) continue;
    for (const { row, use } of usesOf(snapshot, name)) {
      if (!(use.role === "value" || use.role === "call")) continue;
      if (use.member !== undefined && chapterMeant(snapshot, use.name) !== undefined) continue;
      const isMeant = use.object === undefined ? snapshot === home : noteUsedAs(snapshot, use.object, notes) === home;
      if (!isMeant) continue;
      if (row.statement.kind === "rule") rules.add(ruleText(row));
      else if ("name" in row.statement && row.statement.name !== undefined && row.statement.kind !== "measured")
        names.add(row.statement.tree.text(row.statement.name));
    }
  }
  return { names: [...names], rules: [...rules] };
}

/** A rule as it is written, without its comment. */
export function ruleText({ statement }: Row): string {
  return statement.kind === "rule" ? `${statement.word} ${conditionText(statement)}` : "";
}

/** The first few, and how many are left out. */
export function named(texts: readonly string[]): string {
  const left = texts.length - MOST_NAMED;
  return left > 0 ? `${texts.slice(0, MOST_NAMED).join(", ")} and ${left} more` : texts.join(", ");
}
