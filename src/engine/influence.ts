import { coneDownTo, type Cone, type ConeSource } from "./cone";
import type { Clause } from "./condition";
import type { Entry } from "./entry";
import { Gradient } from "./gradient";
import type { Note } from "./note";
import { slack } from "./operation";
import { Standing } from "./tape";

/**
 * How far a guess can move a rule: the change that it makes to left − right while all else is nominal, as a share of what
 * the rule has to spare there, or is short. From 1 on the guess alone decides whether the rule holds. Infinite where the
 * rule is met just so, or no limit of the guess is known.
 */
export interface Influence {
  readonly rule: Entry;
  readonly share: number;
  /** The rule is false at nominal, so that the share is of what it is short. */
  readonly isShort: boolean;
}

/** A guess that is still open, and the `must` that it moves most, of any note. */
export interface OpenGuess {
  readonly guess: Entry;
  /** It is stated as one number. It is taken for {@link LIMITS_OF_NONE} then. */
  readonly hasLimits: boolean;
  /** Undefined where no `must` rests on it, or none that has a value. */
  readonly most?: Influence;
}

/**
 * What a guess without limits is taken to be off by: a tenth of it, or ten kelvins of a temperature on a scale. Common
 * practice, no source; without it a guess of which nothing at all is known would seem to move nothing.
 */
export const LIMITS_OF_NONE = { ofValue: 0.1, ofPoint: 10 } as const;

/** A rule that rests on more operations than this tells nothing of its guesses: somebody waits for the answer. */
const LARGEST_CONE = 5_000;
/** Operations that may be run for all rules together. They are counted, never timed. */
const MOST_OPERATIONS = 5_000_000;

/** The guesses of all notes that are still open, those that move a `must` most first; equal ones in the order of the text. */
export function openGuesses(source: ConeSource, notes: Iterable<Note>): readonly OpenGuess[] {
  const guesses = new Map<Entry, Influence | undefined>();
  const rules: Entry[] = [];
  for (const note of notes) {
    for (const entry of note.entries()) {
      const { outcome, statement } = entry;
      if (outcome?.kind === "quantity" && outcome.isGuess) guesses.set(entry, undefined);
      if (statement.kind === "rule" && statement.word === "must") rules.push(entry);
    }
  }
  const bySlot = inputsOf(guesses.keys(), source);
  const cuts = new Set(bySlot.keys());
  let left = MOST_OPERATIONS;
  for (const rule of bySlot.size === 0 ? [] : rules) {
    for (const clause of rule.clauses) {
      const most = Math.min(LARGEST_CONE, left);
      const cone = coneDownTo(source, rule, clause.slot + 2, most, cuts);
      left -= cone ? cone.op.length * (cone.inputs.length + 1) : most;
      if (!cone) continue;
      for (const { guess, ...influence } of influencesOn(rule, clause, cone, bySlot, source)) {
        const known = guesses.get(guess);
        if (known === undefined || influence.share > known.share) guesses.set(guess, influence);
      }
    }
  }
  return [...guesses]
    .map(([guess, most]) => ({ guess, hasLimits: hasLimits(guess, source), ...(most ? { most } : {}) }))
    .sort((a, b) => shareOf(b) - shareOf(a) || 0);
}

/** ∞ − ∞ is no order; those that rest under no rule come last. */
function shareOf({ most }: OpenGuess): number {
  return most === undefined ? -1 : Math.min(most.share, Number.MAX_VALUE);
}

/**
 * The slots at which a guess comes in: its value, or, where that is worked out from other names, the uncertain literals
 * of its own.
 */
function inputsOf(guesses: Iterable<Entry>, { slots }: ConeSource): ReadonlyMap<number, Entry> {
  const bySlot = new Map<number, Entry>();
  for (const guess of guesses) {
    const { results, dependencies, literalSlots, pieceLiterals } = guess;
    // What copies of it for pieces of their own rest on.
    for (const slot of pieceLiterals?.values() ?? []) bySlot.set(slot, guess);
    if (dependencies.length === 0) {
      for (let i = 0; i < results.length; i++) bySlot.set(results.from + i, guess);
      continue;
    }
    for (const slot of literalSlots) if (slots.standing[slot] !== Standing.Exact) bySlot.set(slot, guess);
  }
  return bySlot;
}

function hasLimits({ results }: Entry, { slots }: ConeSource): boolean {
  for (let i = 0; i < results.length; i++) if (slots.standing[results.from + i] !== Standing.Exact) return true;
  return false;
}

function influencesOn(
  rule: Entry,
  clause: Clause,
  cone: Cone,
  bySlot: ReadonlyMap<number, Entry>,
  { slots }: ConeSource,
): readonly (Influence & { readonly guess: Entry })[] {
  const gradient = new Gradient(cone);
  const point = cone.inputs.map(({ nominal }) => nominal);
  const computed = gradient.at(point);
  if (Number.isNaN(computed)) return [];
  const [left, right] = [0, 1].map((side) => slots.nominal[rule.results.from + clause.slot + side]);
  // What is left of decimal fractions that should cancel is nothing.
  const margin = Math.abs(computed) <= slack(left, right) ? 0 : computed;
  const derivatives = gradient.derivatives.slice();
  const isShort = !isMet(clause, margin);
  const swings = new Map<Entry, number>();
  cone.inputs.forEach(({ slot, nominal, low, high }, i) => {
    const guess = bySlot.get(slot);
    if (!guess) return;
    const isExact = slots.standing[slot] === Standing.Exact;
    const step = isExact ? stepOf(guess, nominal) : 0;
    const ends = isExact ? [nominal - step, nominal + step] : [low, high];
    const swing = Math.max(0, ...ends.map((end) => swingTo(end, i)));
    swings.set(guess, (swings.get(guess) ?? 0) + swing);

    function swingTo(end: number, place: number): number {
      if (end === nominal) return 0;
      if (!Number.isFinite(end)) return derivatives[place] === 0 ? 0 : Infinity;
      point[place] = end;
      const moved = gradient.at(point) - margin;
      point[place] = nominal;
      return isTold(clause, margin, moved, isShort) ? Math.abs(moved) : 0;
    }
  });
  return [...swings].flatMap(([guess, swing]) =>
    swing > 0 ? [{ guess, rule, share: swing / Math.abs(margin), isShort }] : [],
  );
}

function stepOf({ type }: Entry, nominal: number): number {
  const isPoint = type.kind === "quantity" && type.point;
  return isPoint ? LIMITS_OF_NONE.ofPoint : LIMITS_OF_NONE.ofValue * Math.abs(nominal);
}

/** Of a rule that holds at nominal what endangers it counts, of one that fails what can help it. */
function isTold({ relation }: Clause, margin: number, moved: number, isShort: boolean): boolean {
  if (Number.isNaN(moved)) return false;
  if (relation === "=") return true;
  if (relation === "!=") return moved * margin < 0;
  const worsens = relation.startsWith("<") ? moved > 0 : moved < 0;
  return isShort ? !worsens : worsens;
}

function isMet({ relation }: Clause, margin: number): boolean {
  switch (relation) {
    case "<":
    case "<=":
      return margin <= 0;
    case ">":
    case ">=":
      return margin >= 0;
    case "=":
      return margin === 0;
    case "!=":
      return margin !== 0;
  }
}
