import { Service, type Settings } from "../../src/service";
import type { Library } from "../../src/engine/library";
import { readChapter } from "../handbook/chapters";

export const SETTINGS: Settings = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

/** A note for a test: its calculations at the margin, where the test reads best, set in by four columns. */
export function note(lines: string): string {
  return lines.replace(/^(?=.)/gm, "    ");
}

/** A service that holds the notes given by path, all of them open. */
export function holding(texts: Readonly<Record<string, string>>): Service {
  const service = new Service(libraryOf({}), SETTINGS);
  for (const [path, text] of Object.entries(texts)) service.open(path, text);
  return service;
}

/** A service with one note open, which may use those of a library. */
export async function loaded(path: string, text: string, others: Readonly<Record<string, string>>): Promise<Service> {
  const service = new Service(libraryOf(others), SETTINGS);
  service.open(path, text);
  await service.load();
  return service;
}

export function libraryOf(texts: Readonly<Record<string, string>>): Library {
  return {
    read: (path) => {
      if (Object.hasOwn(texts, path)) return Promise.resolve({ text: texts[path] });
      return Promise.resolve(readChapter(path) ?? { trouble: "missing", detail: "no such file" });
    },
  };
}

/** A text with a place in it, marked by `¦`: the text without the mark, and the offset where it stood. */
export function marked(text: string): { text: string; offset: number } {
  const offset = text.indexOf("¦");
  if (offset < 0) throw new Error("The text has no mark.");
  return { text: text.replace("¦", ""), offset };
}
