import { CONE_OPERATIONS, NOTHING, ONE, SQUARE } from "./coneOperations";
import type { Entry } from "./entry";
import { Op } from "./operation";
import type { Sum } from "./piece";
import { Standing, type Slots, type Tape } from "./tape";

/**
 * All that one result rests on, down to its uncertain inputs, as a tape of its own: operations in dependency order on
 * registers, of which the inputs are the first and the constants the next. Equal operations on equal registers are one,
 * so that a quantity that several definitions spell out is still one quantity.
 * It is a copy: later edits of the notes do not reach it.
 */
export interface Cone {
  /** Registers 0, 1, …: the uncertain inputs in the order in which the formula first names them. */
  readonly inputs: readonly ConeInput[];
  /** Values of the registers that follow. */
  readonly constants: Float64Array;
  /** Operation k writes to register `inputs.length + constants.length + k`. See {@link CONE_OPERATIONS}. */
  readonly op: Uint8Array;
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly c: Int32Array;
  /** The row of the notes' tape that an operation came from. */
  readonly row: Int32Array;
  /** The register that holds the result. */
  readonly result: number;
}

/** An uncertain input: the slot of its literal, and its limits in coherent SI units; a limit not known is infinite. */
export interface ConeInput {
  readonly slot: number;
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  /** Where it stands for all pieces of a sum: the sums, outermost first. */
  readonly sums?: readonly Sum[];
}

/** What a cone is cut from. */
export interface ConeSource {
  readonly tape: Tape;
  readonly slots: Slots;
}

/** The cone of the result that an entry keeps at place `result` of its results. */
export function coneOf(source: ConeSource, entry: Entry, result: number): Cone {
  return coneWithin(source, entry, result, Infinity)!;
}

/** The same, unless it has more operations than `most`: then undefined, and no more than that was copied. */
export function coneWithin(source: ConeSource, entry: Entry, result: number, most: number): Cone | undefined {
  return new ConeBuilder(source, most).build(entry, entry.results.from + result);
}

/**
 * The same down to certain slots only, uncertain or not, which are inputs then; what rests on them is computed even where
 * it is exact.
 */
export function coneDownTo(
  source: ConeSource,
  entry: Entry,
  result: number,
  most: number,
  cuts: ReadonlySet<number>,
): Cone | undefined {
  return new ConeBuilder(source, most, cuts).build(entry, entry.results.from + result);
}

/** The cone of a slot that an entry reads or writes, unless it has more operations than `most`. */
export function coneOfSlot(source: ConeSource, entry: Entry, slot: number, most: number): Cone | undefined {
  return new ConeBuilder(source, most).build(entry, slot);
}

/** Operations whose operands can be exchanged. */
const COMMUTATIVE: ReadonlySet<number> = new Set([
  Op.Add,
  Op.Multiply,
  Op.Min,
  Op.Max,
  Op.Hypot,
  Op.Parallel,
  Op.Equal,
  Op.And,
  Op.Or,
]);

/** What an operation on two equal registers is. */
const OF_ONE: ReadonlyMap<number, number> = new Map([
  [Op.Multiply, SQUARE],
  [Op.Subtract, NOTHING],
  [Op.Divide, ONE],
]);

/** While it is built, a register is numbered within its sort: inputs, constants and operations grow side by side. */
const enum Sort {
  Input,
  Constant,
  Operation,
}
const SORTS = 3;
/** So that an operation and two registers make one exact number: far more than a cone has. */
const MOST_REGISTERS = 2 ** 22;

/** An operation of the notes' tape, and the entry whose code it is part of. */
interface Place {
  readonly entry: Entry;
  readonly row: number;
}

class ConeBuilder {
  private readonly inputs: ConeInput[] = [];
  private readonly constants: number[] = [];
  private readonly op: number[] = [];
  private readonly operands: [number, number, number][] = [];
  private readonly rows: number[] = [];
  /** Registers by slot, by row of the notes' tape, and by what an operation does to what. */
  private readonly bySlot = new Map<number, number>();
  private readonly byRow = new Map<number, number>();
  private readonly byMeaning = new Map<number | string, number>();
  private readonly byValue = new Map<number, number>();
  private readonly owners = new Map<number, Entry>();
  private readonly known = new Set<Entry>();

  constructor(
    private readonly source: ConeSource,
    private readonly most: number,
    private readonly cuts?: ReadonlySet<number>,
  ) {}

  build(entry: Entry, slot: number): Cone | undefined {
    this.learnOwners(entry);
    if (!this.owners.has(slot)) this.owners.set(slot, entry);
    const start = this.leaf(slot) === undefined ? this.storing(slot) : undefined;
    // Without recursion, since a note may be one chain of ten thousand lines.
    const path: Place[] = start ? [start] : [];
    while (path.length > 0) {
      const place = path[path.length - 1];
      if (this.byRow.has(place.row)) path.pop();
      else this.visit(place, path);
      // What is on the path will be an operation, but for the stores between.
      if (this.op.length + path.length / 2 > this.most) return undefined;
    }
    return this.finished(start ? this.byRow.get(start.row)! : this.leaf(slot)!);
  }

