import { CHAPTERS, chapterPath } from "../engine/handbook";
import { nearestName } from "../engine/suggest";
import { chapterPage, type ChapterConstant, type ChapterFunction, type ChapterPage } from "../phrases/chapterPage";
import { nearMembers } from "../phrases/nearMembers";
import type { Notes } from "./feature";

/** The chapters by name, in the order of the index. */
export type Handbook = ReadonlyMap<string, ChapterPage>;

/** A function or a constant, and its chapter. */
export type HandbookMember = { readonly chapter: string } & (
  | { readonly kind: "function"; readonly entry: ChapterFunction }
  | { readonly kind: "constant"; readonly entry: ChapterConstant }
);

/** What a word means in the handbook: a chapter, what bears the name in one or more chapters, or nothing. */
export type LookUp =
  | { readonly kind: "chapter"; readonly chapter: string; readonly page: ChapterPage }
  | { readonly kind: "members"; readonly members: readonly HandbookMember[] }
  /** `near` has names that share a word with it, or else what has it in its description. */
  | { readonly kind: "unknown"; readonly suggestion?: string; readonly near: readonly string[] };

/** The chapters that are held. */
export function handbookOf(notes: Notes): Handbook {
  const pages = new Map<string, ChapterPage>();
  for (const chapter of CHAPTERS.keys()) {
    const snapshot = notes.get(chapterPath(chapter));
    if (snapshot) pages.set(chapter, chapterPage(snapshot));
  }
  return pages;
}

/** Looks a word up: `led`, `led.burden`, or `burden` in whatever chapter. */
export function lookUp(word: string, handbook: Handbook): LookUp {
  const page = handbook.get(word);
  if (page) return { kind: "chapter", chapter: word, page };
  const members = membersOf(handbook);
  const found = members.filter((member) => word === member.entry.name || word === fullName(member));
  if (found.length > 0) return { kind: "members", members: found };
  const suggestion = word.includes(".")
    ? nearestName(members.map(fullName), word)
    : nearestName([...handbook.keys(), ...new Set(members.map(({ entry }) => entry.name))], word);
  return { kind: "unknown", near: near(word, members), ...(suggestion === undefined ? {} : { suggestion }) };
}

/** Of the word's own chapter, where it names one; else of all. */
function near(word: string, members: readonly HandbookMember[]): readonly string[] {
  const dot = word.indexOf(".");
  const chapter = word.slice(0, Math.max(dot, 0));
  const home = members.filter((member) => chapter === "" || member.chapter === chapter);
  const names = nearMembers([...new Set(home.map(({ entry }) => entry.name))], word.slice(dot + 1));
  if (names.length === 0) return describedBy(word.slice(dot + 1), home);
  return names.flatMap((name) => home.filter(({ entry }) => entry.name === name).map(fullName));
}

/** What has a word in its description: `ntc` finds the thermistor. */
function describedBy(word: string, members: readonly HandbookMember[]): readonly string[] {
  const wanted = word.toLowerCase();
  const isWanted = ({ entry }: HandbookMember) =>
    entry.purpose
      .toLowerCase()
      .split(/[^\p{L}\d]+/u)
      .includes(wanted);
  return members.filter(isWanted).slice(0, MOST_DESCRIBED).map(fullName);
}

/** So many are named where a word is only in their descriptions. */
const MOST_DESCRIBED = 6;

function membersOf(handbook: Handbook): readonly HandbookMember[] {
  return [...handbook].flatMap(([chapter, { functions, constants }]) => [
    ...functions.map((entry): HandbookMember => ({ chapter, kind: "function", entry })),
    ...constants.map((entry): HandbookMember => ({ chapter, kind: "constant", entry })),
  ]);
}

function fullName({ chapter, entry }: HandbookMember): string {
  return `${chapter}.${entry.name}`;
}
