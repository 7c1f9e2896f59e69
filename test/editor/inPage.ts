/**
 * What the rig reads out of the workbench's document. These functions run inside the page: they may use nothing but their arguments and the
 * document.
 */

/** One line of the active editor as it is drawn. */
export interface DrawnLine {
  readonly line: number;
  /** The text of the document, without decorations. */
  readonly text: string;
  /** What decorations put before and after text on the line, from left to right. */
  readonly beside: readonly Attachment[];
}

/** A piece of text that a decoration attaches, with the look that the theme gives it. */
export interface Attachment {
  readonly text: string;
  readonly colour: string;
  readonly weight: string;
}

export interface Squiggle {
  readonly line: number;
  readonly severity: "error" | "warning" | "info" | "hint";
  /** From the left edge of the editor, in pixels. */
  readonly left: number;
  readonly width: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The lines on the screen, top to bottom. A wrapped line is drawn as several rows, of which only the first has a number. */
export function drawnLines(editor: string): DrawnLine[] {
  const root = document.querySelector(editor);
  if (root === null) return [];
  const numberAt = new Map<string, number>();
  for (const number of root.querySelectorAll<HTMLElement>(".margin-view-overlays .line-numbers")) {
    if (number.textContent !== "") numberAt.set(number.parentElement!.style.top, Number(number.textContent));
  }
  const rows = [...root.querySelectorAll<HTMLElement>(".view-lines > .view-line")];
  rows.sort((a, b) => parseFloat(a.style.top) - parseFloat(b.style.top));
  const lines: { line: number; text: string; beside: Attachment[] }[] = [];
  for (const row of rows) {
    const number = numberAt.get(row.style.top);
    if (number !== undefined) lines.push({ line: number, text: "", beside: [] });
    const current = lines.at(-1);
    if (current === undefined) continue;
    current.text += (row.textContent ?? "").replace(/\u00a0/g, " ").replace(/\u200b/g, "");
    for (const element of row.querySelectorAll("[class*='TextEditorDecorationType']")) {
      for (const pseudo of ["::before", "::after"]) {
        const style = getComputedStyle(element, pseudo);
        if (!style.content.startsWith('"')) continue;
        const text = style.content
          .slice(1, -1)
          .replace(/\\(.)/g, "$1")
          .replace(/\u00a0/g, " ");
        current.beside.push({ text, colour: style.color, weight: style.fontWeight });
      }
    }
  }
  return lines;
}

/** Pastes a text where the caret is. */
export function paste(text: string): void {
  const clipboardData = new DataTransfer();
  clipboardData.setData("text/plain", text);
  document.activeElement?.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true }));
}

/** The middle of a piece of text on the screen, within one row; undefined where it is not drawn. */
export function middleOf([editor, text, line]: [string, string, number | undefined]): Point | undefined {
  const root = document.querySelector(editor);
  if (root === null) return undefined;
  const numberAt = new Map<string, number>();
  for (const number of root.querySelectorAll<HTMLElement>(".margin-view-overlays .line-numbers")) {
    if (number.textContent !== "") numberAt.set(number.parentElement!.style.top, Number(number.textContent));
  }
  const rows = [...root.querySelectorAll<HTMLElement>(".view-lines > .view-line")];
  rows.sort((a, b) => parseFloat(a.style.top) - parseFloat(b.style.top));
  let current: number | undefined;
  for (const drawn of rows) {
    current = numberAt.get(drawn.style.top) ?? current;
    if (line !== undefined && current !== line) continue;
    const nodes: Text[] = [];
    let whole = "";
    const walker = document.createTreeWalker(drawn, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      nodes.push(node as Text);
      whole += (node as Text).data;
    }
    const start = whole.replace(/\u00a0/g, " ").indexOf(text);
    if (start < 0) continue;
    // The text may run over several tokens, hence over several nodes.
    const range = document.createRange();
    let before = 0;
    for (const node of nodes) {
      const end = before + node.data.length;
      if (before <= start && start < end) range.setStart(node, start - before);
      if (before < start + text.length && start + text.length <= end) range.setEnd(node, start + text.length - before);
      before = end;
    }
    const box = range.getBoundingClientRect();
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  }
  return undefined;
}

/** The underlines of problems on the screen. */
export function squiggles(editor: string): Squiggle[] {
  const root = document.querySelector(editor);
  if (root === null) return [];
  const numbered: { top: number; line: number }[] = [];
  for (const number of root.querySelectorAll(".margin-view-overlays .line-numbers")) {
    if (number.textContent === "") continue;
    numbered.push({ top: number.getBoundingClientRect().top, line: Number(number.textContent) });
  }
  numbered.sort((a, b) => b.top - a.top);
  const edge = root.querySelector(".view-lines")!.getBoundingClientRect().left;
  const found: Squiggle[] = [];
  for (const element of root.querySelectorAll(".view-overlays [class*='squiggly-']")) {
    const top = element.parentElement!.getBoundingClientRect().top;
    // The number that stands level with it or, where the line is wrapped, next above it.
    const line = numbered.find((one) => one.top <= top + 1)?.line;
    const severity = /squiggly-(error|warning|info|hint)/.exec(element.className)?.[1] as
      Squiggle["severity"] | undefined;
    if (line === undefined || severity === undefined) continue;
    const box = element.getBoundingClientRect();
    found.push({ line, severity, left: box.left - edge, width: box.width });
  }
  return found.sort((a, b) => a.line - b.line || a.left - b.left);
}
