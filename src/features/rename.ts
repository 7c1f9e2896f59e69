import { chapterAt } from "../engine/handbook";
import { resolvePath } from "../engine/library";
import { columnName } from "../engine/entry";
import { CONSTANTS, NATIVES } from "../engine/natives";
import { nameUsesOf } from "../engine/nameUses";
import { relativePath } from "../engine/relativePath";
import {
  linkedWith,
  referenceAt,
  referencesTo,
  usesOf,
  wordOf,
  type Reference,
  type Referent,
} from "../engine/referent";
import { ASSEMBLY } from "../engine/mentions";
import type { Row, Snapshot } from "../engine/snapshot";
import { rowsOf } from "../engine/tableReferent";
import { isTableFile } from "../engine/uses";
import { isBuiltInUnit } from "../quantity/unit";
import { foldName, isName, KEYWORDS, lookAlikeKey, OPENING_WORDS } from "../syntax/name";
import { networkHeaders } from "../syntax/network";
import type { Edit } from "../text/edit";
import type { Span } from "../text/span";
import type { NoteEdits, Notes } from "./feature";

/** The edits of a renaming, or a sentence that says why it cannot be. */
export type Renaming = { readonly edits: readonly NoteEdits[] } | { readonly refusal: string };

/** The name at a place, where it is one that a note of those held gives. */
export function renameSpan(snapshot: Snapshot, offset: number, notes: Notes): Span | undefined {
  return renameable(snapshot, offset, notes)?.span;
}

/** Renames what the word at a place stands for in all notes held: its definition, its uses, its live references. */
export function rename(snapshot: Snapshot, offset: number, newName: string, notes: Notes): Renaming {
  const reference = renameable(snapshot, offset, notes);
  const met = reference ? undefined : referenceAt(snapshot, offset, notes)?.referent;
  if (met && "name" in met && "path" in met && chapterAt(met.path) !== undefined)
    return { refusal: `\`${met.name}\` is of the handbook, which is read and not written.` };
  if (!reference) return { refusal: "No name stands here that a note defines, so there is nothing to rename." };
  const { referent } = reference;
  const places = referencesTo(referent, notes);
  const paths = [...new Set(places.map(({ path }) => path))];
  const file = paths.find(isTableFile) ?? fileThatCounts(referent, notes);
  if (file !== undefined)
    return {
      refusal: `\`${wordOf(referent)}\` stands in the file \`${file}\`, which is read and not written: rename it there.`,
    };
  const refusal = refusalOf(referent, foldName(newName), paths, notes);
  if (refusal !== undefined) return { refusal };
  return {
    edits: paths.map((path) => ({
      path,
      edits: places.filter((place) => place.path === path).map(({ span }) => ({ span, text: newName })),
    })),
  };
}

/** A file in which the word for something that is counted stands as a unit. */
function fileThatCounts(referent: Named, notes: Notes): string | undefined {
  if (referent.kind !== "defined" || referent.row.statement.kind !== "items") return undefined;
  return linkedWith(referent.path, notes).find((path) => {
    const file = isTableFile(path) ? notes.get(path) : undefined;
    return file !== undefined && usesOf(file, referent.name).some(({ use }) => use.role === "unit");
  });
}

type Named = Extract<Referent, { kind: "defined" | "bound" | "row" }>;

function renameable(snapshot: Snapshot, offset: number, notes: Notes): (Reference & { referent: Named }) | undefined {
  const reference = referenceAt(snapshot, offset, notes);
  if (!reference) return undefined;
  const { referent } = reference;
  const isNamed = referent.kind === "defined" || referent.kind === "bound" || referent.kind === "row";
  if (isNamed && referent.row.statement.kind === "column" && referent.row.statement.solved) return undefined;
  return isNamed && chapterAt(referent.path) === undefined ? { ...reference, referent } : undefined;
}

function refusalOf(referent: Named, newName: string, paths: readonly string[], notes: Notes): string | undefined {
  if (newName === referent.name) return undefined;
  if (referent.kind === "row") return rowTaken(referent, newName, paths, notes);
  if (!isName(newName))
    return `\`${newName}\` is no name: a name begins with a letter and goes on with letters, digits and \`_\`.`;
  if (KEYWORDS.has(newName) || OPENING_WORDS.has(newName))
    return `\`${newName}\` is a word of the language and cannot be a name.`;
  if (referent.kind === "defined" && referent.row.statement.kind === "column")
    return columnTaken(referent, newName, notes);
  const kind = referent.kind === "defined" ? referent.row.statement.kind : "bound";
  if (kind === "items" && isBuiltInUnit(newName))
    return `\`${newName}\` is a unit already, so nothing that is counted can have that name.`;
  if (kind === "function" && NATIVES.has(newName))
    return `\`${newName}\` is a function that is built in; a function of the note cannot have its name.`;
  if (CONSTANTS.has(newName)) return `\`${newName}\` is a constant that is built in.`;
  for (const path of referent.kind === "defined" && kind !== "items" ? [referent.path] : paths) {
    const snapshot = notes.get(path);
    const refusal = snapshot && (takenIn(snapshot, referent, newName) ?? capturedIn(snapshot, referent, newName));
    if (refusal !== undefined) return refusal;
  }
  return undefined;
}

