import type { Cursor } from "./cursor";
import { expression } from "./expression";
import { Token } from "./lexer";
import { literal } from "./literal";
import { MOST_PROBLEMS } from "./cursor";
import type { SyntaxProblem } from "./problem";
import { CellKind } from "./statement";
import type { CellText } from "./table";
import { Kind, NONE, type Node } from "./tree";

/** The cells of a column as read. */
export interface Cells {
  readonly kinds: readonly CellKind[];
  readonly nodes: readonly Node[];
  readonly isText: boolean;
  readonly problems: readonly SyntaxProblem[];
}

interface ColumnTraits {
  readonly column: string;
  /** It has a formula, so that its cells are left empty. */
  readonly isComputed: boolean;
  readonly hasUnit: boolean;
  readonly isFile: boolean;
  /** What it is whatever its cells look like: of text the ends of branches, where `0` is a node, of values what lies between. */
  readonly mustBe?: "text" | "values";
}

/** What people write where a cell is to be joined with a neighbour, or says the same. */
const MERGED: ReadonlySet<string> = new Set(["^^", "^", "<<", ">>", "<", '"', "''", "″", "〃", "ditto"]);

/** What is written where there is nothing. */
export const NOTHING: ReadonlySet<string> = new Set(["", "-", "–", "—"]);

/** How a number begins: what begins so and cannot be read is a slip rather than a word. Leading zeros are codes: `0603`. */
const NUMBER_LIKE = /^(?:[-−+±]?\s*(?:\d|\.\d)|\.\.|readings\b|sample\b)/;
const CODE_LIKE = /^0\d/;

/**
 * Reads the cells of a column, from its second line on. Whether a column is text is a matter of its cells: it is where one is
 * in quotes, or where as many are words as are values; but not where its header has a unit.
 */
export function readCells(at: Cursor, source: CellText, traits: ColumnTraits): Cells {
  return new CellReader(at, source, traits).read();
}

/** Whether a cell is a text that opens with a quotation mark and does not close. */
export function isUnclosed(written: string): boolean {
  return /^"[^"]+$/.test(written);
}

export function unclosedQuote(start: number, end: number, written: string): SyntaxProblem {
  return { span: { start, end }, code: "syntax.unclosedQuote", rewritten: [`${written}"`] };
}

class CellReader {
  private readonly kinds: CellKind[] = [];
  private readonly nodes: Node[] = [];
  private readonly problems: SyntaxProblem[] = [];
  /** Of cells that begin like a number: what is wrong with them as one. */
  private readonly slips = new Map<number, readonly SyntaxProblem[]>();
  private quoted = 0;
  private words = 0;
  private values = 0;

  constructor(
    private readonly at: Cursor,
    private readonly source: CellText,
    private readonly traits: ColumnTraits,
  ) {}

  read(): Cells {
    const { source, kinds, nodes, traits } = this;
    for (let line = 1; line < source.starts.length; line++) this.cell(source.starts[line], source.ends[line]);
    const isWorded = this.quoted > 0 || (this.words >= this.values && this.words > 0);
    const isOfText = traits.mustBe === undefined ? isWorded : traits.mustBe === "text";
    const isText = !traits.isComputed && !traits.hasUnit && isOfText;
    const isEmpty =
      kinds.length > 0 && !traits.isComputed && !traits.hasUnit && kinds.every((kind) => kind === CellKind.Empty);
    if (isText || isEmpty) this.takeAsText();
    else if (!traits.isComputed) this.complainOfWords();
    return { kinds, nodes, isText: isText || isEmpty, problems: this.problems.slice(0, MOST_PROBLEMS) };
  }

