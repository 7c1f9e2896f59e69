import { show, showNumber, type ShowOptions } from "../quantity/display";
import { isMember, isSeriesName, nearest, neighbours, nextDown, nextUp, type SeriesName } from "../quantity/series";
import { Kind } from "../syntax/tree";
import type { ChoicePart } from "../syntax/statement";
import type { Entry } from "./entry";
import { EQUALITY } from "./operation";
import type { Extent, QuantityOutcome } from "./outcome";
import type { EngineProblem } from "./problem";

/**
 * Judges a choice against what is wanted. Plain `choose` is judged by the nominal want: another member of the series
 * may fit better. `at least` and `at most` are judged by the whole range of the want and the limits of what is used,
 * and a safer member than needed is left alone.
 */
export function judgeChoice(entry: Entry, outcome: QuantityOutcome): readonly EngineProblem[] {
  const { statement } = entry;
  if (statement.kind !== "derived" || !statement.choice || outcome.values.length !== 1) return [];
  const options = optionsOf(entry, statement.choice, outcome);
  // What is no series and no list was reported when it was compiled.
  if (options === "unknown") return [];
  return new ChoiceJudge(entry, statement.choice, outcome, options).problems();
}

/** Where the value is picked from: its text, and the pick of the members around a value. Undefined text: from anywhere. */
interface Options {
  readonly text?: string;
  has(x: number): boolean;
  nearest(x: number): number;
  below(x: number): number;
  above(x: number): number;
  neighbours(x: number): { readonly below: number; readonly above: number };
}

function optionsOf(entry: Entry, choice: ChoicePart, outcome: QuantityOutcome): Options | "unknown" {
  if (choice.from === undefined) return ANYTHING;
  const { tree, text } = entry.statement;
  const written = text.slice(tree.start(choice.from), tree.end(choice.from));
  if (tree.kind(choice.from) === Kind.Name && isSeriesName(written)) return series(written);
  if (outcome.options)
    return list(
      written,
      outcome.options.map(({ nominal }) => nominal),
    );
  return "unknown";
}

/** A want is set against a standard value, and no series has more than three digits. */
const WANTED_DIGITS = 4;

const ANYTHING: Options = {
  has: () => true,
  nearest: () => NaN,
  below: () => NaN,
  above: () => NaN,
  neighbours: () => ({ below: NaN, above: NaN }),
};

function series(name: SeriesName): Options {
  return {
    text: name,
    has: (x) => isMember(name, x),
    nearest: (x) => nearest(name, x),
    below: (x) => nextDown(name, x),
    above: (x) => nextUp(name, x),
    neighbours: (x) => neighbours(name, x),
  };
}

function list(text: string, values: readonly number[]): Options {
  const sorted = [...values].sort((a, b) => a - b);
  const below = (x: number) => sorted.filter((v) => v <= x).at(-1) ?? NaN;
  const above = (x: number) => sorted.find((v) => v >= x) ?? NaN;
  return {
    text,
    has: (x) => sorted.some((v) => isSame(v, x)),
    nearest: (x) => sorted.reduce((best, v) => (Math.abs(v - x) < Math.abs(best - x) ? v : best), sorted[0]),
    below,
    above,
    neighbours: (x) => ({
      below: sorted.filter((v) => v < x && !isSame(v, x)).at(-1) ?? NaN,
      above: sorted.find((v) => v > x && !isSame(v, x)) ?? NaN,
    }),
  };
}

class ChoiceJudge {
  private readonly used: Extent;
  private readonly shown: ShowOptions;

  constructor(
    private readonly entry: Entry,
    private readonly choice: ChoicePart,
    private readonly outcome: QuantityOutcome,
    private readonly options: Options,
  ) {
    this.used = outcome.values[0];
    this.shown = { point: outcome.point };
  }

  problems(): readonly EngineProblem[] {
    const { used, options, choice } = this;
    if (Number.isNaN(used.nominal)) return [];
    if (options.text !== undefined && !options.has(used.nominal)) return [this.off(options.text)];
    const wanted = this.outcome.wanted?.[0];
    if (!wanted || Number.isNaN(wanted.nominal)) return [];
    const problem = choice.sense === "nearest" ? this.overtaken(wanted) : this.short(wanted, choice.sense);
    return problem ? [problem] : [];
  }

  private off(seriesText: string): EngineProblem {
    const { below, above } = this.options.neighbours(this.used.nominal);
    return {
      span: this.valueSpan(),
      code: "choice.off",
      used: this.number(this.used.nominal),
      series: seriesText,
      ...this.maybe("below", below),
      ...this.maybe("above", above),
    };
  }

  private overtaken(wanted: Extent): EngineProblem | undefined {
    const { used, options } = this;
    const best = options.nearest(wanted.nominal);
    if (options.text === undefined || Number.isNaN(best) || isSame(best, used.nominal)) return undefined;
    // Of two members that are equally near, either will do.
    if (isSame(Math.abs(best - wanted.nominal), Math.abs(used.nominal - wanted.nominal))) return undefined;
    return {
      span: this.choice.span,
      code: "choice.overtaken",
      used: this.number(used.nominal),
      wanted: this.number(wanted.nominal, WANTED_DIGITS),
      series: options.text,
      better: this.number(best),
    };
  }

  private short(wanted: Extent, sense: "least" | "most"): EngineProblem | undefined {
    const { used, options } = this;
    const isLeast = sense === "least";
    const needed = isLeast ? wanted.high : wanted.low;
    const reached = isLeast ? used.low : used.high;
    if (!Number.isFinite(needed) || !Number.isFinite(reached)) return undefined;
    if (
      isLeast
        ? reached >= needed * (1 - Math.sign(needed) * EQUALITY)
        : reached <= needed * (1 + Math.sign(needed) * EQUALITY)
    )
      return undefined;
    // The tolerance of the next member is taken to be that of the one in use.
    const nominalNeeded = needed * (used.nominal / reached);
    const next = isLeast ? options.above(nominalNeeded) : options.below(nominalNeeded);
    return {
      span: this.choice.span,
      code: "choice.short",
      used: this.range(used),
      sense,
      wanted: this.range(wanted),
      ...this.maybe("next", next),
    };
  }

  private valueSpan(): { start: number; end: number } {
    return this.entry.statement.tree.span(this.choice.value);
  }

  private maybe<K extends string>(key: K, x: number): { [P in K]?: string } {
    return (Number.isFinite(x) ? { [key]: this.number(x) } : {}) as { [P in K]?: string };
  }

  private number(x: number, exactDigits?: number): string {
    return showNumber(x, this.outcome.dimension, { ...this.shown, exactDigits });
  }

  private range(extent: Extent): string {
    return show(extent, this.outcome.dimension, this.shown);
  }
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
}
