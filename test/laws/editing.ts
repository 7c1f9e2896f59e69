import fc from "fast-check";
import { Program } from "../../src/engine/program";
import { WHOLE_PARTS } from "../../src/engine/wholeParts";
import { difference } from "../../src/text/edit";
import { line, NAMES } from "./generatedNotes";

/**
 * One thing that a person or the editor does. Places are shares of what is there (0 to 1), so that every step means
 * something in every state, and a failing sequence can be made shorter.
 */
export type Step =
  | { readonly do: "insert" | "replace"; readonly note: number; readonly at: number; readonly lines: readonly string[] }
  | {
      readonly do: "delete" | "comment" | "undo" | "open" | "close" | "settle" | "search" | "load";
      readonly note: number;
      readonly at: number;
    }
  | { readonly do: "swap" | "copy" | "cut"; readonly note: number; readonly at: number; readonly to: number }
  | { readonly do: "number" | "type"; readonly note: number; readonly at: number; readonly text: string }
  | { readonly do: "rename"; readonly note: number; readonly from: string; readonly to: string };

/** A generated note seldom has more to be searched. */
const MOST_SLICES = 12;

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const place = { note: fc.nat(3), at: share };

/** Steps that write such lines. */
export const stepWriting = (written: fc.Arbitrary<string>): fc.Arbitrary<Step> =>
  fc.oneof({ weight: 3, arbitrary: writing(fc.array(written, { minLength: 1, maxLength: 4 })) }, ...OTHER_STEPS);

const writing = (lines: fc.Arbitrary<string[]>): fc.Arbitrary<Step> =>
  fc.record({ do: fc.constantFrom("insert", "replace"), ...place, lines });

const OTHER_STEPS: readonly fc.WeightedArbitrary<Step>[] = [
  { weight: 3, arbitrary: fc.record({ do: fc.constantFrom("delete", "comment", "undo"), ...place }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constantFrom("settle", "search", "load"), ...place }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constantFrom("open", "close"), ...place }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constantFrom("swap", "copy", "cut"), ...place, to: share }) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant("number"), ...place, text: fc.constantFrom("1", "2", "2.0", "3", "1e3") }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("type"),
      ...place,
      text: fc.constantFrom(" ", "\n", "    ", "#", "(", "a", "V", " = ", '"', "\n\n", "\r\n", "`", "5"),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("rename"),
      note: fc.nat(3),
      from: fc.constantFrom(...NAMES),
      to: fc.constantFrom(...NAMES),
    }),
  },
];

export const step: fc.Arbitrary<Step> = stepWriting(line);

/** Notes in an editor, with a library behind them, driven by steps. */
export class Desk {
  readonly program = new Program(WHOLE_PARTS);
  /** The text of every note, whether a program holds it or not. */
  readonly texts = new Map<string, string>();
  private readonly pasts = new Map<string, string[]>();

  constructor(notes: Readonly<Record<string, string>>) {
    for (const [path, text] of Object.entries(notes)) this.texts.set(path, text);
    const [first] = this.texts.keys();
    this.program.setText(first, this.texts.get(first)!);
    this.program.settle();
  }

  take(step: Step): void {
    const paths = [...this.texts.keys()];
    if (step.do === "settle") return this.program.settle();
    if (step.do === "search") return this.search(Math.floor(step.at * MOST_SLICES));
    if (step.do === "load") return this.load();
    const path = paths[step.note % paths.length];
    const text = this.texts.get(path)!;
    if (step.do === "open") return this.program.setText(path, text);
    if (step.do === "close") {
      this.program.close(path);
      return this.program.settle();
    }
    if (step.do === "undo") return this.undo(path);
    const changed = edited(text, step);
    if (changed === text) return;
    const past = this.pasts.get(path) ?? [];
    this.pasts.set(path, [...past, text]);
    this.write(path, changed);
  }

  /** Brings the notes up to date and searches for ranges, in so many slices. */
  private search(slices: number): void {
    this.program.update();
    this.program.search(() => slices-- <= 0);
  }

  /** Reads what is used, and settles. */
  load(): void {
    for (let wanted = this.program.wanted(); wanted.length > 0; wanted = this.program.wanted()) {
      for (const path of wanted) {
        const text = this.texts.get(path);
        this.program.provide(path, text === undefined ? { trouble: "missing", detail: "" } : { text });
      }
    }
    this.program.settle();
  }

  /** The same notes in a program that has seen nothing else. */
  afresh(): Program {
    const program = new Program(WHOLE_PARTS);
    for (const path of [...this.program.notes.keys()].sort()) program.setText(path, this.texts.get(path)!);
    for (let wanted = program.wanted(); wanted.length > 0; wanted = program.wanted())
      for (const path of wanted) program.provide(path, { trouble: "missing", detail: "" });
    program.settle();
    return program;
  }

  private undo(path: string): void {
    const before = this.pasts.get(path)?.pop();
    if (before !== undefined) this.write(path, before);
  }

  private write(path: string, text: string): void {
    const before = this.texts.get(path)!;
    this.texts.set(path, text);
    if (this.program.notes.has(path)) this.program.edit(path, difference(before, text));
  }
}

function edited(text: string, step: Step): string {
  if (step.do === "rename") return text.replace(new RegExp(`(?<![\\w])${step.from}(?![\\w])`, "g"), step.to);
  if (!("at" in step)) return text;
  if (step.do === "type") {
    const at = Math.floor(step.at * (text.length + 1));
    return text.slice(0, at) + step.text + text.slice(at);
  }
  if (step.do === "cut") {
    const at = Math.floor(step.at * (text.length + 1));
    return text.slice(0, at) + text.slice(at + Math.floor(step.to * 8));
  }
  return editedLines(text.split("\n"), step).join("\n");
}

function editedLines(lines: string[], step: Exclude<Step, { do: "rename" }>): string[] {
  const at = Math.floor(step.at * lines.length);
  switch (step.do) {
    case "insert":
      return lines.toSpliced(at, 0, ...step.lines);
    case "replace":
      return lines.toSpliced(at, 1, ...step.lines);
    case "delete":
      return lines.toSpliced(at, 1);
    case "comment":
      return lines.with(at, / #/.test(lines[at]) ? lines[at].replace(/ #.*$/, "") : `${lines[at]} # so`);
    case "swap": {
      const to = Math.floor(step.to * lines.length);
      return lines.with(at, lines[to]).with(to, lines[at]);
    }
    case "copy":
      return lines.toSpliced(Math.floor(step.to * (lines.length + 1)), 0, lines[at]);
    case "number":
      return lines.with(at, lines[at].replace(/\d+(\.\d+)?/, step.text));
    default:
      return lines;
  }
}
