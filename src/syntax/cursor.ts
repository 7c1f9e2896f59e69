import { Lexer, Token } from "./lexer";
import type { Expected, SyntaxProblem, SyntaxTrouble } from "./problem";
import { Arena, Kind, Tree, type Node } from "./tree";
import { UnitReader } from "./unit";
import { holds, type Word, type WordSet } from "./word";

/**
 * How deeply brackets, signs and powers may be nested. Each level costs the parser about ten calls, and nobody reads
 * twenty levels: 200 is far from both ends.
 */
export const DEEPEST_NESTING = 200;

/**
 * How tall a tree may grow without nesting, as by `a.b.c …`. Whoever walks the tree by calling itself must not run out of
 * stack. Sums, products and other chains of operators are walked along, and may be of any length.
 */
export const TALLEST_TREE = 1000;

/** How many problems of one statement are told; the others would say no more than these. */
export const MOST_PROBLEMS = 20;

const NO_PROBLEMS: readonly SyntaxProblem[] = [];

/** The reading place of the parser: the tokens of a statement, and the tree and the problems that come of them. */
export class Cursor extends Lexer {
  tree: Tree = new Tree(new Arena());
  problems: readonly SyntaxProblem[] = NO_PROBLEMS;
  readonly unit = new UnitReader();
  /** A comma separates here (arguments, list members), so `3,3` is two numbers. */
  commaSeparates = false;
  /** Clause words that cannot be a unit in this kind of statement, though they are no keywords. */
  clauses: WordSet = 0;
  /** A rule may go on with `in 99 % of builds`, so `in` is not always the inch. */
  isRule = false;
  /** The height of the tree of the expression read last. */
  height = 0;
  /** Set when something in a literal has no single reading. */
  spoilt = false;
  private depth = 0;
  private troubledAt = -1;
  private abandoned = false;

  /** The statement was given up: what was read of it is not what it says. */
  get isAbandoned(): boolean {
    return this.abandoned;
  }

  open(arena: Arena, text: string): void {
    this.tree = new Tree(arena);
    this.problems = NO_PROBLEMS;
    this.commaSeparates = false;
    this.clauses = 0;
    this.isRule = false;
    this.height = 0;
    this.spoilt = false;
    this.depth = 0;
    this.troubledAt = -1;
    this.abandoned = false;
    this.begin(text);
  }

  /** Goes on with a stretch of the text that stands for itself; the problems of those before are kept by who reads them. */
  restart(start: number, limit: number): void {
    this.problems = NO_PROBLEMS;
    this.height = 0;
    this.spoilt = false;
    this.depth = 0;
    this.troubledAt = -1;
    this.abandoned = false;
    this.begin(this.text, start, limit);
  }

  override report(start: number, end: number, trouble: SyntaxTrouble): void {
    if (this.abandoned || this.problems.length >= MOST_PROBLEMS) return;
    const problem: SyntaxProblem = { span: { start, end }, ...trouble };
    if (this.problems === NO_PROBLEMS) this.problems = [problem];
    else (this.problems as SyntaxProblem[]).push(problem);
  }

  /** Reports that something else should stand at the current token; one token troubles only once. */
  unexpected(expected: Expected): void {
    const found = this.kind === Token.End ? "" : this.found;
    this.complain({ code: "syntax.unexpected", expected, found });
  }

  /** Reports something about the current token, unless it has been complained of before. */
  complain(trouble: SyntaxTrouble): void {
    const at = this.kind === Token.End ? this.previousEnd : this.start;
    if (this.troubledAt === at) return;
    this.troubledAt = at;
    this.report(at, this.kind === Token.End ? at : this.end, trouble);
  }

  /** As {@link unexpected}, and stands in for the node that is not there. */
  missing(expected: Expected): Node {
    this.unexpected(expected);
    return this.absent();
  }

  /** A node for what is not there; the reason has been reported. */
  absent(): Node {
    this.height = 1;
    return this.tree.add(Kind.Missing, this.previousEnd, this.previousEnd);
  }

  /** The node with its value taken away: it was read, but not in a way that can be relied on. */
  spoil(node: Node): Node {
    return this.tree.kind(node) === Kind.Missing
      ? node
      : this.tree.add(Kind.Missing, this.tree.start(node), this.tree.end(node), node);
  }

  /** Steps over the token if it is of this kind, else reports. */
  expect(kind: Token, expected: Expected): boolean {
    if (this.kind !== kind) {
      this.unexpected(expected);
      return false;
    }
    this.advance();
    return true;
  }

  isWord(word: Word): boolean {
    return this.kind === Token.Word && this.word === word;
  }

  isOneOf(words: WordSet): boolean {
    return this.kind === Token.Word && holds(words, this.word);
  }

  acceptWord(word: Word): boolean {
    if (!this.isWord(word)) return false;
    this.advance();
    return true;
  }

  /** One level deeper. Where it returns false the statement has been given up, and {@link leave} must not be called. */
  enter(): boolean {
    if (++this.depth <= DEEPEST_NESTING) return true;
    this.giveUp(DEEPEST_NESTING);
    return false;
  }

  leave(): void {
    this.depth--;
  }

  /** Notes the height of a new node above its parts. Where it returns false the statement has been given up. */
  rise(height: number): boolean {
    this.height = height;
    if (height <= TALLEST_TREE) return true;
    this.giveUp(TALLEST_TREE);
    return false;
  }

  /** Reports the place and reads no further, so that nothing behind it is complained about. */
  private giveUp(limit: number): void {
    if (!this.abandoned) this.report(this.start, this.end, { code: "syntax.tooDeep", limit });
    this.abandoned = true;
    while (this.kind !== Token.End) this.advance();
  }

  /**
   * Steps over a closing bracket and returns where it ends. If something else stands before it, that is reported and
   * passed over; if nothing stands there at all, the open bracket is reported.
   */
  close(openedAt: number, kind: Token.Close | Token.CloseSquare): number {
    const close = kind === Token.Close ? ")" : "]";
    const isMissing = this.kind === Token.End;
    if (this.kind !== kind && !isMissing) {
      this.unexpected(close);
      this.passToClose(kind);
      this.spoilt = true;
    }
    if (this.kind === kind) {
      const end = this.end;
      this.advance();
      return end;
    }
    if (isMissing) {
      const open = kind === Token.Close ? "(" : "[";
      const insertAt = this.previousEnd;
      this.report(openedAt, openedAt + 1, { code: "syntax.unclosedBracket", open, close, insertAt });
    }
    this.spoilt = true;
    return this.previousEnd;
  }

  /** Passes over tokens up to the bracket that closes the innermost open one. */
  private passToClose(kind: Token): void {
    for (let open = 0; this.kind !== Token.End; this.advance()) {
      if (open === 0 && this.kind === kind) return;
      if (this.kind === Token.Open || this.kind === Token.OpenSquare) open++;
      else if (open > 0 && (this.kind === Token.Close || this.kind === Token.CloseSquare)) open--;
    }
  }
}
