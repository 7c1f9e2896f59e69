import type { Cone, ConeInput } from "./cone";
import { CONE_OPERATIONS } from "./coneOperations";
import type { Correlation } from "./correlation";
import type { DrawSettings } from "./draws";
import { Op } from "./operation";
import { standardUncertaintyOf, type Spread } from "./spread";

/** What is drawn: a cone, how its inputs are spread, and the settings by their places. */
export interface Drawn {
  readonly cone: Cone;
  readonly spreads: readonly Spread[];
  readonly settings: DrawSettings;
  /** Of each input the place of the one that it is a copy of, for another piece; its own where it is none. */
  readonly copyOf?: readonly number[];
}

/** Most operations and inputs that are added for the pieces of sums. */
const MOST_ADDED = 20_000;

/**
 * The same with every piece of each `total` by itself: the operations between its `each` inputs and the sum are repeated
 * for every piece, on inputs of its own, and added up. Inputs that were there keep their places, and the others follow.
 *
 * A sum of more pieces than are affordable keeps the one that stands for all, drawn as the mean of its pieces: normal,
 * by the central limit theorem. That is the sum to first order in what differs between pieces; what is shared goes in whole.
 */
export function withEveryPiece(drawn: Drawn): Drawn {
  const { cone, spreads, settings } = drawn;
  if (cone.inputs.every(({ sums }) => sums === undefined)) return drawn;
  const sums = new Sums(cone);
  const writing = new Writing(cone, sums);
  writing.block("");
  const { inputs, copies } = writing;
  const modelled = inputs.map((input, i) => {
    const spread = spreads[i < cone.inputs.length ? i : writing.originals[i - cone.inputs.length]];
    if (input.sums === undefined) return { input, spread };
    return sums.isWrittenOut(input.sums[0].key) ? { input, spread: { ...spread, pieces: 1 } } : meanOf(input, spread);
  });
  return {
    cone: writing.finished(modelled.map(({ input }) => input)),
    spreads: modelled.map(({ spread }) => spread),
    settings: { ...settings, correlations: correlationsOf(settings.correlations ?? [], copies) },
    copyOf: inputs.map((_input, i) => (i < cone.inputs.length ? i : writing.originals[i - cone.inputs.length])),
  };
}

/** The mean of pieces; that of evenly spread ones is about the middle of their limits, wherever they are typical. */
function meanOf(input: ConeInput, spread: Spread): { readonly input: ConeInput; readonly spread: Spread } {
  const nominal = spread.shape === "even" ? (input.low + input.high) / 2 : input.nominal;
  const standardUncertainty = standardUncertaintyOf(spread, input);
  return { input: { ...input, nominal }, spread: { shape: "normal", standardUncertainty } };
}

/** Two inputs that are correlated are so in every piece. */
function correlationsOf(
  correlations: readonly Correlation[],
  copies: ReadonlyMap<number, readonly number[]>,
): readonly Correlation[] {
  return correlations.flatMap((correlation) => {
    const [first, second] = [copies.get(correlation.a) ?? [], copies.get(correlation.b) ?? []];
    if (first.length !== second.length) return [correlation];
    return [correlation, ...first.map((a, i) => ({ a, b: second[i], r: correlation.r }))];
  });
}

/** The sums of a cone by their keys: what lies inside of each, and how much it is. "" is what lies outside of all. */
class Sums {
  /** The innermost open sum of each register. */
  readonly innermost: string[] = [];
  /** Of an operation that adds up the pieces of a sum: which. */
  readonly closes = new Map<number, string>();
  readonly counts = new Map<string, number>();
  readonly inputs = new Map<string, number[]>();
  readonly operations = new Map<string, number[]>();
  /** The sum around each; "" around the outermost. */
  private readonly parents: ReadonlyMap<string, string>;

  constructor(cone: Cone) {
    const { inputs, constants, op, a, b, c } = cone;
    inputs.forEach(({ sums = [] }, i) => {
      for (const { key, count } of sums) this.counts.set(key, count);
      this.innermost.push(sums.at(-1)?.key ?? "");
      push(this.inputs, this.innermost[i], i);
    });
    this.parents = new Map(inputs.flatMap(({ sums = [] }) => sums.map(({ key }, i) => [key, sums[i - 1]?.key ?? ""])));
    constants.forEach(() => this.innermost.push(""));
    for (let k = 0; k < op.length; k++) {
      const operands = [a[k], b[k], c[k]].slice(0, CONE_OPERATIONS[op[k]].arity);
      let key = "";
      // Open sums lie in each other, so that of their keys one begins with the other.
      for (const operand of operands) if (this.innermost[operand].length > key.length) key = this.innermost[operand];
      if (op[k] === Op.Total && key !== "") {
        this.closes.set(k, key);
        key = this.parents.get(key)!;
      }
      this.innermost.push(key);
      push(this.operations, key, k);
    }
  }

