import type { Node } from "../syntax/tree";
import type { Entry } from "./entry";
import { withOneMore } from "./entryLists";
import { placeOf } from "./inputPlace";
import type { Literal } from "./literal";
import type { InputPlace } from "./outcome";
import { ofPiece, type Piece } from "./piece";
import { hold, letGo } from "./pointTables";
import { sameData } from "./sameData";
import type { Slots } from "./tape";

const NO_LITERALS: readonly number[] = [];

/** Slots that an entry had, and where the next that is asked for is likely to be. */
interface Released {
  readonly slots: number[];
  next: number;
  /** How many were asked for. */
  asked: number;
}

/** A constant, and how often it is asked for by the code that there is. */
interface Constant {
  readonly slot: number;
  uses: number;
}

/** The constants that the code of an entry asked for, each as often as it did, and the numbers of tables among them. */
interface Held {
  readonly values: number[];
  tables?: number[];
}

/** Stands among released slots where one was given back to a literal. */
const TAKEN = -1;

/** Numbers in an entry's list of literals from which on they are found by an index: columns have thousands, others a few. */
const MANY = 64;

/** The slot that a literal of an entry has; undefined where it has none of its own. */
export function slotIn({ literals = NO_LITERALS }: Entry, node: Node): number | undefined {
  for (let i = 0; i < literals.length; i += 2) if (literals[i] === node) return literals[i + 1];
  return undefined;
}

/** The slots of literals: one literal is one quantity, however often a function's body is inlined. */
export class LiteralSlots {
  /** The uncertain literal behind a slot. */
  private readonly inputs = new Map<number, InputPlace>();
  /** Slots of literals that were compiled away in this settling: a literal that is still the same gets its own again. */
  private readonly released = new Map<Entry, Released>();
  /** Constants that no literal stands for, by value: π, the limits of a band, the length of a list. */
  private readonly constants = new Map<number, Constant>();
  /** The constants of each entry that has any, and those of entries that were compiled away in this settling. */
  private readonly held = new Map<Entry, Held>();
  private readonly letGo: Held[] = [];

  /** The literals of entries that have many, by node. */
  private readonly indices = new Map<Entry, Map<Node, number>>();

  constructor(private readonly slots: Slots) {}

  /** The uncertain literal behind a slot, as its readers are told of it. */
  inputAt(slot: number): InputPlace {
    return this.inputs.get(slot)!;
  }

  /**
   * The slot of a literal, made when first asked for; with a name that is given, where its statement does not tell it; of a
   * further piece where one is given.
   */
  slotOf(entry: Entry, node: Node, literal: Literal, name: string | undefined, piece?: Piece): number {
    if (piece) return this.slotOfPiece(entry, node, literal, piece, name);
    const literals = entry.literals ?? NO_LITERALS;
    const known = this.find(entry, literals, node);
    if (known !== undefined) return known;
    const isExact = literal.low === literal.high;
    const slot = isExact
      ? this.exactSlot(entry, literal.nominal)
      : this.inputSlot(entry, placeOf(entry, node, literal, name));
    const index = this.indices.get(entry);
    if (index) {
      (entry.literals as number[]).push(node, slot);
      index.set(node, slot);
    } else entry.literals = literals.length === 0 ? [node, slot] : withOneMore(withOneMore(literals, node), slot);
    return slot;
  }

  private slotOfPiece(entry: Entry, node: Node, literal: Literal, piece: Piece, name?: string): number {
    const key = `${node}@${piece.key}`;
    const known = entry.pieceLiterals?.get(key);
    if (known !== undefined) return known;
    const slot = this.inputSlot(entry, ofPiece(placeOf(entry, node, literal, name), piece));
    if (piece.sums.length > 0) this.slots.sums.set(slot, piece.sums);
    (entry.pieceLiterals ??= new Map()).set(key, slot);
    return slot;
  }

