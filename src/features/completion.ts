import { declaredNames } from "../engine/entry";
import { chapterAt, CHAPTERS } from "../engine/handbook";
import { CONSTANTS, NATIVES } from "../engine/natives";
import { chapterMeant, noteUsedAs, type Notes } from "../engine/referent";
import { relativePath } from "../engine/relativePath";
import type { Row, Snapshot } from "../engine/snapshot";
import { writingAt } from "../engine/writing";
import { signatureOf } from "../syntax/signature";
import { quotableAt } from "../phrases/quotable";
import { outcomeText } from "../phrases/outcomeText";
import { CLAUSE_HELP, STATEMENT_HELP, WORD_HELP } from "../phrases/statementHelp";
import { listedUnits } from "../phrases/unitList";
import { CURRENCIES } from "../quantity/currencies";
import type { Dimension } from "../quantity/dimension";
import { decade, SERIES_NAMES } from "../quantity/series";
import type { Step } from "../engine/paths";
import { columnsOf, namesOf, placeInColumn, reach, rowsOf, type Reached } from "../engine/tableReferent";
import { cellText, columnTotals, shortName } from "../phrases/tableCells";
import { isName, KEYWORDS, OPENING_WORDS } from "../syntax/name";
import { rowKey } from "../syntax/table";
import type { Span } from "../text/span";
import type { Completion } from "./feature";

