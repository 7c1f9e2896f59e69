import type { Program } from "../../src/engine/program";
import type { Snapshot } from "../../src/engine/snapshot";

/**
 * What a reader can see of a note, as plain data that two programs can be compared by: dimensions by their key, units
 * and statements by their text.
 */
export function plainNote(snapshot: Snapshot): unknown {
  return {
    text: snapshot.text,
    blocks: snapshot.blocks.map(({ block, start }) => ({ kind: block.kind, length: block.length, start })),
    rows: snapshot.rows.map(({ statement, start, outcome, noteProblems, cells }) => ({
      text: statement.text,
      start,
      ...(cells
        ? {
            cells: cells.lines.starts.map((at) =>
              snapshot.spanOf({ statement, start, outcome, noteProblems, cells }, { start: at, end: at }),
            ),
          }
        : {}),
      outcome: plain(outcome),
      noteProblems: plain(noteProblems),
    })),
  };
}

/** All notes that a program holds, by path. */
export function plainProgram(program: Program): Record<string, unknown> {
  const paths = [...program.notes.keys()].sort();
  return Object.fromEntries(paths.map((path) => [path, plainNote(program.snapshot(path)!)]));
}

/** Plain data out of outcomes, problems and findings. */
export function plain(value: unknown): unknown {
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(plain);
  if ("tree" in value && "text" in value) return `statement ${String(value.text)}`;
  if ("exponents" in value && "key" in value) return `dimension ${String(value.key)}`;
  if ("powers" in value && "text" in value) return `unit ${String(value.text)}`;
  return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, plain(member)]));
}