  private find(entry: Entry, literals: readonly number[], node: Node): number | undefined {
    if (literals.length < MANY) {
      for (let i = 0; i < literals.length; i += 2) if (literals[i] === node) return literals[i + 1];
      return undefined;
    }
    let index = this.indices.get(entry);
    if (!index) {
      index = new Map();
      for (let i = 0; i < literals.length; i += 2) index.set(literals[i], literals[i + 1]);
      entry.literals = [...literals];
      this.indices.set(entry, index);
    }
    return index.get(node);
  }

  /** The slot of a constant in the code of an entry; it may be the number of a table. */
  constant(entry: Entry, value: number, of?: "table"): number {
    let held = this.held.get(entry);
    if (!held) this.held.set(entry, (held = { values: [] }));
    held.values.push(value);
    if (of === "table") {
      (held.tables ??= []).push(value);
      hold(value);
    }
    let constant = this.constants.get(value);
    if (constant === undefined) {
      constant = { slot: this.slots.takeOne(), uses: 0 };
      this.slots.setConstant(constant.slot, value);
      this.constants.set(value, constant);
    }
    constant.uses++;
    return constant.slot;
  }

  /** The literals of an entry are compiled away, or about to be compiled again. */
  release(entry: Entry): void {
    const held = this.held.get(entry);
    if (held) {
      this.held.delete(entry);
      this.letGo.push(held);
    }
    if (!entry.literals) return;
    const slots = this.released.get(entry)?.slots ?? [];
    for (const slot of entry.literalSlots) slots.push(slot);
    if (entry.pieceLiterals) slots.push(...entry.pieceLiterals.values());
    this.released.set(entry, { slots, next: 0, asked: 0 });
    this.indices.delete(entry);
    entry.literals = entry.pieceLiterals = undefined;
  }

  giveBackReleased(): void {
    for (const { slots } of this.released.values()) {
      for (const slot of slots) {
        if (slot === TAKEN) continue;
        this.inputs.delete(slot);
        this.slots.giveBack({ from: slot, length: 1 });
      }
    }
    this.released.clear();
    for (const { values, tables } of this.letGo) {
      for (const value of values) {
        const constant = this.constants.get(value)!;
        if (--constant.uses > 0) continue;
        this.constants.delete(value);
        this.slots.giveBack({ from: constant.slot, length: 1 });
      }
      tables?.forEach(letGo);
    }
    this.letGo.length = 0;
  }

  /**
   * A slot for an uncertain literal. One that was there before, with the same name and limits, keeps its slot; any other
   * gets a new one, by which all that rests on it hears that it changed.
   */
  private inputSlot(entry: Entry, place: InputPlace): number {
    const released = this.released.get(entry);
    const again = released && takeAgain(released, (slot) => sameData(this.inputs.get(slot), place), "anywhere");
    const slot = again ?? this.slots.takeOne();
    this.slots.setInput(slot, place.nominal, place.low, place.high);
    if (again !== undefined) this.slots.sums.delete(slot);
    this.inputs.set(slot, place);
    return slot;
  }

  private exactSlot(entry: Entry, value: number): number {
    const released = this.released.get(entry);
    const again =
      released &&
      takeAgain(released, (slot) => !this.inputs.has(slot) && Object.is(this.slots.nominal[slot], value), "nearby");
    const slot = again ?? this.slots.takeOne();
    this.slots.setConstant(slot, value);
    return slot;
  }
}

/** How far a slot that is to be given back is looked for. */
type Reach = "nearby" | "anywhere";

/**
 * A slot that the entry had before, if it is what is looked for; it is then no longer released. Literals are compiled in the
 * order in which they were before: behind the last that was found, or, where one has changed, at the same place. An uncertain
 * one is looked for anywhere, since by its slot it is known to what rests on it.
 */
function takeAgain(released: Released, isIt: (slot: number) => boolean, reach: Reach): number | undefined {
  const { slots, next } = released;
  const isFree = (at: number) => at < slots.length && slots[at] !== TAKEN && isIt(slots[at]);
  const place = released.asked++;
  let at = isFree(next) ? next : isFree(place) ? place : -1;
  if (at < 0 && reach === "anywhere") at = slots.findIndex((_, i) => isFree(i));
  if (at < 0) return undefined;
  const slot = slots[at];
  slots[at] = TAKEN;
  released.next = at + 1;
  return slot;
}
