/** What an opening word is for, as one line of help, and the statement to begin with. */
export interface StatementHelp {
  readonly syntax: string;
  readonly meaning: string;
  /** What completion inserts: the opening of the statement, up to where the author goes on. */
  readonly insert: string;
}

export const STATEMENT_HELP: ReadonlyMap<string, StatementHelp> = new Map([
  ["given", help('given NAME = value [each [ITEM]] [from "source"]', "fixed by the brief, or taken from a document")],
  [
    "assume",
    help('assume NAME = value [each [ITEM]] [from "source"]', "a working assumption; without `from` it is a guess"),
  ],
  [
    "over",
    help("over NAME = a .. b", "an operating condition that every build passes through; rules hold throughout it"),
  ],
  ["choose", help("choose NAME = value", "a decision without a formula")],
  [
    "measured",
    help(
      'measured NAME = value [of N] [at NAME = value] [on DATE] [from "source"] [instead]',
      "a bench result, compared with what was predicted; with `instead` it replaces an assumption",
    ),
  ],
  ["must", help("must condition [in 99 % of builds]", "a rule; where it fails, that is an error")],
  ["should", help("should condition [in 99 % of builds]", "a rule; where it fails, that is a warning")],
  ["items", help("items NAME, NAME", "things that are counted, each a unit of its own")],
  [
    "use",
    help(
      'use "other.calcs.md" as NAME',
      "the quantities of another note, as `NAME.quantity`; or a CSV file as a table, its columns as `NAME.column`",
      'use "',
    ),
  ],
  ["order", help("order NAME = value", "what must be typed into an order; also a quantity")],
  ["accept", help('accept CODE because "reason"', "a caution or a `should` taken knowingly")],
  ["let", help("let NAME in a .. b satisfy left = right", "the solution in that bracket")],
  [
    "correlation",
    help(
      "correlation A, B = r",
      "of two uncertain inputs: how far they go up and down together, from -1 to 1 (JCGM 100, 5.2). It changes uncertainty and shares; ± 1 makes one variable of two",
    ),
  ],
  ["plot", help("plot expression for NAME = a .. b", "a plot in the report; read, not drawn yet")],
  [
    "variant",
    help('variant "title": NAME = value', "the same note with other inputs; read, not computed yet", 'variant "'),
  ],
  ["fab", help('fab NAME = "fab/"', "facts read from fabrication files; read, not computed yet")],
]);

/** Words inside statements. */
export const WORD_HELP: ReadonlyMap<string, string> = new Map([
  [
    "choose",
    "`choose [at least | at most] value [from SERIES]` is a decision: before it stands what is wanted, behind it what is used.",
  ],
  ["from", "behind a value the source, in quotes; behind a choice the series or list that it is taken from."],
  ["where", "`f(x) = … where 0 V < x <= 5 V` states for which arguments a function holds."],
  ["without", "`x without LED` drops a counted unit, which never cancels by itself."],
  ["inside", "`x inside 3.2 .. 3.4 V` is true where x lies in the band."],
  ["instead", "the measurement replaces the assumption, and then has limits."],
  [
    "each",
    "behind an input: it differs from piece to piece. `another` and `total` draw it anew; the name by itself is one piece, however often it is used.",
  ],
  [
    "another",
    "`another x` is a further piece: the `each` inputs of x are drawn anew, all others are shared. The name x by itself stays the first piece.",
  ],
  [
    "readings",
    "`readings [5.007, 4.994, 5.005] V` is one thing read repeatedly: the mean, with the standard uncertainty s/√n and n − 1 degrees of freedom (JCGM 100, 4.2).",
  ],
  [
    "sample",
    "`sample [1.2, -0.8, 2.9] mV` is several pieces: what the next one will be, with the standard deviation s·√(1 + 1/n).",
  ],
  ["not", "`not (a < b)` holds where the condition in brackets does not."],
  ["if", "`if x > 10 then 2 A else 1 A` is the one or the other, by the condition."],
]);

/** Words that go on behind a value, as completion explains them. Alone they are no names and need no hover. */
export const CLAUSE_HELP: ReadonlyMap<string, string> = new Map([
  [
    "in",
    "`must x <= 4 V in 99 % of builds` is judged by the share of builds, at every operating condition (JCGM 101).",
  ],
  ["of", "`of 5`: how many pieces were measured."],
  ["at", "`at I = 20 mA`: the conditions of the measurement; the prediction is made for them."],
  ["on", "`on 2026-03-14`: the day of the measurement (ISO 8601)."],
  ["as", "`as NAME`: the name under which it is used here."],
  ["and", "both conditions hold."],
  ["or", "one of the conditions holds, or both."],
  ["then", "what it is where the condition holds."],
  ["else", "what it is otherwise; another `if` may follow."],
  ["at least", "judged against the whole range of what is wanted: the value used is not below it anywhere."],
  ["at most", "judged against the whole range of what is wanted: the value used is not above it anywhere."],
  ["least", "the value used is nowhere below what is wanted."],
  ["most", "the value used is nowhere above what is wanted."],
]);

function help(syntax: string, meaning: string, insert = `${syntax.split(" ")[0]} `): StatementHelp {
  return { syntax, meaning, insert };
}
