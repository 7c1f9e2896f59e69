import { Character, skipRun } from "./character";
import { HTML_TAG } from "./htmlTag";
import { destinationEnd, isAcceptedDestination, titleClose, titleCloser } from "./link";

/** A code span in inline text: where its content lies, and the content with line breaks as spaces. */
export interface InlineCode {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * The code spans of inline text whose lines end in LF (CommonMark 6.1). Backslash escapes, tags, autolinks and what
 * stands in the parentheses of a link bind as tightly and are stepped over. Links by reference are not followed, since
 * their definitions may stand anywhere in the note: a backtick in such a link's label opens a code span here.
 */
export function codeSpansIn(text: string): readonly InlineCode[] {
  return new InlineScanner(text).scan();
}

const TAG = new RegExp(HTML_TAG, "y");
// Neither blanks nor control characters nor angle brackets may stand in an address.
// eslint-disable-next-line no-control-regex
const ADDRESS = /^[a-zA-Z][a-zA-Z0-9+.-]{1,31}:[^<>\x01-\x20]*$/;
const MAIL_NAME = "[a-zA-Z0-9.!#$%&'*+/=?^_`{|}~-]+";
const MAIL_LABEL = "[a-zA-Z0-9](?:[a-zA-Z0-9-]{0,61}[a-zA-Z0-9])?";
const MAIL = new RegExp(`^${MAIL_NAME}@${MAIL_LABEL}(?:\\.${MAIL_LABEL})*$`);

class InlineScanner {
  private readonly found: InlineCode[] = [];
  private at = 0;
  /** Where the last run of so many backticks begins: no opener behind it can be closed. */
  private readonly lastRuns = new Map<number, number>();
  /** The open brackets, true for those of an image. */
  private brackets: boolean[] = [];
  private openTagsHidden = false;

  constructor(private readonly text: string) {}

  scan(): readonly InlineCode[] {
    const text = this.text;
    for (let at = text.indexOf("`"); at >= 0;) {
      const end = skipRun(text, at, text.length, Character.Backtick);
      this.lastRuns.set(end - at, at);
      at = text.indexOf("`", end);
    }
    while (this.at < text.length) {
      if (isPlain(text.charCodeAt(this.at))) this.at++;
      else this.step();
    }
    return this.found;
  }

  private step(): void {
    const at = this.at;
    switch (this.text.charCodeAt(at)) {
      case Character.Backslash:
        this.at += 2;
        return;
      case Character.Backtick:
        return this.backticks();
      case Character.LessThan:
        this.at = this.angleEnd();
        return;
      case Character.ExclamationMark:
        this.at++;
        if (this.text.charCodeAt(this.at) === Character.LeftBracket) this.open(true);
        return;
      case Character.LeftBracket:
        return this.open(false);
      case Character.RightBracket:
        return this.closeBracket();
      default:
        this.at++;
    }
  }

  private backticks(): void {
    const text = this.text;
    const start = skipRun(text, this.at, text.length, Character.Backtick);
    const length = start - this.at;
    this.at = start;
    if ((this.lastRuns.get(length) ?? -1) < start) return;
    for (let end = start; ;) {
      const close = text.indexOf("`", end);
      end = skipRun(text, close, text.length, Character.Backtick);
      if (end - close !== length) continue;
      this.found.push(codeBetween(text, start, close));
      this.at = end;
      return;
    }
  }

  private open(isImage: boolean): void {
    this.brackets.push(isImage);
    this.at++;
  }

  private closeBracket(): void {
    this.at++;
    const isImage = this.brackets.pop();
    if (isImage === undefined || this.text.charCodeAt(this.at) !== Character.LeftParenthesis) return;
    const end = linkTailEnd(this.text, this.at + 1);
    if (end < 0) return;
    this.at = end;
    // A link holds no other link, so the brackets around it open none.
    if (!isImage) this.brackets = this.brackets.filter((outer) => outer);
  }

  /** The offset behind the autolink, tag, comment or the like that begins here, or behind the `<`. */
  private angleEnd(): number {
    const { text, at } = this;
    const close = autolinkEnd(text, at);
    if (close > 0) return close;
    if (text[at + 1] === "!" || text[at + 1] === "?") return this.declarationEnd();
    TAG.lastIndex = at;
    return TAG.test(text) ? TAG.lastIndex : at + 1;
  }

  private declarationEnd(): number {
    const { text, at } = this;
    if (text.startsWith("<!-->", at)) return at + 5;
    if (text.startsWith("<!--->", at)) return at + 6;
    const [opener, closer] = DECLARATIONS.find(([opener]) => opener.test(text.slice(at, at + 9))) ?? [];
    if (opener === undefined || closer === undefined || this.openTagsHidden) return at + 1;
    const end = text.indexOf(closer, at + (opener.exec(text.slice(at, at + 9))?.[0].length ?? 0));
    // As markdown-it does, stop looking after the first that is not closed: so the time stays linear.
    if (end < 0) this.openTagsHidden = true;
    return end < 0 ? at + 1 : end + closer.length;
  }
}

const DECLARATIONS: readonly (readonly [RegExp, string])[] = [
  [/^<!--/, "-->"],
  [/^<!\[CDATA\[/, "]]>"],
  [/^<\?/, "?>"],
  [/^<![a-zA-Z]/, ">"],
];

function codeBetween(text: string, start: number, end: number): InlineCode {
  const content = text.slice(start, end).replaceAll("\n", " ");
  const strips = content.startsWith(" ") && content.endsWith(" ") && /[^ ]/.test(content);
  return strips ? { start: start + 1, end: end - 1, text: content.slice(1, -1) } : { start, end, text: content };
}

function autolinkEnd(text: string, start: number): number {
  let at = start + 1;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === Character.LessThan || (code <= Character.Space && code !== 0)) return -1;
    if (code === Character.GreaterThan) break;
  }
  if (at >= text.length) return -1;
  const address = text.slice(start + 1, at);
  return (ADDRESS.test(address) && isAcceptedDestination(address)) || MAIL.test(address) ? at + 1 : -1;
}

/** Whether a character cannot begin anything here; most are settled by the first comparison. */
function isPlain(code: number): boolean {
  if (code > Character.RightBracket) return code !== Character.Backtick;
  return code < Character.LeftBracket && code !== Character.LessThan && code !== Character.ExclamationMark;
}

/** The offset behind `destination "title")`, or -1 (CommonMark 6.3). */
function linkTailEnd(text: string, start: number): number {
  let at = skipWhitespace(text, start);
  const destination = destinationEnd(text, at, text.length);
  if (destination >= 0) {
    if (isAcceptedDestination(text.slice(at, destination))) at = destination;
    const titleStart = skipWhitespace(text, at);
    const closer = titleStart > at ? titleCloser(text.charCodeAt(titleStart)) : 0;
    at = titleStart;
    if (closer !== 0) {
      const close = titleClose(text, titleStart + 1, text.length, closer);
      if (close < 0 || close >= text.length) return -1;
      at = skipWhitespace(text, close + 1);
    }
  }
  return text.charCodeAt(at) === Character.RightParenthesis ? at + 1 : -1;
}

function skipWhitespace(text: string, at: number): number {
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code !== Character.Space && code !== Character.Tab && code !== Character.LineFeed) break;
  }
  return at;
}
