import { show } from "../quantity/display";
import type { Measurement } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import type { Entry } from "./entry";
import { readLiteral } from "./literal";
import { slack } from "./operation";
import type { Note } from "./note";
import type { Extent, QuantityOutcome } from "./outcome";
import type { EngineProblem, EngineTrouble, Origin } from "./problem";
import type { Program } from "./program";
import { sameData } from "./sameData";
import { Standing } from "./tape";

/**
 * Compares every measurement of a note with what was predicted for its conditions: disjoint is an error, not inside a
 * warning. A measurement that replaces an assumption is compared with what was assumed.
 */
export function compareMeasurements(program: Program, note: Note): void {
  for (const entry of note.measurements) {
    if (entry.statement.kind !== "measured") continue;
    const problems = new Comparison(program, entry, entry.statement).problems();
    if (!sameData(problems, entry.measurementProblems)) entry.measurementProblems = problems;
  }
}

/** Of what kind a quantity is. */
type Kind = Pick<QuantityOutcome, "dimension" | "point">;

class Comparison {
  constructor(
    private readonly program: Program,
    private readonly entry: Entry,
    private readonly statement: Measurement,
  ) {}

  problems(): readonly EngineProblem[] {
    const { program, entry, statement } = this;
    const unknown = [statement.name, ...statement.at.map(({ name }) => name)].filter(
      (node) => !program.find(entry, this.text(node)),
    );
    if (unknown.length > 0) return unknown.map((node) => this.unknown(node));
    const target = program.find(entry, this.text(statement.name))!;
    if (statement.instead && target.statement.kind !== "assume")
      return [
        this.at(statement.name, {
          code: "measurement.replaces",
          name: this.text(statement.name),
          is: target.statement.kind,
        }),
      ];
    const conditions = statement.at.flatMap(({ name, value }) => this.conditionProblems(name, value));
    if (conditions.length > 0) return conditions;
    const measured = entry.outcome;
    const predicted = target.outcome;
    if (measured?.kind !== "quantity" || predicted?.kind !== "quantity") return [];
    if (measured.values.length !== 1 || predicted.values.length !== 1) return [];
    if (measured.dimension !== predicted.dimension || measured.point !== predicted.point)
      return [this.mismatch("measure", [statement.name, predicted], [statement.value, measured])];
    if (measured.values[0].isPending || predicted.values[0].isPending) return [];
    const prediction = this.prediction(target, predicted);
    if (!prediction) return [];
    const origin = program.replacementOf(target) === entry ? "assumed" : predicted.origin;
    return this.compare(measured, predicted, prediction, origin);
  }

  /** What the note says the value is without this measurement, under its conditions. */
  private prediction(target: Entry, outcome: QuantityOutcome): Extent | undefined {
    const { program, entry, statement } = this;
    const isReplacing = program.replacementOf(target) === entry;
    const overrides = statement.at.map(({ name }, i) => ({
      entry: program.find(entry, this.text(name))!,
      slot: entry.results.from + 1 + i,
    }));
    if (overrides.length === 0 || entry.results.length <= overrides.length)
      return isReplacing ? outcome.assumed?.[0] : outcome.values[0];
    const extent = predictAt(program, target, overrides);
    return isReplacing ? outcome.assumed?.[0] : extent;
  }

  private compare(
    measured: QuantityOutcome,
    predicted: QuantityOutcome,
    prediction: Extent,
    origin: Origin,
  ): readonly EngineProblem[] {
    const [value] = measured.values;
    if (Number.isNaN(value.low) || Number.isNaN(prediction.low)) return [];
    const above = (a: number, b: number) => a > b + slack(a, b);
    const isDisjoint = above(value.low, prediction.high) || above(prediction.low, value.high);
    const isOutside = above(prediction.low, value.low) || above(value.high, prediction.high);
    if (!isDisjoint && !isOutside) return [];
    const { dimension, point } = measured;
    const under = this.statement.at.map(({ name, value: at }) => `${this.text(name)} = ${this.written(at)}`).join(", ");
    return [
      this.at(this.statement.value, {
        code: isDisjoint ? "measurement.disjoint" : "measurement.outside",
        name: measured.name,
        measured: show(value, dimension, { point, unit: measured.unit ?? predicted.unit }),
        predicted: show(prediction, dimension, { point, unit: predicted.unit }),
        under,
        origin,
      }),
    ];
  }

