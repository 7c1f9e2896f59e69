import type { Row, Snapshot } from "../engine/snapshot";
import { mentionsOf } from "../engine/mentions";
import { signatureOf } from "../syntax/signature";
import { domainOf } from "./describeFunction";
import { ruleText } from "./describeQuantity";
import { outcomeText } from "./outcomeText";
import { onOneLine, sourceOf, withoutComments } from "./sourceText";

/** A chapter of the handbook as its readers look things up in it. Plain data. */
export interface ChapterPage {
  readonly title: string;
  /** The first paragraph. */
  readonly purpose: string;
  /** In the order of the text. */
  readonly functions: readonly ChapterFunction[];
  readonly constants: readonly ChapterConstant[];
}

export interface ChapterFunction {
  readonly name: string;
  /** `trace_width(I, rise = 10 K, thickness = 35 µm)`. */
  readonly signature: string;
  /** What it gives, with units in words. */
  readonly purpose: string;
  readonly formula: string;
  /** The condition on the arguments under which it holds; empty where it states none. */
  readonly domain: string;
  /** The standard and clause, the textbook, or that it is common practice. */
  readonly source: string;
  /** The worked examples, as rules that hold. */
  readonly examples: readonly string[];
  /** Of the line in the chapter, from 0. */
  readonly line: number;
}

export interface ChapterConstant {
  readonly name: string;
  readonly value: string;
  readonly purpose: string;
  readonly source: string;
}

/** A chapter, taken apart. */
export function chapterPage(chapter: Snapshot): ChapterPage {
  const { rows, text } = chapter;
  return {
    title: /^# +(.*)$/m.exec(text)?.[1] ?? "",
    purpose: onOneLine(/^# .*\n+((?:\S.*\n)+)/m.exec(text)?.[1] ?? ""),
    functions: rows.flatMap((row) => functionIn(chapter, row) ?? []),
    constants: rows.flatMap((row) => constantIn(chapter, row) ?? []),
  };
}

function functionIn(chapter: Snapshot, row: Row): ChapterFunction | undefined {
  const { statement } = row;
  if (statement.kind !== "function") return undefined;
  const { tree, text, value, comment } = statement;
  const name = tree.text(statement.name);
  return {
    name,
    signature: signatureOf(statement),
    purpose: comment,
    formula: onOneLine(withoutComments(text.slice(tree.start(value), tree.end(value)))),
    domain: domainOf(statement),
    source: sourceOf(chapter, row),
    examples: chapter.rows.flatMap((each) =>
      each.statement.kind === "rule" && mentionsOf(each.statement).some((mention) => mention.name === name)
        ? [onOneLine(withoutComments(ruleText(each)))]
        : [],
    ),
    line: chapter.lines.lineAt(row.start),
  };
}

function constantIn(chapter: Snapshot, row: Row): ChapterConstant | undefined {
  const { outcome, statement } = row;
  if (outcome.kind !== "quantity" || statement.kind === "measured") return undefined;
  const { name } = outcome;
  return { name, value: outcomeText(outcome), purpose: statement.comment, source: sourceOf(chapter, row) };
}
