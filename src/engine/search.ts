import { coneOfSlot, type ConeSource } from "./cone";
import type { Entry } from "./entry";
import { Standing } from "./tape";
import { trueRange, trueRangeOfCone, type TrueRange } from "./trueRange";

/**
 * Tape operations that a search may spend on an end while somebody types. They are counted, never timed, so that the same
 * note gives the same figures anywhere; a definition takes a few tenths of a millisecond at most, a rule one or two.
 */
const BUDGET_OF_DEFINITION = 6_000;
const BUDGET_OF_RULE = 40_000;
/** What rests on more operations than this, counted along every path, is left enclosed: copying it alone would be felt. */
const LARGEST_CONE = 2_000;
/** A longer list is left as stage A has it. */
const MOST_RESULTS = 12;

/** An upper bound of the operations that an entry rests on, its own included; shared ones are counted for every path. */
export function coneSizeOf(entry: Entry): number {
  let size = entry.code.length;
  for (const dependency of entry.dependencies) size += dependency.coneSize;
  return Math.min(size, LARGEST_CONE + 1);
}

/**
 * Searches the results of an entry whose range stage A left enclosed, or could not give: for each such result what was
 * found. Undefined where there is nothing to search. What is found depends on what the entry rests on and on nothing else.
 */
export function searchRanges(source: ConeSource, entry: Entry): readonly (TrueRange | undefined)[] | undefined {
  const { results, coneSize, type, statement } = entry;
  const isSearched = type.kind === "quantity" || type.kind === "rule";
  if (!isSearched || coneSize > LARGEST_CONE || results.length > MOST_RESULTS) return undefined;
  const budget = statement.kind === "rule" ? BUDGET_OF_RULE : BUDGET_OF_DEFINITION;
  let found: (TrueRange | undefined)[] | undefined;
  for (let i = 0; i < results.length; i++) {
    if (!isOpen(source, results.from + i)) continue;
    found ??= [];
    found[i] = trueRange(source, entry, i, { budget });
  }
  return found;
}

/** Searches a slot that an entry reads or writes and whose range stage A left enclosed; undefined where that costs too much. */
export function searchSlot(source: ConeSource, entry: Entry, slot: number): TrueRange | undefined {
  if (entry.coneSize > LARGEST_CONE) return undefined;
  return trueRangeOfCone(coneOfSlot(source, entry, slot), { budget: BUDGET_OF_DEFINITION });
}

/** It has a value, and a range that is not known to be the true one. */
function isOpen({ slots }: ConeSource, slot: number): boolean {
  if (Number.isNaN(slots.nominal[slot])) return false;
  return slots.standing[slot] === Standing.Enclosed || slots.standing[slot] === Standing.Undefined;
}
