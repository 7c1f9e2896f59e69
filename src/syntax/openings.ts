import { correlation, items, letStatement } from "./relations";
import type { Cursor } from "./cursor";
import { choice } from "./definition";
import { input, condition, order } from "./input";
import { measurement } from "./measurement";
import { accept, fab, plot, use, variant } from "./directives";
import { rule } from "./rule";
import type { Statement } from "./statement";

/** The statements by their opening words. Each is read from that word. */
export const STATEMENTS: ReadonlyMap<string, (at: Cursor) => Statement> = new Map([
  ["accept", accept],
  ["assume", (at: Cursor) => input(at, "assume")],
  ["choose", choice],
  ["correlation", correlation],
  ["fab", fab],
  ["given", (at: Cursor) => input(at, "given")],
  ["items", items],
  ["let", letStatement],
  ["measured", measurement],
  ["must", (at: Cursor) => rule(at, "must")],
  ["order", order],
  ["over", condition],
  ["plot", plot],
  ["should", (at: Cursor) => rule(at, "should")],
  ["use", use],
  ["variant", variant],
]);
