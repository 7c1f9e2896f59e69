import type { Row } from "../../engine/snapshot";
import { shift, type Span } from "../../text/span";
import { CHOICES } from "./choices";
import { CONDITIONS } from "./conditions";
import { FORMULAS } from "./formulas";
import { LIMITS } from "./limits";
import { OPENINGS } from "./openings";
import { PRODUCTS } from "./products";
import { REMARKS } from "./remarks";
import type { Slip } from "./slip";
import { SPREADSHEETS } from "./spreadsheets";
import { UNITS } from "./units";

/** The way out of a text that goes on as the grammar does not. */
export interface WayOut {
  /** A sentence. */
  readonly text: string;
  /** The edit that mends it, where one alone does. */
  readonly edit?: { readonly span: Span; readonly text: string };
}

/** Nobody slips in a longer statement alone, and the patterns would take their time. */
const LONGEST = 300;

/** The first that fits speaks. A remark can be anything, so it comes last, and a product of two words just before it. */
const SLIPS: readonly Slip[] = [
  ...SPREADSHEETS,
  ...CHOICES,
  ...OPENINGS,
  ...CONDITIONS,
  ...LIMITS,
  ...FORMULAS,
  ...UNITS,
  ...PRODUCTS,
  ...REMARKS,
];

/** The way out at a place of a statement. In a table it is that of the cell alone, where a remark has no place. */
export function wayOutIn({ statement, cells }: Row, at: number): WayOut | undefined {
  if (!cells) return wayOutOf(statement.text, at);
  const { lines } = cells;
  const line = lines.lineAt(at);
  const start = lines.starts[line];
  const found = wayOutOf(lines.line(line), at - start);
  if (found === undefined || found.text.includes("`#`")) return undefined;
  return found.edit ? { text: found.text, edit: { ...found.edit, span: shift(found.edit.span, start) } } : found;
}

/** The way out for a text that goes on in a place as the grammar does not; undefined where nothing tells what was meant. */
export function wayOutOf(statement: string, at: number): WayOut | undefined {
  if (statement.length > LONGEST) return undefined;
  const text = withoutComments(statement);
  const lead = text.slice(0, at);
  const rest = text.slice(at);
  for (const { behind, before, says, mends } of SLIPS) {
    const found = behind.exec(rest);
    const led = before?.exec(lead) ?? undefined;
    if (!found || (before !== undefined && !led)) continue;
    const sentence = says(found, led);
    if (sentence === undefined) continue;
    const mended = mends?.(found, led);
    if (!mended) return { text: sentence };
    const span = { start: at - (mended.back ?? 0), end: at + mended.length };
    return { text: sentence, edit: { span, text: mended.text } };
  }
  return undefined;
}

/** With blanks for comments, so that places stay where they are. */
function withoutComments(text: string): string {
  return text.replace(/#.*$/gm, (comment) => " ".repeat(comment.length));
}
