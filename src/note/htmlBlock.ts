import { HTML_TAG } from "./htmlTag";

/** One of the seven kinds of HTML block (CommonMark 4.6). */
export interface HtmlBlockKind {
  readonly opens: RegExp;
  /** What ends the block, on the line it stands on; without it a blank line does. */
  readonly closes?: RegExp;
  readonly mayInterruptParagraph: boolean;
}

/** The kind of HTML block that a line, without its indentation, begins. */
export function htmlBlockKind(line: string): HtmlBlockKind | undefined {
  return KINDS.find((kind) => kind.opens.test(line));
}

const BLOCK_NAMES =
  "address article aside base basefont blockquote body caption center col colgroup dd details dialog dir div dl dt " +
  "fieldset figcaption figure footer form frame frameset h1 h2 h3 h4 h5 h6 head header hr html iframe legend li link " +
  "main menu menuitem nav noframes ol optgroup option p param search section summary table tbody td tfoot th thead " +
  "title tr track ul";

const KINDS: readonly HtmlBlockKind[] = [
  {
    opens: /^<(?:script|pre|style|textarea)(?=\s|>|$)/i,
    closes: /<\/(?:script|pre|style|textarea)>/i,
    mayInterruptParagraph: true,
  },
  { opens: /^<!--/, closes: /-->/, mayInterruptParagraph: true },
  { opens: /^<\?/, closes: /\?>/, mayInterruptParagraph: true },
  { opens: /^<![A-Za-z]/, closes: />/, mayInterruptParagraph: true },
  { opens: /^<!\[CDATA\[/, closes: /\]\]>/, mayInterruptParagraph: true },
  { opens: new RegExp(`^</?(?:${BLOCK_NAMES.replaceAll(" ", "|")})(?=\\s|/?>|$)`, "i"), mayInterruptParagraph: true },
  { opens: new RegExp(`^(?:${HTML_TAG})\\s*$`), mayInterruptParagraph: false },
];
