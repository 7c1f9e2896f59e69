import type { Entry } from "./entry";

/** Sorts by place in the text; whether the first became another. */
export function sortByOrder(entries: Entry[]): boolean {
  const [first] = entries;
  entries.sort((a, b) => a.order - b.order);
  return entries[0] !== first;
}

/** Takes an entry off the list of a name; a name without entries is forgotten. */
export function dropFrom(map: Map<string, Entry[]>, name: string, entry: Entry): void {
  const list = map.get(name);
  if (!list) return;
  dropOne(list, entry);
  if (list.length === 0) map.delete(name);
}

/** Takes one mention of an entry off a list. */
export function dropOne(list: Entry[], entry: Entry): void {
  const at = list.indexOf(entry);
  if (at >= 0) list.splice(at, 1);
}
