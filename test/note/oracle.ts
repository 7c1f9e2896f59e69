import MarkdownIt, { type Token } from "markdown-it";

/** What markdown-it sees of a note, in lines from 0. */
export interface Oracle {
  /** The non-blank lines of its top-level indented code blocks. */
  readonly calculationLines: readonly number[];
  readonly headings: readonly { readonly line: number; readonly level: number; readonly text: string }[];
  readonly tables: readonly { readonly line: number; readonly lineAfter: number }[];
  readonly tasks: readonly { readonly line: number; readonly checked: boolean; readonly text: string }[];
  readonly codeSpans: readonly string[];
}

/** CommonMark with tables. The limit of nesting is lifted: it guards a recursion that the scanner does not have. */
const markdown = new MarkdownIt("commonmark", { maxNesting: 1000 }).enable("table");
markdown.core.ruler.disable("strip_references");

export function consult(text: string): Oracle {
  const tokens = markdown.parse(text, {});
  const lines = linesOf(text);
  const topLevel = tokens.filter((token) => token.level === 0);
  return {
    calculationLines: topLevel
      .filter((token) => token.type === "code_block")
      .flatMap(({ map }) => range(map![0], map![1]).filter((line) => !/^[ \t]*$/.test(lines[line]))),
    headings: tokens.flatMap((token, index) =>
      token.type === "heading_open" && token.level === 0
        ? [{ line: token.map![0], level: Number(token.tag[1]), text: tokens[index + 1].content }]
        : [],
    ),
    tables: topLevel
      .filter((token) => token.type === "table_open")
      .map(({ map }) => ({ line: map![0], lineAfter: map![1] })),
    tasks: tokens.flatMap((token, index) => taskAt(tokens, token, index)),
    codeSpans: tokens.flatMap((token) => (token.type === "inline" ? codeIn(token.children ?? []) : [])),
  };
}

/** The lines of a text without their breaks: LF, CRLF and a lone CR end a line. */
export function linesOf(text: string): string[] {
  return text.split(/\r\n|\n|\r/);
}

function taskAt(tokens: readonly Token[], token: Token, index: number) {
  if (token.type !== "list_item_open" || tokens[index + 1]?.type !== "paragraph_open") return [];
  const { content, map } = tokens[index + 2];
  // Behind tabs in nested quotes markdown-it leaves the list marker in the paragraph's text, on the line of the box.
  const box = /^(?:(?:[-+*]|\d{1,9}[.)])[ \t]+)?\[([ \txX])\]\s+(?=\S)/.exec(content);
  return box === null ? [] : [{ line: map![0], checked: /x/i.test(box[1]), text: content.slice(box[0].length) }];
}

function codeIn(children: readonly Token[]): string[] {
  return children.flatMap((child) =>
    child.type === "code_inline" ? [child.content] : child.type === "image" ? codeIn(child.children ?? []) : [],
  );
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, index) => from + index);
}
