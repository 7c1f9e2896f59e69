import type { Entry } from "./entry";

/** Sorts by place in the text; whether the first became another. */
export function sortByOrder(entries: Entry[]): boolean {
  const [first] = entries;
  entries.sort((a, b) => a.order - b.order);
  return entries[0] !== first;
}

/** Sorts by the date of measuring, undated ones first, those of one date by place in the text; whether the last became another. */
export function sortByDate(entries: Entry[]): boolean {
  const last = entries.at(-1);
  entries.sort((a, b) => (dateOf(a) === dateOf(b) ? a.order - b.order : dateOf(a) < dateOf(b) ? -1 : 1));
  return entries.at(-1) !== last;
}

/** Up to this many members a list is made anew to grow: the machine would reserve room for sixteen more, in every entry. */
const SHORT = 4;

/** The list with one more member: a new list where it is short. */
export function withOneMore<T>(list: readonly T[], member: T): readonly T[] {
  if (list.length < SHORT) return [...list, member];
  (list as T[]).push(member);
  return list;
}

/** Takes an entry off the list of a name; a name without entries is forgotten. */
export function dropFrom(map: Map<string, Entry[]>, name: string, entry: Entry): void {
  const list = map.get(name);
  if (!list) return;
  dropOne(list, entry);
  if (list.length === 0) map.delete(name);
}

/** Takes one mention of an entry off a list. */
export function dropOne(list: readonly Entry[], entry: Entry): void {
  const at = list.indexOf(entry);
  if (at >= 0) (list as Entry[]).splice(at, 1);
}

function dateOf(entry: Entry): string {
  return entry.statement.kind === "measured" ? (entry.statement.on ?? "") : "";
}