/** What can be written at a place, the likeliest first; nothing in prose and in comments, and in quotes only what has a meaning there. */
export function completions(snapshot: Snapshot, offset: number, notes: Notes): readonly Completion[] {
  const writing = writingAt(snapshot, offset);
  if (!writing || writing.inside === "comment") return [];
  const before = writing.before.replace(/\s*(?:#[^\n]*)?\r?\n\s*/g, " ");
  if (writing.inside === "text") return inQuotes(snapshot, before, offset, notes);
  const unit = UNIT.exec(before) ?? BRACKET.exec(before);
  const word = unit ? unit.groups!.word : WORD.exec(before)![0];
  const place: Place = {
    snapshot,
    notes,
    before: before.slice(0, before.length - word.length),
    span: { start: offset - word.length, end: offset },
    word,
  };
  if (NOTHING.some((where) => where.test(place.before))) return [];
  if (unit) return units(place);
  return PLACES.find(({ where }) => where.test(place.before))!.offer(place);
}

/** The chapter of the handbook behind whose dot something is being written. */
export function chapterWrittenAt(snapshot: Snapshot, offset: number): string | undefined {
  const writing = writingAt(snapshot, offset);
  const name = writing?.inside === "code" ? MEMBER.exec(writing.before)?.groups!.holder : undefined;
  return name === undefined ? undefined : chapterMeant(snapshot, name);
}

interface Place {
  readonly snapshot: Snapshot;
  readonly notes: Notes;
  /** The statement up to the word that is being written. */
  readonly before: string;
  readonly word: string;
  /** Of that word. */
  readonly span: Span;
}

const NAME = String.raw`[\p{L}_][\p{L}\p{M}\p{N}_]*`;
/** What stands between a name and the last dot: members, and rows in brackets. */
const STEP = String.raw`\.${NAME}|\["[^"]*"\]|\[[^\]"]*\]`;
const STEPS = `(?:${STEP})*`;
const PATH = NAME + STEPS;
const WORD = /(?:[\p{L}_][\p{L}\p{M}\p{N}_]*)?$/u;
const MEMBER = new RegExp(`(?<holder>${NAME})\\.(?:${NAME})?$`, "u");
const UNIT_WORD = String.raw`(?:(?:1\/|√|[\p{L}°%]+(?:\^-?\d+)?[·*/(])*)(?<word>[\p{L}°%′″]*)$`;
/** Behind a number, with or without a space; the parts of a compound unit are joined without any. */
const UNIT = new RegExp(
  String.raw`(?:^|[^\p{L}\p{M}\p{N}_.])(?:\d[\d_]*(?:\.\d+)?(?:[eE][+-]?\d+)?(?:\(\d+\))?)\s*${UNIT_WORD}`,
  "u",
);
/** In the brackets behind the name that a statement defines. */
const BRACKET = new RegExp(`^${NAME}\\s*\\[${UNIT_WORD}`, "u");

/** Where a new name, a date, a number or a text is to be written, which nobody can know. */
const NOTHING: readonly RegExp[] = [
  /^(?:given|assume|over|order|let|fab|items|choose)\s+$/,
  /^items\s/,
  /^(?:use|accept)\s+$/,
  /^use\s+"[^"]*"\s+as\s+$/,
  /^accept\s/,
  /\b(?:on|of)\s+[\d-]*$/,
  /\bat\s+(?:least|most)\s+$/,
];

/** Where what can be written; the first that fits. */
const PLACES: readonly { readonly where: RegExp; offer(place: Place): readonly Completion[] }[] = [
  { where: /^$/, offer: statements },
  { where: new RegExp(`\\bwithout\\s+(?:${NAME}\\s*,\\s*)*$`, "u"), offer: countedUnits },
  { where: new RegExp(`${PATH}\\.$`, "u"), offer: members },
  { where: /\bchoose\b.*\bfrom\s+$/, offer: series },
  { where: /\bfrom\s+$/, offer: () => [] },
  { where: /\bchoose\s+$/, offer: (place) => words(place, ["at least", "at most"]) },
  { where: /\bchoose\s+at\s+$/, offer: (place) => words(place, ["least", "most"]) },
  { where: /^use\s+"[^"]*"\s*$/, offer: (place) => words(place, ["as"]) },
  { where: /^measured\s+$/, offer: quantities },
  { where: /^measured\b.*(?:\bat|,)\s+$/, offer: quantities },
  { where: /(?:[\p{L}\p{M}\p{N}_%°′″)\]"])\s+$/u, offer: behindOperand },
  { where: /(?:)/, offer: expression },
];

function statements({ span }: Place): readonly Completion[] {
  return [...STATEMENT_HELP].map(([word, { syntax, meaning, insert }], i) => ({
    label: word,
    kind: "statement",
    detail: syntax,
    documentation: meaning,
    insert,
    span,
    rank: `1${String(i).padStart(2, "0")}`,
  }));
}

/** The words that go on behind a value, by the statement. */
const BEHIND: readonly { readonly opening: RegExp; readonly words: readonly string[] }[] = [
  { opening: /^(?:given|assume)\b/, words: ["each", "from"] },
  { opening: /^over\b/, words: ["from"] },
  { opening: /^measured\b/, words: ["of", "at", "on", "from", "instead"] },
  { opening: /^(?:must|should)\b/, words: ["and", "or", "inside", "without", "in"] },
  { opening: /^order\b/, words: ["without"] },
  { opening: /\bchoose\b/, words: ["from"] },
  { opening: /^[^=(]*\([^)]*\)\s*=.*\swhere\b/s, words: ["and", "or", "inside"] },
  { opening: /^[^=(]*\([^)]*\)\s*=/, words: ["where", "without"] },
  { opening: /(?:)/, words: ["choose", "without"] },
];

function behindOperand(place: Place): readonly Completion[] {
  const last = new RegExp(`(${NAME})\\s+$`, "u").exec(place.before);
  const isOperator = last && (KEYWORDS.has(last[1]) || (last.index === 0 && OPENING_WORDS.has(last[1])));
  if (isOperator) return expression(place);
  const branches = /\bif\b/.test(place.before) ? ["then", "else"] : [];
  return words(place, [...branches, ...BEHIND.find(({ opening }) => opening.test(place.before))!.words]);
}

function words({ span }: Place, texts: readonly string[]): readonly Completion[] {
  return texts.map((label, i) => {
    const documentation = CLAUSE_HELP.get(label) ?? WORD_HELP.get(label);
    const help = documentation === undefined ? {} : { documentation };
    return { label, kind: "statement", detail: "", ...help, insert: `${label} `, span, rank: `1${i}` };
  });
}

function expression(place: Place): readonly Completion[] {
  const { span } = place;
  return [
    ...parameters(place),
    ...named(place, place.snapshot, "2"),
    ...[...NATIVES].map(([name, { signature, does }]): Completion => ({
      label: name,
      kind: "function",
      detail: signature,
      documentation: does,
      insert: `${name}(`,
      span,
      rank: `4${name}`,
    })),
    ...chapters(place),
    ...[...CONSTANTS].map(([name, value]): Completion => ({
      label: name,
      kind: "constant",
      detail: String(value),
      insert: name,
      span,
      rank: `4${name}`,
    })),
    ...["if", "not", "another", "readings", "sample"].map((word): Completion => ({
      label: word,
      kind: "statement",
      detail: "",
      ...(WORD_HELP.has(word) ? { documentation: WORD_HELP.get(word) } : {}),
      insert: word === "readings" || word === "sample" ? `${word} [` : `${word} `,
      span,
      rank: `5${word}`,
    })),
  ];
}

/** The chapters of the handbook, but for those whose name something with members of this note bears. */
function chapters({ snapshot, span }: Place): readonly Completion[] {
  return [...CHAPTERS]
    .filter(([name]) => chapterMeant(snapshot, name) !== undefined)
    .map(([name, about]): Completion => ({
      label: name,
      kind: "chapter",
      detail: `handbook: ${about}`,
      insert: `${name}.`,
      span,
      rank: `3${name}`,
    }));
}

/** The parameters of the function whose body is being written. */
function parameters({ before, span }: Place): readonly Completion[] {
  const head = new RegExp(`^${NAME}\\(([^)]*)\\)\\s*=`, "u").exec(before);
  return (head?.[1].match(new RegExp(`(?<=^|,)\\s*${NAME}`, "gu")) ?? []).map((text) => {
    const label = text.trim();
    return { label, kind: "quantity", detail: "parameter", insert: label, span, rank: `1${label}` };
  });
}

function quantities(place: Place): readonly Completion[] {
  return named(place, place.snapshot, "2").filter(({ kind }) => kind === "quantity" || kind === "assumption");
}

function members(place: Place): readonly Completion[] {
  const { snapshot, notes, before } = place;
  const [, alias, path] = new RegExp(`(${NAME})(${STEPS})\\.$`, "u").exec(before)!;
  const steps = [...path.matchAll(new RegExp(STEP, "gu"))].map(([text]): Step => {
    const isKey = text.startsWith("[");
    return { name: isKey ? rowKey(text.slice(1, -1)) : text.slice(1), node: 0, isKey };
  });
  const used = (from: Snapshot, name: string) => noteUsedAs(from, name, notes);
  const table = reach(snapshot, alias, steps, used, (each) => notes.get(each));
  if (table) return ofTable(place, table);
  const other = steps.length === 0 ? noteUsedAs(snapshot, alias, notes) : undefined;
  return other ? named(place, other, "2").filter(({ kind }) => kind !== "note") : [];
}

/** The columns of a table, and its rows, whose names are written in brackets where they are none. */
function ofTable({ span }: Place, { home, head, part, left }: Reached): readonly Completion[] {
  if (left.length > (part === undefined ? 1 : 0)) return [];
  const name = part === undefined && left.length > 0 ? left[0].name : undefined;
  const isOfTable = part === undefined && name === undefined;
  const columns = columnsOf(home, head).flatMap((column): Completion[] => {
    const { outcome } = column;
    if (outcome.kind !== "column") return [];
    const label = shortName(outcome);
    const names = namesOf(outcome, rowsOf(head));
    const index = name === undefined ? (part === undefined ? -1 : placeInColumn(column, part)) : names.indexOf(name);
    if (index < 0 && !isOfTable) return [];
    const detail = isOfTable ? columnTotals(outcome, names) : cellText(outcome, index);
    return [{ label, kind: "column", detail, insert: label, span, rank: `1${label}` }];
  });
  if (!isOfTable) return columns;
  const rows = rowsOf(head).map((label, i) => ({ label, detail: `row ${i + 1}` }));
  const named = [...rows, ...nodesOf(home, head)].flatMap(({ label, detail }): Completion[] =>
    isName(label) ? [{ label, kind: "row", detail, insert: label, span, rank: `2${label}` }] : [],
  );
  return [...columns, ...named];
}

/** The nodes of a table that is a network, with their voltages, but for those that are called as a row is. */
function nodesOf(home: Snapshot, head: Row): readonly { readonly label: string; readonly detail: string }[] {
  const voltages = columnsOf(home, head).find(({ statement }) => statement.solved?.quantity === "voltage");
  if (voltages?.outcome.kind !== "column") return [];
  const { outcome } = voltages;
  const nodes = (outcome.names ?? []).map((label, i) => ({ label, detail: `node ${cellText(outcome, i)}`.trim() }));
  return nodes.filter(({ label }) => !rowsOf(head).includes(label));
}

/** The names that a note defines, but for counted units, which are no values. */
function named({ span }: Place, home: Snapshot, rank: string): readonly Completion[] {
  return home.rows.flatMap((row) => {
    const kind = kindOf(row);
    if (kind === undefined) return [];
    const { statement } = row;
    const detail = statement.kind === "function" ? signatureOf(statement) : outcomeText(row.outcome);
    const documentation = statement.comment === "" ? {} : { documentation: statement.comment };
    return declaredNames(statement).map(({ name }): Completion => {
      const insert = kind === "function" ? `${name}(` : name;
      return { label: name, kind, detail, ...documentation, insert, span, rank: rank + name };
    });
  });
}

function kindOf({ statement }: Row): Completion["kind"] | undefined {
  switch (statement.kind) {
    case "assume":
      return "assumption";
    case "function":
      return "function";
    case "use":
      return "note";
    case "table":
      return "table";
    case "items":
    case "fab":
    case "column":
      return undefined;
    default:
      return "quantity";
  }
}

function countedUnits({ snapshot, span }: Place): readonly Completion[] {
  return snapshot.rows.flatMap(({ statement }) =>
    statement.kind === "items"
      ? declaredNames(statement).map(({ name }): Completion => ({
          label: name,
          kind: "counted unit",
          detail: statement.comment === "" ? "counted" : statement.comment,
          insert: name,
          span,
          rank: `1${name}`,
        }))
      : [],
  );
}

/** Units: first those of the quantity that the number is set against, then those that are counted, then all others. */
function units(place: Place): readonly Completion[] {
  const { span, word } = place;
  const wanted = dimensionSetAgainst(place);
  const offered = listedUnits().filter((unit) => !unit.isPrefixed || word !== "" || unit.dimension === wanted);
  const built = offered.map(({ text, dimension, names, isPrefixed }): Completion => ({
    label: text,
    kind: "unit",
    detail: names,
    insert: text,
    span,
    rank: `${dimension === wanted ? "0" : isPrefixed ? "3" : "2"}${text}`,
  }));
  const money = word === "" ? [] : [...CURRENCIES];
  return [
    ...built,
    ...countedUnits(place),
    ...money.map((code): Completion => ({
      label: code,
      kind: "unit",
      detail: "currency",
      insert: code,
      span,
      rank: `4${code}`,
    })),
  ];
}

/** `x <= 5 `, `x + 5 `, `x = 5 `, `x [`: the number has the dimension of x, as far as that is known. */
const SET_AGAINST = new RegExp(
  `(${NAME})(?:\\s*\\[[^\\]]*\\])?\\s*(?:[<>=!]=?|[+−-]|\\binside\\b|\\[)\\s*[^\\s(),]*\\s*$`,
  "u",
);
const CHOSEN = new RegExp(`^(${NAME})[^"]*\\bchoose\\b`, "u");

function dimensionSetAgainst({ snapshot, before }: Place): Dimension | undefined {
  const name = (CHOSEN.exec(before) ?? SET_AGAINST.exec(before))?.[1];
  const outcome = name === undefined ? undefined : snapshot.find(name)?.outcome;
  return outcome?.kind === "quantity" && outcome.values.length > 0 ? outcome.dimension : undefined;
}

function series({ span }: Place): readonly Completion[] {
  return SERIES_NAMES.map((name, i) => ({
    label: name,
    kind: "series",
    detail: `${decade(name).length} values a decade, IEC 60063`,
    insert: name,
    span,
    rank: `1${i}`,
  }));
}

/** A text in quotes: the path of a note, a row or a text of a table, a series. */
function inQuotes(snapshot: Snapshot, before: string, offset: number, notes: Notes): readonly Completion[] {
  const quote = before.lastIndexOf('"');
  const span = { start: offset - (before.length - quote - 1), end: offset };
  const texts = quotableAt(snapshot, before.slice(0, quote), notes);
  if (texts.length === 0) return notePaths(snapshot, before, offset, notes);
  return texts.map(({ text, kind, detail }, i) => ({
    label: text,
    kind,
    detail,
    insert: text,
    span,
    rank: `1${String(i).padStart(4, "0")}`,
  }));
}

/** The notes held, as `use` would name them. */
function notePaths({ path }: Snapshot, before: string, offset: number, notes: Notes): readonly Completion[] {
  const written = /^use\s+"([^"]*)$/.exec(before)?.[1];
  if (written === undefined) return [];
  const span = { start: offset - written.length, end: offset };
  return notes
    .paths()
    .filter((other) => other !== path && chapterAt(other) === undefined)
    .map((other) => {
      const label = relativePath(path, other);
      return { label, kind: "note", detail: "", insert: label, span, rank: `1${label}` };
    });
}
