import type { Span } from "../text/span";

/**
 * What is wrong with a statement as text. Plain data; `findings/` has the sentences and the fixes.
 * Spans count from the start of the statement. Where a trouble has `rewritten`, putting one of these texts in the
 * place of the span mends it; the most likely reading comes first, and several stand for a real ambiguity.
 */
export type SyntaxProblem = { readonly span: Span } & SyntaxTrouble;

/** What the grammar wants at a place: a sign or word as written, or the name of a rule of the grammar. */
export type Expected =
  | "statement"
  | "expression"
  | "name"
  | "number"
  | "unit"
  | "text"
  | "date"
  | "code"
  | "end"
  | "="
  | ","
  | ":"
  | "("
  | ")"
  | "["
  | "]"
  | "%"
  | "as"
  | "because"
  | "builds"
  | "else"
  | "for"
  | "in"
  | "least"
  | "of"
  | "satisfy"
  | "then";

interface Rewritten {
  readonly rewritten: readonly string[];
}

export type SyntaxTrouble =
  /** Something else was expected here. `found` is empty at the end of the statement. */
  | { readonly code: "syntax.unexpected"; readonly expected: Expected; readonly found: string }
  /** The first word opens no statement, and no `=` follows it: `asume V = 3 V`. */
  | { readonly code: "syntax.unknownStatement"; readonly word: string }
  /** An expression that nobody can use, because it has no name and no opening word: `R1 + R2`. */
  | { readonly code: "syntax.unnamedValue" }
  /** A word of the language is defined as a name (`for = 3`), which no expression could use. */
  | { readonly code: "syntax.reservedName"; readonly word: string }
  /** A word of the language stands where a value should: `x = from * 2`. */
  | { readonly code: "syntax.reservedWord"; readonly word: string }
  /** A sign of another language, read as the sign meant: `==`, `:=`, `**`, `&&`, `<>`, `÷`. */
  | ({ readonly code: "syntax.otherSign"; readonly found: string } & Rewritten)
  /** `x = a = b`: a definition and a comparison without brackets. */
  | ({ readonly code: "syntax.secondEquals" } & Rewritten)
  /** `3,3 V`. Two readings for `1,000`. */
  | ({ readonly code: "syntax.decimalComma" } & Rewritten)
  /** `.5` and `2.`. */
  | ({ readonly code: "syntax.numberDot" } & Rewritten)
  /** `3–5 V`: a range or a difference. */
  | ({ readonly code: "syntax.dashBetweenNumbers" } & Rewritten)
  /** `x ± 5 %`: `±` belongs to a number, not to a name or a bracket. */
  | ({ readonly code: "syntax.plusMinusAfterQuantity" } & Rewritten)
  /** `5 V ± -2 %`: the sign at fault. */
  | ({ readonly code: "syntax.negativeTolerance" } & Rewritten)
  /** `a .. b`, `3 V ± tolerance`: the sign joins numbers only. */
  | { readonly code: "syntax.joinsNumbers"; readonly sign: "±" | ".." }
  /** `a < 1 || b < 2`: in parallel, or one or the other? The span is the sign. */
  | ({ readonly code: "syntax.parallelOfConditions" } & Rewritten)
  /** `a * b || c`. */
  | ({ readonly code: "syntax.parallelNeedsBrackets" } & Rewritten)
  /** `a + if c then d else e`. */
  | ({ readonly code: "syntax.needsBrackets"; readonly word: string } & Rewritten)
  /** `a % b`: `%` is a unit, the remainder is `mod(a, b)`. */
  | ({ readonly code: "syntax.percentIsUnit" } & Rewritten)
  /** `2 (a + b)`, `(a)(b)`. */
  | ({ readonly code: "syntax.missingOperator" } & Rewritten)
  /** `5 1/4 in`. */
  | ({ readonly code: "syntax.mixedNumber" } & Rewritten)
  /** `8/2^2`, `x^1/2`, `a/1/4`: an unspaced fraction is one number, but it does not look like one here. */
  | ({ readonly code: "syntax.ambiguousFraction" } & Rewritten)
  /** `W/m·K`, `W/m/K`. */
  | ({ readonly code: "syntax.unitNeedsBrackets" } & Rewritten)
  /** `4n7F`: a tolerance of the letter code, or the unit? */
  | ({ readonly code: "syntax.toleranceOrUnit" } & Rewritten)
  /** A zero-width or direction-control character; `codePoint` is its number in Unicode. */
  | ({ readonly code: "syntax.invisibleCharacter"; readonly codePoint: number } & Rewritten)
  /** Quotation marks other than `"`. */
  | ({ readonly code: "syntax.quotes" } & Rewritten)
  | ({ readonly code: "syntax.unclosedQuote" } & Rewritten)
  /** The span is the open bracket; putting `close` at `insertAt` mends it. */
  | {
      readonly code: "syntax.unclosedBracket";
      readonly open: string;
      readonly close: string;
      readonly insertAt: number;
    }
  | ({ readonly code: "syntax.semicolon" } & Rewritten)
  /** `on 2026-02-30`. */
  | { readonly code: "syntax.impossibleDate"; readonly found: string }
  | { readonly code: "syntax.repeatedClause"; readonly word: string }
  /** A clause that this kind of statement does not take: `x = a from "data sheet"`. `statement` is its kind. */
  | { readonly code: "syntax.clauseNotHere"; readonly word: string; readonly statement: string }
  /** A number as written is needed here, not an expression: `over T = T_low`. */
  | { readonly code: "syntax.literalExpected"; readonly found: string }
  /** `measured x = 3 V of 2.5`. */
  | { readonly code: "syntax.wholeNumberExpected"; readonly found: string }
  /** A share of builds outside 0 % .. 100 %, a correlation outside −1 .. 1. */
  | { readonly code: "syntax.outOfRange"; readonly what: "share" | "correlation"; readonly found: string }
  /** A header that is no name. */
  | ({ readonly code: "table.header"; readonly found: string } & Rewritten)
  /** A cell that is no value in a column of values. */
  | ({ readonly code: "table.cell"; readonly found: string; readonly column: string } & Rewritten)
  /** Something stands in a cell of a computed column. */
  | { readonly code: "table.computedCell"; readonly found: string; readonly column: string }
  /** A sign that repeats or joins cells elsewhere: `^^`, a ditto mark. */
  | ({ readonly code: "table.mergedCell"; readonly found: string } & Rewritten)
  /** A row with fewer or more cells than the header. */
  | {
      readonly code: "table.ragged";
      readonly row: string;
      readonly cells: number;
      readonly columns: number;
    }
  /** In a file: a field in quotes has no end. */
  | { readonly code: "table.unclosedQuote" }
  | { readonly code: "table.doubledRow"; readonly row: string; readonly firstRow: number }
  /** Brackets, signs or operators nested more deeply than `limit`; the rest of the statement is not read. */
  | { readonly code: "syntax.tooDeep"; readonly limit: number };