  /** Emits an operation if all its operands are known, else puts the first that is not on the path before it. */
  private visit(place: Place, path: Place[]): void {
    this.learnOwners(place.entry);
    const { op, a, b, c } = this.source.tape;
    const { row } = place;
    const { arity } = CONE_OPERATIONS[op[row]];
    const operands = [a[row], b[row], c[row]].slice(0, arity);
    const registers: number[] = [];
    for (const operand of operands) {
      const found = this.operand(place.entry, operand);
      if (typeof found !== "number") {
        path.push(found);
        return;
      }
      registers.push(found);
    }
    this.byRow.set(row, this.emit(op[row], registers, row));
  }

  /** The register of an operand, or the place where it is computed if that has not been visited. */
  private operand(entry: Entry, operand: number): number | Place {
    if (operand >= 0) {
      const leaf = this.leaf(operand);
      if (leaf !== undefined) return leaf;
    }
    const place = operand < 0 ? { entry, row: entry.code.from + (-1 - operand) } : this.storing(operand);
    return this.byRow.get(place.row) ?? place;
  }

  /** The register of an input or of an exact value; undefined for what is computed. */
  private leaf(slot: number): number | undefined {
    const known = this.bySlot.get(slot);
    if (known !== undefined) return known;
    const { nominal, low, high, standing, pushes, sums } = this.source.slots;
    let register: number | undefined;
    const isCut = this.cuts?.has(slot) === true;
    const isComputed = this.cuts !== undefined && this.owners.has(slot);
    if (standing[slot] === Standing.Exact && !isCut && !isComputed) register = this.constant(nominal[slot]);
    else if (isCut || pushes[slot].inputs[0] === slot) {
      const input = { slot, nominal: nominal[slot], low: low[slot], high: high[slot] };
      const stands = sums.get(slot);
      register = SORTS * (this.inputs.push(stands ? { ...input, sums: stands } : input) - 1) + Sort.Input;
    }
    if (register !== undefined) this.bySlot.set(slot, register);
    return register;
  }

  private constant(value: number): number {
    // A map takes −0 for 0, and they are not the same to an angle.
    const known = Object.is(value, -0) ? undefined : this.byValue.get(value);
    if (known !== undefined) return known;
    const register = SORTS * (this.constants.push(value) - 1) + Sort.Constant;
    if (!Object.is(value, -0)) this.byValue.set(value, register);
    return register;
  }

  /** The operation that stores to a slot: an entry's code ends with the stores of its checked values and of its results, in order. */
  private storing(slot: number): Place {
    const entry = this.owners.get(slot);
    if (!entry) throw new Error(`Slot ${slot} is read in a cone, and no entry there computes it.`);
    const { code, results, checked } = entry;
    const stored = code.from + code.length - results.length;
    const isChecked = slot >= checked.from && slot < checked.from + checked.length;
    const row = isChecked ? stored - checked.length + (slot - checked.from) : stored + (slot - results.from);
    return { entry, row };
  }

  /** An entry reads the results of what it depends on, and, by the bodies of functions, of what those depend on. */
  private learnOwners(entry: Entry): void {
    if (this.known.has(entry)) return;
    this.known.add(entry);
    for (const dependency of entry.dependencies) {
      const { results, type } = dependency;
      for (let i = 0; i < results.length; i++) this.owners.set(results.from + i, dependency);
      if (type.kind === "function" || type.kind === "note") this.learnOwners(dependency);
    }
    for (const copied of entry.copied) this.learnOwners(copied);
  }

  private emit(op: number, registers: readonly number[], row: number): number {
    if (op === Op.Store) return registers[0];
    let [a, b = a] = registers;
    const isOfOne = registers.length === 2 && a === b;
    const meant = isOfOne ? (OF_ONE.get(op) ?? op) : op;
    if (COMMUTATIVE.has(op) && a > b) [a, b] = [b, a];
    const c = registers[2] ?? a;
    const meaning =
      registers.length < 3 ? (meant * MOST_REGISTERS + a) * MOST_REGISTERS + b : `${meant} ${a} ${b} ${c}`;
    let register = this.byMeaning.get(meaning);
    if (register === undefined) {
      register = SORTS * (this.op.push(meant) - 1) + Sort.Operation;
      this.operands.push([a, b, c]);
      this.rows.push(row);
      this.byMeaning.set(meaning, register);
    }
    return register;
  }

  private finished(result: number): Cone {
    const { inputs, constants } = this;
    const before = [0, inputs.length, inputs.length + constants.length];
    const place = (register: number) => before[register % SORTS] + Math.floor(register / SORTS);
    const column = (which: 0 | 1 | 2) => Int32Array.from(this.operands, (operands) => place(operands[which]));
    return {
      inputs,
      constants: Float64Array.from(constants),
      op: Uint8Array.from(this.op),
      a: column(0),
      b: column(1),
      c: column(2),
      row: Int32Array.from(this.rows),
      result: place(result),
    };
  }
}
