import { declaredNames } from "../engine/entry";
import { mentionsOf } from "../engine/mentions";
import type { Row, Snapshot } from "../engine/snapshot";
import { findName, type Scope } from "./side";

/** A statement, and the note it stands in. */
export interface RowOfNote {
  readonly row: Row;
  readonly snapshot: Snapshot;
}

/** All that a statement rests on, in this note and in others, nearest first; the statement itself is left out. */
export function restsOn(row: Row, scope: Scope): readonly RowOfNote[] {
  const found: RowOfNote[] = [];
  const seen = new Set<Row>([row]);
  const open: RowOfNote[] = [{ row, snapshot: scope.snapshot }];
  const visit = (next: Row | undefined, snapshot: Snapshot) => {
    if (!next || seen.has(next)) return;
    seen.add(next);
    found.push({ row: next, snapshot });
    open.push({ row: next, snapshot });
  };
  for (let at = 0; at < open.length; at++) {
    const { snapshot } = open[at];
    for (const { name, member, use } of mentionsOf(open[at].row.statement)) {
      if (use === "target" || use === "unit") continue;
      const target = snapshot.find(name);
      visit(target, snapshot);
      if (member === undefined || target?.outcome.kind !== "use") continue;
      const other = scope.other(target.outcome.path);
      if (other) visit(findName(`${name}.${member}`, { snapshot, other: scope.other }), other);
    }
  }
  return found;
}

/** The statements of a note that rest on a name, in the order of the text. */
export function dependentsOf(name: string, { rows }: Snapshot): readonly Row[] {
  const users = new Map<string, Row[]>();
  for (const row of rows) {
    for (const mention of mentionsOf(row.statement)) {
      if (mention.use === "target" || mention.use === "unit") continue;
      const list = users.get(mention.name);
      if (list) list.push(row);
      else users.set(mention.name, [row]);
    }
  }
  const found = new Set<Row>();
  const open = [name];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    for (const row of users.get(next) ?? []) {
      if (found.has(row)) continue;
      found.add(row);
      open.push(...declaredNames(row.statement).map((declared) => declared.name));
    }
  }
  return rows.filter((row) => found.has(row));
}
