import { declaredNames, type Entry } from "./entry";
import type { EngineProblem, EngineTrouble, NameInNote } from "./problem";

/** Names shown of a circle; a longer one is cut, and says how many are left out. */
const PATH_SHOWN = 8;

/** Among more entries than these, the shortest way round is not looked for: it costs the square of their number. */
const MOST_SHORTEST = 200;

/** For each entry of a circle, or of several that hang together, a way round: the shortest, or one through a common entry. */
export function circleProblems(members: readonly Entry[]): (entry: Entry) => EngineProblem {
  const set = new Set(members);
  const inside = (entry: Entry) => entry.dependencies.filter((dependency) => set.has(dependency));
  if (members.length <= MOST_SHORTEST)
    return (entry) => {
      const way = wayFrom(entry, entry, search(entry, inside, entry).from);
      return problem(entry, way, way.length);
    };
  const root = members.reduce((first, entry) => (key(entry) < key(first) ? entry : first));
  const toRoot = stepsTo(root, members, inside);
  const fromRoot = search(root, inside);
  return (entry) => {
    const there = toRoot.distance.get(entry)!;
    const back = fromRoot.distance.get(entry)!;
    const way: Entry[] = [];
    for (let at = entry; at !== root && way.length < PATH_SHOWN;) way.push((at = toRoot.step.get(at)!));
    if (there < PATH_SHOWN) way.push(...wayFrom(root, entry, fromRoot.from));
    return problem(entry, way, there + back);
  };
}

/** That an entry, or a cell of it, rests on nothing but itself. */
export function ownCircle({ note, name = "" }: Entry, of = name): EngineTrouble {
  const member = { name: of, note: note.path };
  return { code: "name.circular", path: [member, member], left: 0 };
}

/** The same entry is the common one however the notes came to be what they are. */
function key(entry: Entry): string {
  return `${entry.note.path}\n${entry.statement.text}`;
}

type Next = (entry: Entry) => readonly Entry[];

interface Reached {
  /** The entry from which a search first came to another. */
  readonly from: ReadonlyMap<Entry, Entry>;
  /** In how many steps. To the start itself it is the way round. */
  readonly distance: ReadonlyMap<Entry, number>;
}

/** A breadth-first search; it ends when it comes to `end`. */
function search(start: Entry, next: Next, end?: Entry): Reached {
  const from = new Map<Entry, Entry>();
  const distance = new Map<Entry, number>();
  const queue = [start];
  for (let i = 0; i < queue.length && !(end && from.has(end)); i++) {
    const reached = (distance.get(queue[i]) ?? 0) + 1;
    for (const found of next(queue[i])) {
      if (from.has(found)) continue;
      from.set(found, queue[i]);
      distance.set(found, reached);
      if (found !== start) queue.push(found);
    }
  }
  return { from, distance };
}

/** The entries from `start` to `end`, which may be the same one: `end` is in it, `start` is not. */
function wayFrom(start: Entry, end: Entry, from: ReadonlyMap<Entry, Entry>): Entry[] {
  const way = [end];
  for (let at = from.get(end)!; at !== start; at = from.get(at)!) way.push(at);
  return way.reverse();
}

/** For each entry the next on a shortest way to the root. Of equally short ways, the first that is written. */
function stepsTo(
  root: Entry,
  members: readonly Entry[],
  next: Next,
): { step: ReadonlyMap<Entry, Entry>; distance: ReadonlyMap<Entry, number> } {
  const users = new Map<Entry, Entry[]>(members.map((entry) => [entry, []]));
  for (const entry of members) for (const dependency of next(entry)) users.get(dependency)!.push(entry);
  const distance = new Map([[root, 0]]);
  const queue = [root];
  for (const entry of queue) {
    for (const user of users.get(entry)!) {
      if (distance.has(user)) continue;
      distance.set(user, distance.get(entry)! + 1);
      queue.push(user);
    }
  }
  const nearest = (entry: Entry) => next(entry).find((step) => distance.get(step)! < distance.get(entry)!);
  return { step: new Map(members.map((entry) => [entry, nearest(entry) ?? root])), distance };
}

/**
 * @param way from the entry back to itself, of which the entry is the last; or the beginning of it
 * @param length of the whole way
 */
function problem(entry: Entry, way: readonly Entry[], length: number): EngineProblem {
  const left = Math.max(0, length - PATH_SHOWN);
  const shown = left === 0 ? way : [...way.slice(0, PATH_SHOWN - 1), entry];
  const { tree, text } = entry.statement;
  const node = declaredNames(entry.statement)[0]?.node;
  const span = node === undefined ? { start: 0, end: text.length } : tree.span(node);
  return { span, code: "name.circular", path: [entry, ...shown].map(placed), left };
}

function placed({ name = "", note }: Entry): NameInNote {
  return { name, note: note.path };
}
