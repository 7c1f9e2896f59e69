/** The caret and the values around it, as they are drawn from frame to frame. */
import type { Page } from "playwright-core";

const EDITOR = ".editor-group-container.active .editor-container .monaco-editor";

/** Where the caret is drawn: its column, counted from 0 in widths of a letter. */
export async function cursor(page: Page): Promise<{ readonly column: number; readonly top: number }> {
  return page.evaluate((editor) => {
    const root = document.querySelector(editor)!;
    const caret = root.querySelector<HTMLElement>(".cursors-layer .cursor")!;
    const probe = root.querySelector(".view-lines")!.appendChild(document.createElement("span"));
    probe.textContent = "0".repeat(100);
    const letter = probe.getBoundingClientRect().width / 100;
    probe.remove();
    return { column: Math.round(parseFloat(caret.style.left) / letter), top: parseFloat(caret.style.top) };
  }, EDITOR);
}

/** How far the text is scrolled to the left, in pixels. */
export async function scrolledBy(page: Page): Promise<number> {
  return page.evaluate((editor) => {
    const lines = document.querySelector<HTMLElement>(`${editor} .lines-content`)!;
    return Math.abs(parseFloat(lines.style.left || "0"));
  }, EDITOR);
}

export interface WatchedLine {
  /** The longest time in ms for which a text stood with the value of another; `fresh` says which value belongs to which text. */
  longestStale(fresh: Readonly<Record<string, string>>): Promise<number>;
}

/** Notes from now on, frame by frame, what stands on the line that begins so and what beside it. */
export async function watchLine(page: Page, start: string): Promise<WatchedLine> {
  await page.evaluate(
    ([editor, start]) => {
      const frames: [number, string, string][] = [];
      (globalThis as unknown as { frames: unknown }).frames = frames;
      const look = (): void => {
        const rows = [...document.querySelectorAll(`${editor} .view-lines > .view-line`)];
        const row = rows.find((one) =>
          one.textContent
            .replace(/\u00a0/g, " ")
            .trim()
            .startsWith(start),
        );
        if (row) {
          const text = row.textContent.replace(/\u00a0/g, " ").trim();
          const mark = row.querySelector("[class*='TextEditorDecorationType']");
          const content = mark ? getComputedStyle(mark, "::after").content : "";
          frames.push([performance.now(), text, content.startsWith('"') ? content.slice(1, -1) : ""]);
        }
        requestAnimationFrame(look);
      };
      look();
    },
    [EDITOR, start] as const,
  );
  return {
    async longestStale(fresh) {
      const frames = await page.evaluate(
        () => (globalThis as unknown as { frames: [number, string, string][] }).frames,
      );
      let longest = 0;
      let since: number | undefined;
      for (const [at, text, beside] of frames) {
        const isOld = Object.entries(fresh).some(([of, value]) => beside === value && text !== of);
        since = isOld ? (since ?? at) : undefined;
        if (since !== undefined) longest = Math.max(longest, at - since);
      }
      return longest;
    },
  };
}
