import { declaredNames } from "../engine/entry";
import { mentionsOf } from "../engine/mentions";
import { pathBehind } from "../engine/pathBehind";
import { chapterMeant } from "../engine/referent";
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
      const path = member === undefined ? undefined : pathBehind(snapshot, name);
      if (member === undefined || chapterMeant(snapshot, name) === undefined) visit(snapshot.find(name), snapshot);
      const other = path === undefined ? undefined : scope.other(path);
      if (other) visit(findName(`${name}.${member}`, { snapshot, other: scope.other }), other);
    }
  }
  return found;
}

/** The statements of a note that are such, or that rest on one that is, in this note or in others. */
export function restingOn(scope: Scope, isSuch: (row: Row) => boolean): ReadonlySet<Row> {
  const { rows } = scope.snapshot;
  const found = new Set(rows.filter(isSuch));
  const elsewhere = new Map<Row, boolean>();
  const isSuchElsewhere = (path: string, name: string) => {
    const other = scope.other(path);
    const row = other?.find(name);
    if (!other || !row) return false;
    const known = elsewhere.get(row);
    if (known !== undefined) return known;
    const around = { snapshot: other, other: scope.other };
    const answer = isSuch(row) || restsOn(row, around).some((each) => isSuch(each.row));
    elsewhere.set(row, answer);
    return answer;
  };
  for (const row of rows) {
    for (const { name, member, use } of mentionsOf(row.statement)) {
      const path = member === undefined || use === "target" ? undefined : pathBehind(scope.snapshot, name);
      if (path !== undefined && isSuchElsewhere(path, member!)) found.add(row);
    }
  }
  spread(found, usersByName(scope.snapshot));
  return found;
}

/** The statements of a note that rest on a name, in the order of the text. */
export function dependentsOf(name: string, snapshot: Snapshot): readonly Row[] {
  const users = usersByName(snapshot);
  const found = new Set(users.get(name));
  spread(found, users);
  return snapshot.rows.filter((row) => found.has(row));
}

/** The statements that use a name, by name. */
function usersByName(snapshot: Snapshot): ReadonlyMap<string, readonly Row[]> {
  const users = new Map<string, Row[]>();
  for (const row of snapshot.rows) {
    for (const { name, member, use } of mentionsOf(row.statement)) {
      if (use === "target" || use === "unit") continue;
      if (member !== undefined && chapterMeant(snapshot, name) !== undefined) continue;
      const list = users.get(name);
      if (list) list.push(row);
      else users.set(name, [row]);
    }
  }
  return users;
}

/** Adds all that rest on those that are there. */
function spread(found: Set<Row>, users: ReadonlyMap<string, readonly Row[]>): void {
  const open = [...found];
  for (let row = open.pop(); row !== undefined; row = open.pop()) {
    for (const { name } of declaredNames(row.statement)) {
      for (const user of users.get(name) ?? []) {
        if (found.has(user)) continue;
        found.add(user);
        open.push(user);
      }
    }
  }
}
