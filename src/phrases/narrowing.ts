import type { InSlices } from "../engine/slices";
import type { Row } from "../engine/snapshot";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import { fixWithEffect, type Trial } from "./choosing";
import { restsOn } from "./dependence";
import { tolerancedBy, type Toleranced, type Written } from "./tolerances";

/** Inputs that are tried, the nearest to the rule first: each trial settles the note anew. */
const MOST_TRIED = 12;

/** Halvings by which a tolerance that comes in no steps is found: to a thousandth, of which two digits are written. */
const HALVINGS = 10;

/**
 * Narrower tolerances with which a rule holds that fails at the limits, one for each input that is bought or built with
 * one, by itself: `± 2 % or better for R`. Guesses are left out, since no guess comes true by being narrowed. Costly.
 */
export function* narrowForRule(row: Row, trial: Trial, most: number): InSlices<readonly Fix[]> {
  const place = trial.snapshot.rows.indexOf(row);
  const holdsWith = (edit: Edit) =>
    trial.whatIf([edit], ({ rows }) => {
      const { outcome } = rows[place];
      return outcome.kind === "rule" && outcome.state === "holds";
    });
  const own = restsOn(row, trial).filter(({ snapshot }) => snapshot === trial.snapshot);
  const inputs = own.flatMap(({ row: input }) => tolerancedBy(input) ?? []).slice(0, MOST_TRIED);
  const fixes: Fix[] = [];
  for (const input of inputs) {
    if (fixes.length >= most) break;
    const { span, name } = input;
    const widest = yield* widestWith(input.narrower, (text) => holdsWith({ span, text }));
    if (!widest) continue;
    const { text, asks } = widest;
    fixes.push(yield* fixWithEffect(`${asks} for ${name}`, { span, text }, input.row, trial));
  }
  return fixes;
}

/** The widest tolerance with which the rule holds; undefined where none does. */
function* widestWith(
  narrower: Toleranced["narrower"],
  holds: (text: string) => InSlices<boolean>,
): InSlices<Written | undefined> {
  if (typeof narrower !== "function") {
    for (const each of narrower) if (yield* holds(each.text)) return each;
    return undefined;
  }
  let [good, bad] = [1 / 2 ** HALVINGS, 1];
  if (!(yield* holds(narrower(good).text))) return undefined;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2;
    if (yield* holds(narrower(middle).text)) good = middle;
    else bad = middle;
  }
  return narrower(good);
}