/** Rows are found by any text, but behind a dot by a name only. */
function rowTaken(
  { row, name }: Extract<Referent, { kind: "row" }>,
  newName: string,
  paths: readonly string[],
  notes: Notes,
): string | undefined {
  if (/["|\n]/.test(newName) || newName.trim() === "") return "The name of a row has no quotes and no pipe in it.";
  if (rowsOf(row).includes(newName)) return `\`${newName}\` is the name of another row of this table.`;
  const isDotted = paths.some((path) =>
    usesOf(notes.get(path)!, name).some(({ use }) => use.steps?.at(-1)?.isKey === false),
  );
  if (isName(newName) || !isDotted) return undefined;
  return `\`${newName}\` is no name, and this row is named behind a dot. Write \`["${name}"]\` there first.`;
}

/** A column meets the other columns of its table, and in their formulas the names of the note. */
function columnTaken({ row, path }: Named, newName: string, notes: Notes): string | undefined {
  const { statement } = row;
  const home = notes.get(path);
  if (statement.kind !== "column" || !home) return undefined;
  if (home.find(columnName(statement.table, newName)))
    return `\`${newName}\` is another column of \`${statement.table}\`.`;
  const headers = writtenColumns(home, statement.table);
  if (rolesOf(headers) !== rolesOf(headers.map((name) => (name === wordOfColumn(row) ? newName : name))))
    return `By the names of its columns \`${statement.table}\` is an assembly or a network, or would become one: \`${wordOfColumn(row)}\` cannot become \`${newName}\`.`;
  const isUsed = usesOf(home, newName).some(({ use }) => use.table === statement.table && use.role === "value");
  if (!isUsed) return undefined;
  return `\`${newName}\` stands in a formula of \`${statement.table}\`, where it would stand for this column.`;
}

/** The columns that a table has in the text, in their order. */
function writtenColumns({ rows }: Snapshot, table: string): readonly string[] {
  return rows.flatMap((row) => {
    const { statement } = row;
    return statement.kind === "column" && statement.table === table && !statement.solved ? [wordOfColumn(row)] : [];
  });
}

function wordOfColumn({ statement }: Row): string {
  return statement.kind === "column" ? statement.tree.text(statement.name) : "";
}

/** What the columns of a table are for, where the table is more than a table by their names. */
function rolesOf(columns: readonly string[]): string {
  const parts = ASSEMBLY.map((name) => columns.indexOf(name));
  const network = networkHeaders(columns);
  return JSON.stringify([parts.includes(-1) ? [] : parts, network?.roles, network?.quantities]);
}

/** A name that the note has already, or one that a reader cannot tell from the new one. */
function takenIn(snapshot: Snapshot, referent: Named, newName: string): string | undefined {
  if (referent.kind !== "defined") return undefined;
  const key = lookAlikeKey(newName);
  for (const row of snapshot.rows) {
    if (row.statement.kind === "column") continue;
    for (const { name, role } of nameUsesOf(row.statement)) {
      if (role !== "declaration" || name === referent.name || lookAlikeKey(name) !== key) continue;
      const line = snapshot.lines.lineAt(row.start) + 1;
      return name === newName
        ? `\`${newName}\` is taken: it is defined on line ${line}.`
        : `\`${newName}\` looks like \`${name}\` on line ${line}; nobody could tell them apart.`;
    }
  }
  return undefined;
}

/** A place where the new name would stand for something else: for a column, for a parameter, or for what the parameter hides. */
function capturedIn(snapshot: Snapshot, referent: Named, newName: string): string | undefined {
  if (referent.kind === "defined") {
    const table = usesOf(snapshot, referent.name)
      .map(({ use }) => use)
      .find(
        ({ table: of, role }) => of !== undefined && role !== "unit" && snapshot.find(columnName(of, newName)),
      )?.table;
    if (table !== undefined)
      return `\`${newName}\` is a column of \`${table}\`, in whose formulas \`${referent.name}\` stands: there it would stand for the column.`;
    const captured = usesOf(snapshot, referent.name).find(
      ({ use }) => use.role !== "bound" && use.scope.includes(newName),
    );
    if (!captured) return undefined;
    const line = snapshot.lines.lineAt(captured.row.start) + 1;
    return `\`${newName}\` is bound on line ${line}, where \`${referent.name}\` is used: there it would stand for something else.`;
  }
  if (snapshot.path !== referent.path) return undefined;
  const isUsed = nameUsesOf(referent.row.statement).some(({ name, role }) => name === newName && role !== "unit");
  return isUsed ? `\`${newName}\` is used in the same statement for something else.` : undefined;
}

/** A file or folder that goes from one path to another. */
export interface Move {
  readonly from: string;
  readonly to: string;
}

/**
 * The edits of `use` when notes, or folders of notes, move: in notes that use what moves, and in notes that move
 * themselves, whose relative paths then lead elsewhere. The edits are for the notes under their old paths.
 */
export function movedFiles(moves: readonly Move[], notes: Notes): readonly NoteEdits[] {
  const moved = (path: string): string => {
    const move = moves.find(({ from }) => path === from || path.startsWith(`${from}/`));
    return move ? move.to + path.slice(move.from.length) : path;
  };
  return notes.paths().flatMap((path) => {
    const snapshot = notes.get(path);
    const edits = snapshot ? editsOfUses(snapshot, moved) : [];
    return edits.length > 0 ? [{ path, edits }] : [];
  });
}

function editsOfUses(snapshot: Snapshot, moved: (path: string) => string): readonly Edit[] {
  return snapshot.rows.flatMap((row) => {
    const { statement } = row;
    if (statement.kind !== "use") return [];
    const written = statement.tree.text(statement.path);
    const used = resolvePath(snapshot.path, written);
    if (used === undefined) return [];
    const from = moved(snapshot.path);
    const to = moved(used);
    if (resolvePath(from, written) === to) return [];
    const { start, end } = snapshot.spanOf(row, statement.tree.span(statement.path));
    return [{ span: { start: start + 1, end: end - 1 }, text: relativePath(from, to) }];
  });
}
