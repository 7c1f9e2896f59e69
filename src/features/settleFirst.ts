import type { Influence, OpenGuess } from "../engine/influence";
import type { Row, Snapshot } from "../engine/snapshot";
import { conditionText } from "../phrases/condition";
import { settlingText } from "../phrases/settling";
import { valueText } from "../phrases/value";
import type { GuessToSettle } from "./feature";

/** A statement where it stands. */
export interface Placed {
  readonly snapshot: Snapshot;
  readonly row: Row;
}

/** The guesses that are still open, those that move a `must` most first, as plain data. */
export function settleFirst(
  guesses: readonly OpenGuess[],
  placeOf: (entry: OpenGuess["guess"]) => Placed | undefined,
): readonly GuessToSettle[] {
  return guesses.flatMap(({ guess, hasLimits, most }): GuessToSettle[] => {
    const at = placeOf(guess);
    if (at?.row.outcome.kind !== "quantity") return [];
    const must = most && mustOf(most, placeOf(most.rule));
    const { outcome } = at.row;
    return [
      {
        ...lineOf(at),
        name: outcome.name,
        shown: valueText(outcome),
        hasLimits,
        ...(must ? { must } : {}),
        reason: settlingText(hasLimits ? "with limits" : outcome.point ? "as a point" : "as a number", must),
      },
    ];
  });
}

function mustOf({ share, isShort }: Influence, rule: Placed | undefined): GuessToSettle["must"] {
  if (rule?.row.statement.kind !== "rule") return undefined;
  const bounded = Number.isFinite(share) ? { share } : {};
  return { ...lineOf(rule), condition: conditionText(rule.row.statement), ...bounded, isShort };
}

function lineOf({ snapshot, row }: Placed): { readonly path: string; readonly line: number } {
  return { path: snapshot.path, line: snapshot.lines.lineAt(row.start) + 1 };
}
