import type { LostOperand, Place } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { isName } from "../syntax/name";
import { lineText } from "./place";
import { operandText, shortened, valueOfName, type Scope } from "./side";

/** Where a value, or a range, was lost. */
export interface Loss {
  readonly text: string;
  readonly reason: string;
  readonly operands: readonly LostOperand[];
  readonly within?: Place;
}

/** Where and why a value was lost: `` `a / b` divides by zero (a = 3 V, b = 0 Ω) ``. */
export function lostText({ text, reason, operands, within }: Loss, row: Row, scope: Scope): string {
  const values = within ? [] : operands.filter((operand) => isName(operand.text) && valueOfName(operand.text, scope));
  const shown = values.map((operand) => operandText(operand.text, operand.text, row, scope));
  const where = within ? ` ${lineText(within, scope)}` : "";
  return `\`${shortened(text)}\` ${reason}${shown.length > 0 ? ` (${shown.join(", ")})` : ""}${where}`;
}
