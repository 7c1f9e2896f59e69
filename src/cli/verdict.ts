import { printable, wrap } from "./layout";
import { objections } from "../service";
import type { OpenNotes } from "./openNotes";
import type { Face } from "./terminal";

/** Places that are named in the last line; the entries above have them all. */
const PLACES_NAMED = 3;

/** How many rules of all notes stand how, and what follows. */
export function verdict(open: OpenNotes, face: Face): string[] {
  const { service, notes } = open;
  const sums = { fail: 0, undecided: 0, hold: 0, guesses: 0, openItems: 0 };
  for (const { path } of notes) {
    const { fail, failAtLimits, undecided, hold, guesses, openItems } = service.summary(path);
    sums.fail += fail + failAtLimits;
    sums.undecided += undecided;
    sums.hold += hold;
    sums.guesses += guesses;
    sums.openItems += openItems;
  }
  const parts = [
    some(sums.fail, "fail", "fail"),
    some(sums.undecided, "undecided", "undecided"),
    some(sums.hold, "hold", "hold"),
    some(sums.guesses, "guess", "guesses"),
    some(sums.openItems, "open item", "open items"),
  ].filter((part) => part !== "");
  const count = `${notes.length} ${notes.length === 1 ? "note" : "notes"}`;
  const lines = wrap(`${count}: ${parts.join(" · ") || "no rules"}`, face.columns, "");
  return [...lines, ...wrap(printable(consequence(open)), face.columns, "").map(face.strong)];
}

function consequence({ service, notes, troubles }: OpenNotes): string {
  const broken: string[] = [];
  const unkept: string[] = [];
  const open: string[] = [];
  let hasMust = false;
  for (const { path, shownPath } of notes) {
    const against = objections(service.record(path, "brief"));
    const place = ({ line }: { readonly line: number }) => `${shownPath}:${line}`;
    unkept.push(...against.unkept.map(place));
    broken.push(...against.errors.map(place));
    open.push(...against.open.map(place));
    hasMust ||= service.record(path, "brief").rules.some(({ word }) => word === "must");
  }
  const parts = [
    unkept.length === 0
      ? ""
      : `${unkept.length} must ${unkept.length === 1 ? "does" : "do"} not hold: ${named(unkept)}.`,
    broken.length === 0 ? "" : `${some(broken.length, "error", "errors")}: ${named(broken)}.`,
    troubles.length === 0 ? "" : "Not everything could be read.",
  ];
  const troubled = parts.filter((part) => part !== "").join(" ");
  if (troubled !== "") return troubled;
  if (open.length === 0)
    return hasMust ? "Every must holds, and no note has an error." : "There is no must, and no note has an error.";
  const count = `${open.length} must ${open.length === 1 ? "is" : "are"} still open: ${named(open)}.`;
  return `Every must that computes holds, and no note has an error. ${count}`;
}

function named(places: readonly string[]): string {
  const rest = places.length - PLACES_NAMED;
  return places.slice(0, PLACES_NAMED).join(", ") + (rest > 0 ? ` and ${rest} more` : "");
}

function some(count: number, one: string, many: string): string {
  return count === 0 ? "" : `${count} ${count === 1 ? one : many}`;
}
