import type { Span } from "../text/span";

/**
 * Cells of a table gathered into one text, one a line, with the way back from its characters to where they stand. So the
 * cells of a column are a text like that of a statement, which stays the same while other columns are edited.
 */
export class CellLines {
  private readonly parts: string[] = [];
  private length = 0;
  private gathered?: string;
  /** Where each line begins and ends in the text. */
  readonly starts: number[] = [];
  readonly ends: number[] = [];
  /** Each stretch that stands in one piece in the note: where it begins in the text, how long it is, and where it stands. */
  private readonly from: number[] = [];
  private readonly sizes: number[] = [];
  private readonly sources: number[] = [];

  /** @param isHidden it gathers once more what stands in other columns, so that none of its places is found by an offset */
  constructor(private readonly isHidden = false) {}

  get text(): string {
    return (this.gathered ??= this.parts.join(""));
  }

  get lineCount(): number {
    return this.starts.length;
  }

  line(index: number): string {
    return this.text.slice(this.starts[index], this.ends[index]);
  }

  /** Adds a cell as a line. Of an escaped pipe the backslash is left out. */
  add(note: string, start: number, end: number): void {
    if (this.starts.length > 0) this.push("\n");
    this.starts.push(this.length);
    const cell = note.slice(start, end);
    let from = 0;
    // Within the cell alone: a search for what is nowhere in the note would read it to its end for each cell.
    for (let at = cell.indexOf("\\|"); at >= 0; at = cell.indexOf("\\|", at + 2)) {
      this.stretch(cell.slice(from, at), start + from);
      from = at + 1;
    }
    this.stretch(cell.slice(from), start + from);
    this.ends.push(this.length);
  }

  /** Adds a line that stands at a place as something else: the field of a file, unquoted. */
  addInstead(text: string, source: number): void {
    if (this.starts.length > 0) this.push("\n");
    this.starts.push(this.length);
    this.from.push(this.length);
    this.sizes.push(0);
    this.sources.push(source);
    this.push(text);
    this.ends.push(this.length);
  }

  /** Adds a line of other cells, which stands where it stands there. */
  addLine(other: CellLines, line: number): void {
    if (this.starts.length > 0) this.push("\n");
    this.starts.push(this.length);
    const end = other.ends[line];
    for (let i = other.stretchAt(other.starts[line]), at = other.starts[line]; ; i++) {
      const next = i + 1 < other.from.length ? Math.min(other.from[i + 1], end) : end;
      this.from.push(this.length);
      this.sizes.push(Math.min(other.sizes[i], next - at));
      this.sources.push(other.place(i, at));
      this.push(other.text.slice(at, next));
      at = next;
      if (at >= end) break;
    }
    this.ends.push(this.length);
  }

  /** Where a span of the text stands. What runs over several cells is told at the first of them. */
  sourceOf({ start, end }: Span): Span {
    const first = this.stretchAt(start);
    const last = this.stretchAt(end);
    const at = this.place(first, start);
    const isOneLine = this.lineAt(start) === this.lineAt(end);
    return {
      start: at,
      end: Math.max(at, isOneLine ? this.place(last, end) : this.place(first, this.ends[this.lineAt(start)])),
    };
  }

  /** The place in the text of an offset of the note; undefined where another cell stands there, or none. */
  placeOf(offset: number): number | undefined {
    if (this.isHidden) return undefined;
    for (let i = 0; i < this.from.length; i++) {
      const within = offset - this.sources[i];
      if (within >= 0 && within <= this.sizes[i]) return this.from[i] + within;
    }
    return undefined;
  }

  /** The line on which a place of the text stands. */
  lineAt(place: number): number {
    return lastAtMost(this.starts, place);
  }

  private stretch(text: string, source: number): void {
    this.from.push(this.length);
    this.sizes.push(text.length);
    this.sources.push(source);
    this.push(text);
  }

  private push(text: string): void {
    this.parts.push(text);
    this.length += text.length;
  }

  private stretchAt(place: number): number {
    return lastAtMost(this.from, place);
  }

  private place(stretch: number, place: number): number {
    return this.sources[stretch] + Math.min(place - this.from[stretch], this.sizes[stretch]);
  }
}

/** The last of rising numbers that is not above one; the first where all are. */
function lastAtMost(rising: readonly number[], wanted: number): number {
  let low = 0;
  let high = rising.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (rising[middle] <= wanted) low = middle;
    else high = middle - 1;
  }
  return low;
}
