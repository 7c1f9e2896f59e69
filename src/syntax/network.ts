import { NOTHING } from "./cells";
import type { Column } from "./statement";
import { headerName, rowKey, type CellText } from "./table";
import { Kind, NONE, Tree, type Arena, type Node } from "./tree";

/**
 * A table with the columns `from` and `to`, and with a source or a load, is a DC network: a branch a row. The columns that
 * say what lies between are known by their names, since a table has other currents and voltages, such as ratings.
 */

/** The columns that a network has without their being written, in the order in which they are told. */
export const NETWORK_QUANTITIES = ["voltage", "supply", "current", "drop", "power", "loss"] as const;
export type NetworkQuantity = (typeof NETWORK_QUANTITIES)[number];

/** What lies between the ends of a branch, and the two names that its column can have. */
const BETWEEN: Readonly<Record<keyof NetworkColumns, readonly [long: string, short: string]>> = {
  resistance: ["resistance", "R"],
  source: ["source", "V"],
  load: ["load", "I"],
};

/** The columns that say what lies between, by their names. */
export interface NetworkColumns {
  readonly resistance?: string;
  readonly source?: string;
  readonly load?: string;
}

/**
 * What a column is for in a network: the ends of branches, what lies between them, a second column for the same, or one
 * that has the name of what the network comes to.
 */
export type NetworkRole = "end" | keyof NetworkColumns | "second" | "result";

/** Whether a column says what lies between the ends of branches. */
export function isBetween(role: NetworkRole | undefined): role is keyof NetworkColumns {
  return role !== undefined && role in BETWEEN;
}

/** The columns of a table that is a network, by what they are for. */
export interface NetworkHeaders {
  /** A role for each column that has one, in the order of the table. */
  readonly roles: readonly (NetworkRole | undefined)[];
  /** The places of the two ends among the columns. */
  readonly from: number;
  readonly to: number;
  readonly columns: NetworkColumns;
  /** What the network comes to and no column is called. */
  readonly quantities: readonly NetworkQuantity[];
}

/** The network that a table with these headers is; undefined where it is none. */
export function networkHeaders(headers: readonly string[]): NetworkHeaders | undefined {
  const names = headers.map(headerName);
  const [from, to] = [names.indexOf("from"), names.indexOf("to")];
  if (from < 0 || to < 0) return undefined;
  const columns: { -readonly [K in keyof NetworkColumns]: NetworkColumns[K] } = {};
  const roles = names.map((name, i): NetworkRole | undefined => {
    if (i === from || i === to) return "end";
    if ((NETWORK_QUANTITIES as readonly string[]).includes(name)) return "result";
    for (const role of Object.keys(BETWEEN) as (keyof NetworkColumns)[]) {
      if (!BETWEEN[role].includes(name)) continue;
      if (columns[role] !== undefined) return "second";
      columns[role] = name;
      return role;
    }
    return undefined;
  });
  if (columns.source === undefined && columns.load === undefined) return undefined;
  const isFree = (quantity: NetworkQuantity) =>
    !names.includes(quantity) && (quantity !== "supply" || columns.load !== undefined);
  // All else is worked out with the voltages.
  const quantities = isFree("voltage") ? NETWORK_QUANTITIES.filter(isFree) : [];
  return { roles, from, to, columns, quantities };
}

/** What a column of a network is called, by what people write: with capitals, or by another sign for a voltage. */
const MEANT: ReadonlyMap<string, string> = new Map([
  ...["from", "to", "resistance", "source", "load"].map((name) => [name, name] as const),
  ["U", "V"],
]);

/** The name that a column of a network has, where this one is another way to write it. */
export function networkWord(name: string): string | undefined {
  const word = MEANT.get(name) ?? MEANT.get(name.toLowerCase());
  return word === name ? undefined : word;
}

/** For the headers of a table that is no network, and would be one with other names, these names. */
export function networkWords(headers: readonly string[]): readonly (string | undefined)[] {
  if (networkHeaders(headers)) return [];
  const words = headers.map((header) => networkWord(headerName(header)));
  const roles = networkHeaders(headers.map((header, i) => words[i] ?? header))?.roles;
  return roles && !roles.includes("second") ? words : [];
}

/** A node of this name is the reference, whose voltage is zero: the voltages of all others are against it. */
export function isReference(node: string): boolean {
  return /^(?:0(?:\s?V)?|gnd|ground)$/i.test(node);
}

/** The node that a cell names; empty where it names none. */
export function nodeOf(cell: string): string {
  return NOTHING.has(cell) ? "" : rowKey(cell);
}

/** Whether a cell says anything. */
export function isWritten(cell: string): boolean {
  return !NOTHING.has(cell);
}

/** On which lines of its text a solved column has what it is about. */
export interface SolvedLines {
  readonly quantity: NetworkQuantity;
  readonly columns: NetworkColumns;
  /** The names come first, from the second line on. */
  readonly names: number;
  readonly rows: readonly number[];
  /** Of the voltages: behind the names three lines a row, its ends and its name. */
  readonly branches: number;
}

/** Reads a column that a network comes to from the cells that say what it is about. */
export function parseSolved(arena: Arena, table: string, source: CellText, lines: SolvedLines): Column {
  const { text, starts, ends } = source;
  const { quantity, columns, names, rows, branches } = lines;
  const tree = new Tree(arena);
  const texted = (line: number, read: (cell: string) => string): Node => {
    const [start, end] = [starts[line], ends[line]];
    return tree.add(Kind.Text, start, end, NONE, 0, NaN, tree.intern(read(text.slice(start, end))));
  };
  const name = tree.add(Kind.Name, starts[0], ends[0], NONE, 0, NaN, tree.intern(quantity));
  const read = quantity === "voltage" ? nodeOf : rowKey;
  const solved = {
    quantity,
    columns,
    names: Array.from({ length: names }, (_, i) => texted(1 + i, read)),
    rows,
    ...(quantity === "voltage"
      ? {
          branches: Array.from({ length: branches }, (_, i) => {
            const line = 1 + names + 3 * i;
            return { from: texted(line, nodeOf), to: texted(line + 1, nodeOf), name: texted(line + 2, rowKey) };
          }),
        }
      : {}),
  };
  const none: readonly never[] = [];
  const base = { kind: "column", text, tree, problems: none, comment: "" } as const;
  return { ...base, table, name, isText: false, kinds: none, cells: none, solved };
}
