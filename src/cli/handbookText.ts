import type { ChapterPage, HandbookMember } from "../service";
import { columnsOf, wrap } from "./layout";
import type { Face } from "./terminal";

const INDENT = "  ";
/** Room for the words before what is said of a function. */
const LABEL_COLUMNS = 10;

/** The chapters, and what each is about. */
export function indexText(chapters: ReadonlyMap<string, string>, face: Face): string {
  const room = Math.max(...[...chapters.keys()].map(columnsOf));
  const entries = [...chapters].flatMap(([name, about]) => {
    const [first, ...others] = wrap(about, face.columns, " ".repeat(INDENT.length + room + 2));
    return [INDENT + name.padEnd(room) + first.slice(INDENT.length + room), ...others];
  });
  const [opening, closing] = [
    "Formulas of the trade with their sources. A note calls them as CHAPTER.FUNCTION(…).",
    "copperbook handbook CHAPTER lists a chapter; copperbook handbook FUNCTION has its formula and source.",
  ];
  return lines([...wrap(opening, face.columns, ""), "", ...entries, "", ...wrap(closing, face.columns, "")]);
}

/** What a chapter is for, and its functions and constants. */
export function chapterText(
  chapter: string,
  { title, purpose, functions, constants }: ChapterPage,
  face: Face,
): string {
  const members = [
    ...functions.map(({ signature, purpose }) => ({ head: `${chapter}.${signature}`, purpose })),
    ...constants.map(({ name, value, purpose }) => ({ head: `${chapter}.${name} = ${value}`, purpose })),
  ];
  return lines([
    face.strong(title),
    "",
    ...wrap(withoutEmphasis(purpose), face.columns, ""),
    ...members.flatMap(({ head, purpose }) => [
      "",
      ...wrap(head, face.columns, INDENT),
      ...(purpose === "" ? [] : wrap(purpose, face.columns, INDENT.repeat(3))),
    ]),
  ]);
}

/** A function with its formula, where it holds, its source and worked examples; or a constant with its value and source. */
export function memberText({ chapter, ...member }: HandbookMember, face: Face): string {
  const { entry } = member;
  const said: readonly (readonly [label: string, texts: readonly string[]])[] =
    member.kind === "function"
      ? [
          ["gives", [withoutEmphasis(entry.purpose)]],
          ["formula", [member.entry.formula]],
          ["holds", member.entry.domain === "" ? [] : [`where ${member.entry.domain}`]],
          ["source", [withoutEmphasis(entry.source)]],
          ["example", member.entry.examples],
        ]
      : [
          ["value", [member.entry.value]],
          ["is", [withoutEmphasis(entry.purpose)]],
          ["source", [withoutEmphasis(entry.source)]],
        ];
  const head = member.kind === "function" ? member.entry.signature : entry.name;
  return lines([face.strong(`${chapter}.${head}`), ...said.flatMap(([label, texts]) => labelled(label, texts, face))]);
}

/** Texts behind a word that is written once. */
function labelled(label: string, texts: readonly string[], face: Face): string[] {
  const indent = " ".repeat(INDENT.length + LABEL_COLUMNS);
  const wrapped = texts.filter((text) => text !== "").flatMap((text) => wrap(text, face.columns, indent));
  return wrapped.map((line, i) => (i === 0 ? INDENT + label.padEnd(LABEL_COLUMNS) + line.slice(indent.length) : line));
}

/** Prose without the asterisks of Markdown: `*common practice*`. */
function withoutEmphasis(text: string): string {
  return text.replace(/(?<![\w*])\*([^*\s](?:[^*]*[^*\s])?)\*(?![\w*])/g, "$1");
}

function lines(all: readonly string[]): string {
  return `${all.join("\n")}\n`;
}