  /** A condition is of the kind of what it is a condition of. */
  private conditionProblems(name: Node, value: Node): readonly EngineProblem[] {
    const { program, entry } = this;
    const { text, tree } = entry.statement;
    const of = program.find(entry, this.text(name))?.outcome;
    const isCounted = (word: string) => program.find(entry, word)?.statement.kind === "items";
    const read = readLiteral(text, tree, value, isCounted);
    if (of?.kind !== "quantity" || of.values.length === 0 || !("literal" in read)) return [];
    const { dimension, point } = read.literal;
    if (dimension === of.dimension && point === of.point) return [];
    return [this.mismatch("condition", [name, of], [value, read.literal])];
  }

  /** What is measured, or a condition of it, and what was written for it are of two kinds. */
  private mismatch(
    kind: "measure" | "condition",
    [name, is]: readonly [Node, Kind],
    [value, written]: readonly [Node, Kind],
  ): EngineProblem {
    const side = (node: Node, { dimension, point }: Kind) => ({
      text: this.written(node),
      dimension,
      point,
      span: this.entry.statement.tree.span(node),
    });
    return this.at(value, {
      code: "unit.mismatch",
      operation: { kind },
      left: { ...side(name, is), name: this.text(name) },
      right: side(value, written),
    });
  }

  private unknown(node: Node): EngineProblem {
    return this.at(node, { code: "name.unknown", name: this.text(node), isUnit: false });
  }

  private at(node: Node, trouble: EngineTrouble): EngineProblem {
    return { span: this.entry.statement.tree.span(node), ...trouble };
  }

  private text(node: Node): string {
    return this.entry.statement.tree.text(node);
  }

  private written(node: Node): string {
    const { tree, text } = this.entry.statement;
    return text.slice(tree.start(node), tree.end(node));
  }
}

/**
 * The value that an entry would have if others had the values in these slots. All that lies between is run on the tape
 * with the values in place, and everything is put back.
 */
function predictAt(
  program: Program,
  target: Entry,
  overrides: readonly { readonly entry: Entry; readonly slot: number }[],
): Extent {
  const { slots, runner } = program;
  const set = new Map(overrides.map(({ entry, slot }) => [entry, slot]));
  const between = betweenInOrder(target, set);
  const touched = [...set.keys(), ...between].flatMap(({ results, checked }) =>
    [results, checked].flatMap(({ from, length }) => Array.from({ length }, (_, i) => from + i)),
  );
  const saved = touched.map((slot) => slots.read(slot));
  for (const [entry, slot] of set) if (entry.results.length > 0) slots.copy(slot, entry.results.from);
  for (const entry of between) if (!set.has(entry)) runner.run(entry.code);
  const { results } = target;
  const [nominal, low, high] = [slots.nominal[results.from], slots.low[results.from], slots.high[results.from]];
  const isUndefined = slots.standing[results.from] === Standing.Undefined;
  touched.forEach((slot, i) => slots.write(slot, saved[i]));
  return { nominal, low, high, standing: isUndefined ? "undefined" : "enclosed", pushes: [] };
}

/** The entries on the way from the overridden ones to the target, dependencies first. */
function betweenInOrder(target: Entry, overridden: ReadonlyMap<Entry, number>): Entry[] {
  const order: Entry[] = [];
  const affected = new Map<Entry, boolean>();
  const stack: Entry[] = [target];
  while (stack.length > 0) {
    const entry = stack[stack.length - 1];
    if (affected.has(entry)) {
      stack.pop();
      continue;
    }
    const open = overridden.has(entry)
      ? []
      : entry.dependencies.filter((dependency) => !affected.has(dependency) && !stack.includes(dependency));
    if (open.length > 0) {
      stack.push(...open);
      continue;
    }
    stack.pop();
    const isAffected = overridden.has(entry) || entry.dependencies.some((dependency) => affected.get(dependency));
    affected.set(entry, isAffected);
    if (isAffected && !overridden.has(entry)) order.push(entry);
  }
  return order;
}
