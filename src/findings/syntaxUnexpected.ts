import { wayOutIn } from "../phrases/slips/wayOut";
import { unequalLimits, unequalLimitsText } from "../phrases/unequalLimits";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Expected } from "../syntax/problem";
import type { Wording } from "./finding";
import { mending, nextLineSetIn, replaceIn, rewritings } from "./fixing";

/** `given supply 24 V`: another sign or word was expected. */
export const syntaxUnexpected: Wording<"syntax.unexpected"> = {
  severity: "error",
  reference:
    "Something stands where the grammar wants something else, or nothing stands there. The message says what is expected.",
  message: ({ expected, found, span }, { row, context }) => {
    const printed = found === "," ? unequalLimits(row, span) : undefined;
    const meant = wayOutIn(row, span.start);
    const wayOut = printed ? unequalLimitsText(printed) : meant === undefined ? "" : ` ${meant.text}`;
    if (found === "") {
      const goesOn = expected === "expression" && nextLineSetIn(row, context.snapshot).length > 0;
      const rule = goesOn ? " It goes on in the next line only if that is set in deeper." : "";
      return `The statement ends where ${EXPECTED[expected]} is expected.${wayOut}${rule}`;
    }
    if (expected === "end") return `\`${found}\` cannot follow here: the statement is complete before it.${wayOut}`;
    return `\`${found}\` stands where ${EXPECTED[expected]} is expected.${wayOut}`;
  },
  fixes: ({ expected, found, span }, { row, context }) => {
    if (found === "" && expected === "expression") return nextLineSetIn(row, context.snapshot);
    const printed = found === "," ? unequalLimits(row, span) : undefined;
    if (printed) return rewritings(printed, row);
    const { text } = row.statement;
    const edit = wayOutIn(row, span.start)?.edit;
    if (edit !== undefined || !/^[\p{L}\d_-]/u.test(found)) return mending(edit, row);
    const comma = text.slice(0, span.start).trimEnd().length;
    if (expected === ",") return [inserted(",", ",", comma, row)];
    return expected === "=" ? [inserted("=", "= ", span.start, row)] : [];
  },
};

function inserted(sign: string, text: string, at: number, row: Row): Fix {
  return { title: `Insert ${sign}`, edits: [replaceIn(row, { start: at, end: at }, text)], isPreferred: true };
}

const EXPECTED: Readonly<Record<Expected, string>> = {
  statement: "a statement, such as `x = 3 V`,",
  expression: "a value",
  name: "a name",
  number: "a number",
  unit: "a unit",
  text: "a text in quotes",
  date: "a date, such as 2026-03-14,",
  code: "the code of a finding",
  end: "the end of the statement",
  "=": "`=`",
  ",": "a comma",
  ":": "a colon",
  "(": "`(`",
  ")": "`)`",
  "[": "`[`",
  "]": "`]`",
  "%": "`%`",
  as: "`as`",
  because: "`because`",
  builds: "`builds`",
  else: "`else`",
  for: "`for`",
  in: "`in`",
  least: "`least` or `most`",
  of: "`of`",
  satisfy: "`satisfy`",
  then: "`then`",
};
