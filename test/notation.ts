import assert from "node:assert/strict";
import type { ReadResult } from "../src/engine/library";
import { WHOLE_PARTS } from "../src/engine/wholeParts";
import { Program } from "../src/engine/program";
import type { Snapshot } from "../src/engine/snapshot";
import { findingsOf } from "../src/findings/catalogue";
import type { Finding, FindingContext } from "../src/findings/finding";
import { applyEdits } from "../src/text/edit";
import { readChapter } from "./handbook/chapters";

/**
 * The notation of tests: a note with the findings that are expected drawn under the lines they are on.
 *
 * ```
 *     a = 2 m
 *     b = a + 1 s
 *             ~~~ unit.mismatch error
 *             | Cannot add a time (1 s) to a length (a = 2 m).
 * ```
 *
 * The tildes stand under the place: under all of it on that line, or one where it is empty. The severity and the message may
 * be left out. Several notes are set off by lines `=== path`; the one before the first such line is `note.calcs.md`.
 * Lines indented by four columns or more compute, so a text may stand as deep in a test file as its test does.
 */
export interface Drawing {
  readonly path: string;
  /** The note without the marks. */
  readonly text: string;
  readonly marks: readonly Mark[];
}

export interface Mark {
  /** Of the line above, from 0, in the text without marks. */
  readonly line: number;
  readonly column: number;
  readonly length: number;
  readonly code: string;
  readonly severity?: string;
  readonly message?: string;
}

/** Asserts that the notes have exactly the findings that are drawn under their lines. */
export function checkFindings(drawn: string): void {
  const drawings = readDrawings(drawn);
  const notes = new OpenNotes(drawings);
  for (const { path, text, marks } of drawings)
    assert.equal(draw(text, found(notes.context(path), marks)), draw(text, marks), path);
}

/** Opens the notes of a drawing; for tests that go on from there. */
export function openNotes(drawn: string): OpenNotes {
  return new OpenNotes(readDrawings(drawn));
}

const MAIN = "note.calcs.md";

/** Notes in memory, settled. */
export class OpenNotes {
  readonly program = new Program(WHOLE_PARTS);
  readonly paths: readonly string[];

  constructor(drawings: readonly Drawing[]) {
    this.paths = drawings.map(({ path }) => path);
    for (const { path, text } of drawings) this.program.setText(path, text);
    this.read();
  }

  /** Reads what is wanted, and what that wants, until nothing is. */
  private read(): void {
    this.program.settle();
    for (let wanted = this.program.wanted(); wanted.length > 0; wanted = this.program.wanted()) {
      for (const path of wanted) this.program.provide(path, readChapter(path) ?? unread(path));
      this.program.settle();
    }
  }

  snapshot(path = this.paths[0]): Snapshot {
    return this.program.snapshot(path)!;
  }

  findings(path = this.paths[0]): readonly Finding[] {
    return findingsOf(this.context(path));
  }

  context(path = this.paths[0]): FindingContext {
    const { program } = this;
    const snapshot = () => this.snapshot(path);
    return {
      snapshot: this.snapshot(path),
      other: (other) => this.program.snapshot(other),
      // eslint-disable-next-line require-yield -- A test does not wait.
      *whatIf(edits, look) {
        return program.whatIf(path, edits, () => look(snapshot()));
      },
      seriesFor: (unit) => ({ Ω: "E24", F: "E6", H: "E12" })[unit],
    };
  }

  /** Writes a text into a note, as an editor that applied edits would. */
  replace(path: string, text: string): void {
    this.program.setText(path, text);
    this.read();
  }

  /** The text of a note after edits. */
  edited(edits: Parameters<typeof applyEdits>[1], path = this.paths[0]): string {
    return applyEdits(this.snapshot(path).text, edits);
  }
}

/** Takes the marks out of the text; of each note. */
export function readDrawings(drawn: string): readonly Drawing[] {
  const parts = drawn.split(/^[ \t]*=== (.+)\n/m);
  const notes = [{ path: MAIN, text: parts[0] }];
  for (let i = 1; i < parts.length; i += 2) notes.push({ path: parts[i].trim(), text: parts[i + 1] });
  return notes.filter(({ text }, i) => i > 0 || text.trim() !== "").map(({ path, text }) => readDrawing(path, text));
}

const MARK = /^(\s*)(~+) ([a-z]+\.\w+)(?: (error|warning|information|hint))?$/;
/** A message stands under its mark or further in, so that no row of a table is taken for one. */
const MESSAGE = /^(\s*)\| (.*)$/;

function readDrawing(path: string, drawn: string): Drawing {
  const lines: string[] = [];
  const marks: Mark[] = [];
  for (const line of drawn.split("\n")) {
    const mark = MARK.exec(line);
    const message = MESSAGE.exec(line);
    const last = marks.at(-1);
    if (mark) {
      const [, indentation, tildes, code, severity] = mark;
      const place = { line: lines.length - 1, column: indentation.length, length: tildes.length };
      marks.push({ ...place, code, ...(severity ? { severity } : {}) });
    } else if (message && last?.line === lines.length - 1 && message[1].length >= last.column) {
      const text = last.message === undefined ? message[2] : `${last.message} ${message[2]}`;
      marks[marks.length - 1] = { ...last, message: text };
    } else lines.push(line);
  }
  return { path, text: lines.join("\n"), marks };
}

/** The findings of a note as marks that tell as much as the expected ones do. */
function found(context: FindingContext, expected: readonly Mark[]): readonly Mark[] {
  const { lines } = context.snapshot;
  return findingsOf(context).map(({ span, code, severity, message }) => {
    const { line, column } = lines.positionAt(span.start);
    const length = Math.max(1, Math.min(span.end, lines.lineEnd(line)) - span.start);
    const place = { line, column, length, code };
    const like = expected.find((mark) => isSamePlace(mark, place));
    return {
      ...place,
      ...(like && !like.severity ? {} : { severity }),
      ...(like && like.message === undefined ? {} : { message }),
    };
  });
}

function isSamePlace(a: Mark, b: Mark): boolean {
  return a.line === b.line && a.column === b.column && a.length === b.length && a.code === b.code;
}

function draw(text: string, marks: readonly Mark[]): string {
  const inOrder = [...marks].sort(
    (a, b) => a.column - b.column || a.length - b.length || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0),
  );
  return text
    .split("\n")
    .flatMap((line, i) => [line, ...inOrder.filter((mark) => mark.line === i).flatMap(drawMark)])
    .join("\n");
}

function drawMark({ column, length, code, severity, message }: Mark): string[] {
  const indentation = " ".repeat(column);
  const mark = `${indentation}${"~".repeat(length)} ${code}${severity ? ` ${severity}` : ""}`;
  return message === undefined ? [mark] : [mark, `${indentation}| ${message}`];
}

/** What the library says of a note that is not among them: one that is `locked` cannot be read, any other is missing. */
function unread(path: string): ReadResult {
  return path.includes("locked")
    ? { trouble: "unreadable", detail: "access denied" }
    : { trouble: "missing", detail: "" };
}
