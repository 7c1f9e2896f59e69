import type { Page } from "playwright-core";

/** The contrast of a colour with the editor's ground, after WCAG 2.1: from 1 to 21. */
export async function contrastWithGround(page: Page, colour: string): Promise<number> {
  const ground = await page.evaluate(() => {
    const editor = document.querySelector(".editor-group-container.active .monaco-editor-background")!;
    return getComputedStyle(editor).backgroundColor;
  });
  const [a, b] = [luminance(colour), luminance(ground)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

/** Relative luminance of an opaque `rgb(…)`. */
function luminance(colour: string): number {
  const [red, green, blue] = colour.match(/[\d.]+/g)!.map((part) => {
    const share = Number(part) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
