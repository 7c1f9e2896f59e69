import { NATIVES } from "../engine/natives";
import { noteUsedAs, type Notes } from "../engine/referent";
import type { Step } from "../engine/paths";
import type { Snapshot } from "../engine/snapshot";
import { columnOf, columnsOf, namesOf, reach, rowsOf, type Reached } from "../engine/tableReferent";
import { decade, SERIES_NAMES } from "../quantity/series";
import { rowKey } from "../syntax/table";

/** A text that has a meaning in quotes at a place. */
export interface Quotable {
  readonly text: string;
  readonly kind: "row" | "series" | "statement";
  readonly detail: string;
}

const NAME = String.raw`[\p{L}_][\p{L}\p{M}\p{N}_]*`;
const STEP = String.raw`\.${NAME}|\["[^"]*"\]|\[[^\]"]*\]`;
const PATH = `(?<base>${NAME})(?<steps>(?:${STEP})*)`;
/** `parts["`: a row. */
const KEY = new RegExp(`${PATH}\\[$`, "u");
/** `parts.kind = "`, `parts.kind != "`: one of the texts of a column. */
const COMPARED = new RegExp(`${PATH}\\s*!?=\\s*$`, "u");
/** `nearest("`, `lookup(x, keys, values, "`: an argument that the function names. */
const ARGUMENT = new RegExp(`(?<name>${NAME})\\((?<before>[^()]*(?:\\([^()]*\\)[^()]*)*)$`, "u");

/** What holds commas of its own. */
const NESTED = /\[[^\]]*\]|\([^()]*\)|"[^"]*"/g;

/** What chooses among the ways of a look-up, in its last argument. */
const MODES: Readonly<Record<string, readonly string[]>> = {
  lookup: ["step", "exact"],
  interpolate: ["linear", "smooth"],
};
const MODE_AT = 3;

/** Rows or texts that are offered; nobody looks through a longer list. */
const MOST_OFFERED = 1000;

/** The texts that have a meaning behind a quotation mark, by the statement before it: the rows of a table, the texts of a column, series. */
export function quotableAt(snapshot: Snapshot, before: string, notes: Notes): readonly Quotable[] {
  const table = (found: RegExpExecArray) => reachedBy(snapshot, found.groups!.base, found.groups!.steps, notes);
  const key = KEY.exec(before);
  if (key) return rowsAt(table(key));
  const compared = COMPARED.exec(before);
  if (compared) return textsAt(table(compared));
  const argument = ARGUMENT.exec(before);
  return argument ? argumentsAt(argument.groups!.name, argument.groups!.before) : [];
}

function reachedBy(snapshot: Snapshot, base: string, written: string, notes: Notes): Reached | undefined {
  const steps = [...written.matchAll(new RegExp(STEP, "gu"))].map(([text]): Step => {
    const isKey = text.startsWith("[");
    return { name: isKey ? rowKey(text.slice(1, -1)) : text.slice(1), node: 0, isKey };
  });
  const used = (from: Snapshot, name: string) => noteUsedAs(from, name, notes);
  return reach(snapshot, base, steps, used, (path) => notes.get(path));
}

function rowsAt(reached: Reached | undefined): readonly Quotable[] {
  if (!reached || reached.left.length > 0 || reached.part !== undefined) return [];
  const { home, head } = reached;
  const rows = rowsOf(head);
  const names = columnsOf(home, head).flatMap(({ outcome }) =>
    outcome.kind === "column" ? namesOf(outcome, rows) : rows,
  );
  return offered([...rows, ...names], (text) => (rows.includes(text) ? `row ${rows.indexOf(text) + 1}` : "node"));
}

function textsAt(reached: Reached | undefined): readonly Quotable[] {
  const [step] = reached?.left ?? [];
  const column = reached?.left.length === 1 ? columnOf(reached.home, reached.head, step.name) : undefined;
  if (column?.outcome.kind !== "column") return [];
  const { texts = [], name } = column.outcome;
  return offered(texts, () => `in ${name}`);
}

function offered(texts: readonly string[], detailOf: (text: string) => string): readonly Quotable[] {
  const distinct = [...new Set(texts)].filter((text) => text !== "").slice(0, MOST_OFFERED);
  return distinct.map((text) => ({ text, kind: "row", detail: detailOf(text) }));
}

function argumentsAt(name: string, before: string): readonly Quotable[] {
  const native = NATIVES.get(name);
  const place = before.replace(NESTED, "").split(",").length - 1;
  const modes = name in MODES && place === MODE_AT ? MODES[name] : [];
  if (modes.length > 0) return modes.map((text) => ({ text, kind: "statement", detail: "" }));
  if (place > 0 || (native?.rule !== "series" && native?.rule !== "pair")) return [];
  return SERIES_NAMES.map((text) => ({ text, kind: "series", detail: `${decade(text).length} values a decade` }));
}