  private cell(start: number, end: number): void {
    const written = this.source.text.slice(start, end);
    if (NOTHING.has(written)) return this.add(CellKind.Empty, NONE);
    if (this.traits.isComputed) {
      this.problems.push({
        span: { start, end },
        code: "table.computedCell",
        found: written,
        column: this.traits.column,
      });
      return this.add(CellKind.Empty, NONE);
    }
    if (MERGED.has(written)) return this.merged(start, end, written);
    if (/^=(?!=)/.test(written)) return this.expression(start, end);
    if (/^"[^"]*"$/.test(written)) {
      this.quoted++;
      return this.add(CellKind.Text, this.text(start, end, written.slice(1, -1)));
    }
    if (isUnclosed(written) && !this.traits.isFile) {
      this.problems.push(unclosedQuote(start, end, written));
      this.quoted++;
      return this.add(CellKind.Text, this.text(start, end, written.slice(1)));
    }
    if (NUMBER_LIKE.test(written) && !CODE_LIKE.test(written)) return this.number(start, end);
    this.words++;
    this.add(CellKind.Text, this.text(start, end, written));
  }

  private add(kind: CellKind, node: Node): void {
    this.kinds.push(kind);
    this.nodes.push(node);
  }

  private text(start: number, end: number, inside: string): Node {
    const { tree } = this.at;
    return tree.add(Kind.Text, start, end, NONE, 0, NaN, tree.intern(inside));
  }

  /** `= expression`. */
  private expression(start: number, end: number): void {
    const { at } = this;
    at.restart(start + 1, end);
    const node = at.is(Token.End) ? at.missing("expression") : expression(at);
    if (!at.is(Token.End)) at.unexpected("end");
    this.problems.push(...at.problems);
    this.values++;
    this.add(CellKind.Expression, at.problems.length > 0 ? at.spoil(node) : node);
  }

  private number(start: number, end: number): void {
    const { at, traits, source } = this;
    const from = traits.isFile && source.text[start] === "+" ? start + 1 : start;
    this.values++;
    at.restart(from, end);
    // Nearly every cell that begins like a number is a literal; what is wrong with others is told as in an expression.
    if (at.is(Token.Number)) {
      const value = literal(at);
      if (at.is(Token.End) && at.problems.length === 0) return this.add(CellKind.Value, value);
      at.restart(from, end);
    }
    const node = expression(at);
    const isRead = at.is(Token.End) && at.problems.length === 0;
    if (isRead && at.tree.kind(node) === Kind.Literal) return this.add(CellKind.Value, node);
    this.slips.set(this.kinds.length, isRead || at.problems.length === 0 ? [] : at.problems);
    this.add(CellKind.Unread, NONE);
  }

  /** The cell above is what was meant. */
  private merged(start: number, end: number, found: string): void {
    const row = this.kinds.length;
    const above = row > 0 ? this.written(row - 1) : "";
    const rewritten = above === "" || MERGED.has(above) ? [] : [above];
    this.problems.push({ span: { start, end }, code: "table.mergedCell", found, rewritten });
    this.add(CellKind.Unread, NONE);
  }

  /** In a column of text every cell is text, whatever it looks like. */
  private takeAsText(): void {
    this.kinds.forEach((kind, row) => {
      if (kind === CellKind.Text || (kind === CellKind.Unread && !this.slips.has(row))) return;
      const [start, end] = this.span(row);
      this.kinds[row] = CellKind.Text;
      this.nodes[row] = this.text(start, end, this.written(row));
    });
  }

  /** What is no value in a column of values. */
  private complainOfWords(): void {
    const { column } = this.traits;
    this.kinds.forEach((kind, row) => {
      const slips = this.slips.get(row);
      if (slips !== undefined && slips.length > 0) return void this.problems.push(...slips);
      if (kind !== CellKind.Text && slips === undefined) return;
      const [start, end] = this.span(row);
      const found = this.written(row);
      const rewritten = slips ? [`= ${found}`] : [];
      this.problems.push({ span: { start, end }, code: "table.cell", found, column, rewritten });
      this.kinds[row] = CellKind.Unread;
      this.nodes[row] = NONE;
    });
    this.problems.sort((a, b) => a.span.start - b.span.start);
  }

  private span(row: number): [number, number] {
    return [this.source.starts[row + 1], this.source.ends[row + 1]];
  }

  private written(row: number): string {
    return this.source.text.slice(...this.span(row));
  }
}
