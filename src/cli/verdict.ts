import { printable, wrap } from "./layout";
import { objections, type Service } from "../service";
import type { NoteFile } from "./noteFiles";
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

function consequence({ service, notes, used, troubles }: OpenNotes): string {
  const { broken, unkept, open, hasMust } = against(service, notes);
  const parts = [...blocking(unkept, broken), troubles.length === 0 ? "" : "Not everything could be read."];
  const troubled = parts.filter(isSaid).join(" ");
  const behind = against(service, used);
  const below = blocking(behind.unkept, behind.broken).filter(isSaid).join(" ");
  const ofUsed = below === "" ? "" : `${notes.length === 1 ? "In what it uses" : "In what they use"}: ${below}`;
  if (troubled !== "") return [troubled, ofUsed].filter(isSaid).join(" ");
  if (open.length === 0) {
    const here = ofUsed === "" ? "Every must holds" : "Every must that is written here holds";
    const good = hasMust ? `${here}, and no note has an error.` : "There is no must, and no note has an error.";
    return [good, ofUsed].filter(isSaid).join(" ");
  }
  const count = `${open.length} must ${open.length === 1 ? "is" : "are"} still open: ${named(open)}.`;
  return [`Every must that computes holds, and no note has an error. ${count}`, ofUsed].filter(isSaid).join(" ");
}

/** What speaks against notes, as places. */
function against(service: Service, notes: readonly NoteFile[]) {
  const broken: string[] = [];
  const unkept: string[] = [];
  const open: string[] = [];
  let hasMust = false;
  for (const { path, shownPath } of notes) {
    const record = service.record(path, "brief");
    const found = objections(record);
    const place = ({ line }: { readonly line: number }) => `${shownPath}:${line}`;
    unkept.push(...found.unkept.map(place));
    broken.push(...found.errors.map(place));
    open.push(...found.open.map(place));
    hasMust ||= record.rules.some(({ word }) => word === "must");
  }
  return { broken, unkept, open, hasMust };
}

function blocking(unkept: readonly string[], broken: readonly string[]): readonly string[] {
  return [
    unkept.length === 0
      ? ""
      : `${unkept.length} must ${unkept.length === 1 ? "does" : "do"} not hold: ${named(unkept)}.`,
    broken.length === 0 ? "" : `${some(broken.length, "error", "errors")}: ${named(broken)}.`,
  ];
}

function isSaid(text: string): boolean {
  return text !== "";
}

/** Each line once, however much is wrong in it. */
function named(all: readonly string[]): string {
  const places = [...new Set(all)];
  const rest = places.length - PLACES_NAMED;
  return places.slice(0, PLACES_NAMED).join(", ") + (rest > 0 ? ` and ${rest} more` : "");
}

function some(count: number, one: string, many: string): string {
  return count === 0 ? "" : `${count} ${count === 1 ? one : many}`;
}
