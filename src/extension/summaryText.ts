import { objections, type LineResult, type NoteRecord, type Objections, type Summary } from "../service";

/** A note that was checked, and what came out. */
export interface CheckedNote {
  /** As the person knows it: relative to the workspace. */
  readonly name: string;
  readonly record: NoteRecord;
  readonly summary: Summary;
  readonly results: readonly LineResult[];
}

/** A note that was not. */
export interface UncheckedNote {
  readonly name: string;
  readonly why: string;
}

/** A stretch of the summary that leads to a line of a note; lines count from 1, columns and the summary's lines from 0. */
export interface SummaryLink {
  readonly at: { readonly line: number; readonly start: number; readonly end: number };
  readonly name: string;
  readonly line: number;
}

export interface SummaryText {
  /** Its first line. */
  readonly verdict: string;
  /** Markdown that reads well as it is. */
  readonly text: string;
  readonly links: readonly SummaryLink[];
}

/** An entry of a section: where, and a sentence. */
interface Entry {
  readonly name: string;
  readonly line: number;
  readonly text: string;
}

/** What is wrong in all notes: the verdict first, then what it rests on. */
export function summaryText(checked: readonly CheckedNote[], unchecked: readonly UncheckedNote[]): SummaryText {
  const verdict = verdictOn(checked, unchecked);
  const lines: string[] = [`# ${verdict}`, "", totals(checked)];
  const links: SummaryLink[] = [];
  for (const [title, entries] of sections(checked)) {
    if (entries.length === 0) continue;
    lines.push("", `## ${title}`, "");
    for (const { name, line, text } of entries) {
      const place = `${name}:${line}`;
      links.push({ at: { line: lines.length, start: 2, end: 2 + place.length }, name, line });
      lines.push(`- ${place} ${text}`);
    }
  }
  if (unchecked.length > 0) {
    lines.push("", "## Not checked", "", ...unchecked.map(({ name, why }) => `- ${name}: ${why}`));
  }
  return { verdict, text: `${lines.join("\n")}\n`, links };
}

/** In the words of the command line. */
function verdictOn(checked: readonly CheckedNote[], unchecked: readonly UncheckedNote[]): string {
  if (checked.length === 0 && unchecked.length === 0) return "There is no note in this workspace";
  const against = checked.map(({ record }) => objections(record));
  const count = (kind: keyof Objections) => against.reduce((total, each) => total + each[kind].length, 0);
  const parts = [
    some(count("unkept"), "must does not hold", "must do not hold"),
    some(count("errors"), "error", "errors"),
    unchecked.length === 0 ? "" : "not everything could be read",
  ];
  const troubled = sentence(parts, ", ");
  if (troubled !== "") return troubled;
  const open = some(count("open"), "must is still open", "must are still open");
  return open === ""
    ? "Every must holds, and no note has an error"
    : `Every must that computes holds, and no note has an error; ${open}`;
}

/** `6 notes: 2 fail · 40 hold · 9 guesses`. */
function totals(checked: readonly CheckedNote[]): string {
  const parts = COUNTS.map(([count, one, many]) =>
    some(
      checked.reduce((total, { summary }) => total + count(summary), 0),
      one,
      many,
    ),
  );
  return `${checked.length} ${checked.length === 1 ? "note" : "notes"}: ${sentence(parts, " · ") || "no rules"}`;
}

/** What is counted over all notes, in the order of the status bar. */
const COUNTS: readonly (readonly [count: (summary: Summary) => number, one: string, many?: string])[] = [
  [({ fail, failAtLimits }) => fail + failAtLimits, "fail"],
  [({ undecided }) => undecided, "undecided"],
  [({ hold }) => hold, "hold"],
  [({ guesses }) => guesses, "guess", "guesses"],
  [({ openItems }) => openItems, "open item", "open items"],
];

function some(count: number, one: string, many = one): string {
  return count === 0 ? "" : `${count} ${count === 1 ? one : many}`;
}

function sentence(parts: readonly string[], separator: string): string {
  return parts.filter((part) => part !== "").join(separator);
}

/** A finding that says of a rule what its phrase says. */
function isAboutRule(code: string): boolean {
  return code.startsWith("rule.");
}

function sections(checked: readonly CheckedNote[]): readonly (readonly [title: string, entries: readonly Entry[]])[] {
  const rules = checked.flatMap(rulesOf);
  return [
    ["Rules that fail", rules.filter(({ state }) => state === "fails" || state === "failsAtLimits")],
    ["Rules that are undecided", rules.filter(({ state }) => state === "undecided")],
    ["Settle these first", guessesOf(checked)],
    ["Open items", checked.flatMap(openItemsOf)],
    ["Findings", checked.flatMap(findingsOf)],
  ];
}

function rulesOf({ name, record, results }: CheckedNote): (Entry & { readonly state: string })[] {
  // Every rule has a phrase, hence the phrases come in the order of the rules.
  const phrases = results.filter(({ kind }) => kind === "rule");
  return record.rules.map(({ line, word, condition, state }, i) => ({
    name,
    line,
    state,
    text: `\`${word} ${condition}\` ${phrases[i]?.text ?? state}`,
  }));
}

/** Of all notes together, those that move a `must` most first. */
function guessesOf(checked: readonly CheckedNote[]): Entry[] {
  const all = checked.flatMap(({ name, record }) => record.settleFirst.map((guess) => ({ ...guess, noteName: name })));
  const weight = ({ must }: (typeof all)[number]) => (must === undefined ? -1 : (must.share ?? Number.MAX_VALUE));
  return all
    .sort((a, b) => weight(b) - weight(a))
    .map(({ noteName, line, name, shown, reason }) => ({
      name: noteName,
      line,
      text: `\`${name}\` ${shown || "no value"}, ${reason}`,
    }));
}

function openItemsOf({ name, record }: CheckedNote): Entry[] {
  return record.openItems.map(({ line, word, text }) => ({ name, line, text: word ? `${word}: ${text}` : text }));
}

/** The rules have a section of their own. */
function findingsOf({ name, record }: CheckedNote): Entry[] {
  const others = record.findings.filter(({ code, severity }) => !isAboutRule(code) && severity !== "hint");
  return others.map(({ line, severity, message }) => ({ name, line, text: `${severity}: ${message}` }));
}
