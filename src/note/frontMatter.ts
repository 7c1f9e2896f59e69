import type { Span } from "../text/span";
import { isSpace } from "./character";
import { Line, type LineReader } from "./line";

/**
 * Front matter at the start of a text: `---` on the first line to the next `---` or `...` line. Its end is that of the
 * closing line with its line break; without one the text has none, but had to be read to its end to know.
 */
export function frontMatter(reader: LineReader): { readonly span?: Span; readonly reach: number } {
  const line = new Line();
  reader.read(line, 0);
  if (!isFence(reader.text, line, "---")) return { reach: 0 };
  while (line.next < reader.text.length) {
    reader.read(line, line.next);
    if (isFence(reader.text, line, "---") || isFence(reader.text, line, "..."))
      return { span: { start: 0, end: line.next }, reach: line.next };
  }
  return { reach: reader.text.length };
}

/** A fence stands at the margin, with nothing but spaces behind. */
function isFence(text: string, line: Line, fence: string): boolean {
  if (line.end - line.start < 3 || !text.startsWith(fence, line.start)) return false;
  for (let at = line.start + 3; at < line.end; at++) if (!isSpace(text.charCodeAt(at))) return false;
  return true;
}
