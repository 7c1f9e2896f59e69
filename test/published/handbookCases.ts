import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { CHAPTERS } from "../../src/engine/handbook";
import { writtenChapters } from "../handbook/chapters";
import { functionsOf as readFunctionsOf } from "../handbook/openChapter";

/** A published value of a function of the handbook. */
export interface HandbookCase {
  /** As a note calls it: `copper.trace_width(1 A, 10 K, 35 µm)`. */
  readonly call: string;
  /** As a note writes it: `0.30 mm`. */
  readonly expected: string;
  /** `1 %`, or in the unit of the value. */
  readonly tolerance: string;
  /** Standard and clause, or textbook. */
  readonly source: string;
  /** The figure was not read in its source. */
  readonly fromMemory: boolean;
}

export interface PublishedChapter {
  readonly chapter: string;
  readonly cases: readonly HandbookCase[];
}

const FOLDER = join(__dirname, "handbook");

const functions = new Map<string, readonly string[]>();

/** The functions that a chapter defines; it is read once. */
function functionsOf(chapter: string): readonly string[] {
  const known = functions.get(chapter) ?? readFunctionsOf(chapter);
  functions.set(chapter, known);
  return known;
}

/** The published values by chapter, in the order of the files. */
export function publishedChapters(): readonly PublishedChapter[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .map((file) => JSON.parse(readFileSync(join(FOLDER, file), "utf8")) as PublishedChapter);
}

/** The functions of a chapter that no published value checks. */
export function uncheckedFunctions(chapter: string): readonly string[] {
  const calls = publishedChapters().flatMap(({ cases }) => cases.map(({ call }) => call));
  return functionsOf(chapter).filter((name) => !calls.some((call) => isCallOf(call, chapter, name)));
}

/** For each chapter a heading and a table: what checks which of its functions. */
export function coverageTables(): string {
  const written = new Set(writtenChapters());
  const published = new Map(publishedChapters().map(({ chapter, cases }) => [chapter, cases]));
  const tables = [...CHAPTERS.keys()]
    .filter((chapter) => written.has(chapter))
    .map((chapter) => `### \`${chapter}\`\n\n${coverageOf(chapter, published.get(chapter) ?? [])}\n`);
  return tables.join("\n");
}

function coverageOf(chapter: string, cases: readonly HandbookCase[]): string {
  const bySource = new Map<string, Set<string>>();
  for (const { call, source, fromMemory } of cases) {
    const key = source.replace(/\.$/, "") + (fromMemory ? " (from memory)" : "");
    const names = bySource.get(key) ?? new Set();
    bySource.set(key, names);
    for (const name of functionsOf(chapter)) if (isCallOf(call, chapter, name)) names.add(name);
  }
  const rows = [...bySource]
    .filter(([, names]) => names.size > 0)
    .map(
      ([source, names]) =>
        `| ${source.replaceAll("|", "\\|")} | ${[...names].map((name) => `\`${name}\``).join(" ")} |`,
    );
  return ["| checked by | functions |", "| --- | --- |", ...rows].join("\n");
}

function isCallOf(call: string, chapter: string, name: string): boolean {
  return call.includes(`${chapter}.${name}(`);
}