  /** Whether the outermost sum around it is affordable, with all that lies in it. */
  isWrittenOut(key: string): boolean {
    let outermost = key;
    for (let outer = this.parents.get(key); outer; outer = this.parents.get(outer)) outermost = outer;
    return this.sizeOf(outermost) <= MOST_ADDED;
  }

  /** Operations and inputs of all pieces of a sum. */
  private sizeOf(key: string): number {
    let size = this.inputs.get(key)?.length ?? 0;
    for (const k of this.operations.get(key) ?? []) {
      const inner = this.closes.get(k);
      size += inner === undefined ? 1 : this.sizeOf(inner);
    }
    return size * this.counts.get(key)!;
  }
}

/** A register while its place is not known yet: inputs, constants and operations grow side by side. */
const enum Sort {
  Input,
  Constant,
  Operation,
}
const SORTS = 3;

class Writing {
  readonly inputs: ConeInput[];
  /** For each input that was added, which it is a copy of; and the copies of each. */
  readonly originals: number[] = [];
  readonly copies = new Map<number, number[]>();
  private readonly op: number[] = [];
  private readonly operands: (readonly [number, number, number])[] = [];
  private readonly rows: number[] = [];
  /** Where each register of the old cone is at the moment: of the piece that is being written. */
  private readonly at: number[] = [];
  private readonly begun = new Set<number>();

  constructor(
    private readonly cone: Cone,
    private readonly sums: Sums,
  ) {
    this.inputs = [...cone.inputs];
    cone.inputs.forEach((_input, i) => this.at.push(SORTS * i + Sort.Input));
    cone.constants.forEach((_constant, i) => this.at.push(SORTS * i + Sort.Constant));
  }

  /** Writes what lies in a sum, for one of its pieces; or what lies outside of all. */
  block(key: string): void {
    const { op, a, b, c, row, inputs, constants } = this.cone;
    const first = inputs.length + constants.length;
    for (const k of this.sums.operations.get(key) ?? []) {
      const inner = this.sums.closes.get(k);
      const [x, y, z] = [a[k], b[k], c[k]];
      if (inner === undefined || !this.sums.isWrittenOut(inner)) {
        if (inner !== undefined) this.block(inner);
        this.at[first + k] = this.emit(op[k], this.at[x], this.at[y], this.at[z], row[k]);
      } else this.at[first + k] = this.sum(inner, x, row[k]);
    }
  }

  finished(inputs: readonly ConeInput[]): Cone {
    const { constants } = this.cone;
    const before = [0, inputs.length, inputs.length + constants.length];
    const place = (register: number) => before[register % SORTS] + Math.floor(register / SORTS);
    const column = (which: 0 | 1 | 2) => Int32Array.from(this.operands, (operands) => place(operands[which]));
    return {
      inputs,
      constants,
      op: Uint8Array.from(this.op),
      a: column(0),
      b: column(1),
      c: column(2),
      row: Int32Array.from(this.rows),
      result: place(this.at[this.cone.result]),
    };
  }

  private sum(key: string, of: number, row: number): number {
    const count = this.sums.counts.get(key)!;
    let sum: number | undefined;
    for (let i = 0; i < count; i++) {
      for (const input of this.sums.inputs.get(key) ?? []) this.drawAnew(input);
      this.block(key);
      const piece = this.at[of];
      sum = sum === undefined ? piece : this.emit(Op.Add, sum, piece, sum, row);
    }
    return sum!;
  }

  /** The first piece has the inputs that were there. */
  private drawAnew(input: number): void {
    if (!this.begun.has(input)) {
      this.begun.add(input);
      return;
    }
    const copy = this.inputs.push(this.cone.inputs[input]) - 1;
    this.originals.push(input);
    push(this.copies, input, copy);
    this.at[input] = SORTS * copy + Sort.Input;
  }

  private emit(op: number, x: number, y: number, z: number, row: number): number {
    this.operands.push([x, y, z]);
    this.rows.push(row);
    return SORTS * (this.op.push(op) - 1) + Sort.Operation;
  }
}

function push<K>(map: Map<K, number[]>, key: K, value: number): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}
