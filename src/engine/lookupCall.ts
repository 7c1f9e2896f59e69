import { RATIO } from "../quantity/dimension";
import { isSeriesName, SERIES_NAMES, type SeriesName } from "../quantity/series";
import type { Pairing } from "../quantity/seriesPairs";
import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { pairNumber } from "./lookups";
import type { Native } from "./natives";
import { quantity, textual, truth, type Operand } from "./operand";
import { Op } from "./operation";
import { areRising, pointTable, type Between } from "./pointTables";
import { commonUnit } from "./statedUnit";
import { nearestName } from "./suggest";

/** A call of a native function that looks something up, with its operands. */
interface LookupCall {
  readonly compiler: Compiler;
  readonly node: Node;
  readonly name: string;
  readonly native: Native;
  readonly operands: readonly Operand[];
}

/** `nearest("E24", x)`: a member of a series of preferred numbers. */
export function compileSeriesPick(call: LookupCall): Operand | undefined {
  const { compiler, node, native } = call;
  const [series, x] = seriesAndQuantity(call) ?? [];
  if (!series || !x) return undefined;
  const number = compiler.constant(Number(series.slice(1)));
  const at = x.at.map((each) => compiler.emit(native.op!, x.node, each, number));
  return quantity(node, x.dimension, at, { isList: x.isList, unit: commonUnit([x]) });
}

/** `pair_sum("E24", x)`: the list of the two members that come nearest to it together. */
export function compilePair(call: LookupCall): Operand | undefined {
  const { compiler, node, name } = call;
  const [series, x] = seriesAndQuantity(call) ?? [];
  if (!series || !x) return undefined;
  const pairing = name.slice(name.indexOf("_") + 1) as Pairing;
  if (x.isList)
    return compiler.fail(x.node, { code: "list.unexpected", where: `in ${name}(…)`, text: compiler.text(x.node) });
  if (pairing === "ratio" && x.dimension !== RATIO)
    return compiler.fail(x.node, { code: "unit.ratioNeeded", where: `${name}(…)`, side: compiler.side(x) });
  const at = ([0, 1] as const).map((member) =>
    compiler.emit(Op.PairMember, x.node, x.at[0], compiler.constant(pairNumber(series, pairing, member))),
  );
  return quantity(node, x.dimension, at, { isList: true, unit: commonUnit([x]) });
}

/** `first(list)`, `last(list)`. */
export function compileMemberOf({ compiler, node, name, operands: [list] }: LookupCall): Operand | undefined {
  if (!list.isList) return compiler.fail(list.node, { code: "list.needed", name, text: compiler.text(list.node) });
  return memberOf(list, name === "first" ? 0 : (list.texts?.length ?? list.at.length) - 1, node);
}

function seriesAndQuantity(call: LookupCall): readonly [SeriesName, Operand] | undefined {
  const { compiler, name, operands } = call;
  const [series, x] = operands;
  const written = series.kind === "text" && !series.isList ? series.texts![0] : "";
  if (!isSeriesName(written))
    return refuse(call, series, `takes the name of a series in quotes: "${SERIES_NAMES.join('", "')}"`);
  const isPlain = compiler.isQuantity(x, `in ${name}(…)`) && compiler.isPlain(x, `used in ${name}(…)`);
  return isPlain ? [written, x] : undefined;
}

/** `lookup(x, keys, values)`: the value at the last key that is not above x; at the very key for text or `"exact"`. */
export function compileLookup(call: LookupCall): Operand | undefined {
  const { compiler, name, operands } = call;
  const [x, keys, values, mode] = operands;
  const isExact = modeOf(call, mode, ["step", "exact"]);
  if (isExact === undefined || !areLists(call, keys, values)) return undefined;
  if (x.kind === "text") return lookupText(call);
  if (!compiler.isQuantity(x, `in ${name}(…)`) || !compiler.isQuantity(keys, `beside ${compiler.text(x.node)}`))
    return undefined;
  if (!compiler.isQuantity(values, `in ${name}(…)`)) return undefined;
  const numbers = keysOf(call, x, keys, isExact === "exact" ? "distinct" : "rising");
  if (!numbers) return undefined;
  return isExact === "exact" ? lookupExactly(call, numbers) : lookupByStep(call, numbers);
}

/** `interpolate(x, xs, ys)`: on straight lines through the points, or on the monotone cubic. */
export function compileInterpolation(call: LookupCall): Operand | undefined {
  const { compiler, name, operands } = call;
  const [x, keys, values, mode] = operands;
  const between = modeOf(call, mode, ["linear", "smooth"]);
  if (between === undefined || !areLists(call, keys, values)) return undefined;
  for (const operand of [x, keys, values]) if (!compiler.isQuantity(operand, `in ${name}(…)`)) return undefined;
  const numbers = keysOf(call, x, keys, "rising");
  if (!numbers) return undefined;
  if (numbers.length < 2)
    return compiler.fail(keys.node, { code: "lookup.keys", text: compiler.text(keys.node), reason: "too few" });
  if (between === "smooth" && !exactOf(compiler, values))
    return compiler.fail(values.node, { code: "lookup.keys", text: compiler.text(values.node), reason: "not exact" });
  return curve(call, numbers, between === "smooth" ? "smooth" : "line");
}

/** A text is looked up while compiling. */
function lookupText({ compiler, node, operands }: LookupCall): Operand | undefined {
  const [x, keys, values] = operands;
  if (x.isList) return compiler.refuseText(x, "where one text is looked up");
  if (!keys.texts) return compiler.refuseText(x, `beside \`${compiler.text(keys.node)}\``);
  const { places, doubled } = keysByText(keys.texts);
  if (doubled !== undefined)
    return compiler.fail(keys.node, {
      code: "lookup.keys",
      text: compiler.text(keys.node),
      reason: "doubled",
      doubled: { key: doubled, places: placesOf(doubled, keys.texts) },
    });
  const key = x.texts![0];
  const place = places.get(key);
  if (place === undefined) {
    const suggestion = nearestName(keys.texts, key);
    return compiler.fail(x.node, {
      code: "lookup.missing",
      text: key,
      keys: keys.texts,
      ...(suggestion === undefined ? {} : { suggestion }),
    });
  }
  return memberOf(values, place, node);
}

/** Where each text of a list stands, and one that stands there twice. */
interface KeysByText {
  readonly places: ReadonlyMap<string, number>;
  readonly doubled?: string;
}

/** The first two members of a list that are the same text, counted from 1. */
function placesOf(text: string, texts: readonly string[]): readonly [number, number] {
  const first = texts.indexOf(text);
  return [first + 1, texts.indexOf(text, first + 1) + 1];
}

/** A column is looked through once, however many rows of another look into it. */
const keysKnown = new WeakMap<readonly string[], KeysByText>();

function keysByText(texts: readonly string[]): KeysByText {
  const known = keysKnown.get(texts);
  if (known) return known;
  const places = new Map<string, number>();
  let doubled: string | undefined;
  texts.forEach((text, i) => {
    if (places.has(text)) doubled ??= text;
    else places.set(text, i);
  });
  const keys = { places, ...(doubled === undefined ? {} : { doubled }) };
  keysKnown.set(texts, keys);
  return keys;
}

function memberOf(list: Operand, place: number, node: Node): Operand {
  const { kind, at, constants, dimension, point, unit } = list;
  if (kind === "text") return textual(node, [list.texts![place]], false);
  if (kind === "truth") return truth(node, [at[place]], false);
  return quantity(node, dimension, [at[place]], { point, unit, constant: constants?.[place] });
}

/** Exact values are one operation; others are picked one after the other. */
function lookupByStep(call: LookupCall, keys: readonly number[]): Operand {
  const [x, , values] = call.operands;
  const { compiler } = call;
  const constants = exactOf(compiler, values);
  if (constants) {
    const table = compiler.constant(pointTable(keys, constants), "table");
    return looked(call, (at) => compiler.emit(Op.StepLookup, x.node, at, table));
  }
  const places = keys.map((_, i) => i);
  const table = compiler.constant(pointTable(keys, places), "table");
  return looked(call, (at) => picked(call, compiler.emit(Op.StepLookup, x.node, at, table)));
}

function lookupExactly(call: LookupCall, keys: readonly number[]): Operand {
  const [x, , values] = call.operands;
  const { compiler } = call;
  const constants = exactOf(compiler, values);
  const inOrder = keys.map((_, i) => i).sort((a, b) => keys[a] - keys[b]);
  const rising = inOrder.map((i) => keys[i]);
  const table = compiler.constant(pointTable(rising, constants ? inOrder.map((i) => constants[i]) : inOrder), "table");
  const found = (at: number) => compiler.emit(Op.ExactLookup, x.node, at, table);
  return looked(call, constants ? found : (at) => picked(call, found(at)));
}

/** The value at a place that is known on the tape only. */
function picked({ compiler, node, operands }: LookupCall, place: number): number {
  const [, , { at }] = operands;
  return at.reduce((before, value, i) => {
    const isThere = compiler.emit(Op.LessOrEqual, node, compiler.constant(i), place);
    return i === 0
      ? compiler.emit(Op.If, node, isThere, value, value)
      : compiler.emit(Op.If, node, isThere, value, before);
  }, at[0]);
}

/**
 * Exact values are one operation. Others are weighted: on straight lines the value is the sum of all, each with its weight
 * at x, which is a curve of its own.
 */
function curve(call: LookupCall, keys: readonly number[], between: Between): Operand {
  const [x, , values] = call.operands;
  const { compiler, node } = call;
  const constants = exactOf(compiler, values);
  if (constants) {
    const table = compiler.constant(pointTable(keys, constants, between), "table");
    return looked(call, (at) => compiler.emit(Op.Interpolate, x.node, at, table));
  }
  const weights = keys.map((_, i) =>
    compiler.constant(
      pointTable(
        keys,
        keys.map((_key, j) => (i === j ? 1 : 0)),
      ),
      "table",
    ),
  );
  return looked(call, (at) =>
    values.at
      .map((value, i) => compiler.emit(Op.Multiply, node, compiler.emit(Op.Interpolate, x.node, at, weights[i]), value))
      .reduce((sum, part) => compiler.emit(Op.Add, node, sum, part)),
  );
}

function looked({ node, operands }: LookupCall, find: (at: number) => number): Operand {
  const [x, , values] = operands;
  const { dimension, point } = values;
  return quantity(node, dimension, x.at.map(find), { point, isList: x.isList, unit: commonUnit([values]) });
}

/** The members of a list where all are exact: as they are written, else as they come to as things stand. */
function exactOf(compiler: Compiler, { at, constants }: Operand): readonly number[] | undefined {
  if (constants) return constants;
  const values = compiler.peek(at);
  const areExact = values.every(({ nominal, low, high }) => low === high && Number.isFinite(nominal));
  return areExact ? values.map(({ nominal }) => nominal) : undefined;
}

function modeOf(call: LookupCall, mode: Operand | undefined, known: readonly string[]): string | undefined {
  if (!mode) return known[0];
  const written = mode.kind === "text" && !mode.isList ? mode.texts![0] : undefined;
  if (written !== undefined && known.includes(written)) return written;
  return refuse(call, mode, `knows "${known.join('" and "')}" as its last argument`);
}

function areLists({ compiler, name }: LookupCall, keys: Operand, values: Operand): boolean {
  for (const list of [keys, values]) {
    if (list.isList) continue;
    compiler.fail(list.node, { code: "list.needed", name, text: compiler.text(list.node) });
    return false;
  }
  const [left, right] = [keys, values].map((list) => list.texts?.length ?? list.at.length);
  if (left === right) return true;
  compiler.fail(values.node, {
    code: "list.lengths",
    left: compiler.text(keys.node),
    leftLength: left,
    right: compiler.text(values.node),
    rightLength: right,
  });
  return false;
}

/** The keys as exact numbers of the kind of x; reported where they are not, or are not in order. */
function keysOf(
  { compiler, name }: LookupCall,
  x: Operand,
  keys: Operand,
  order: "rising" | "distinct",
): readonly number[] | undefined {
  if (!compiler.agree({ kind: "pick", name }, x, keys)) return undefined;
  const refused = (reason: "not exact" | "not rising" | "doubled") =>
    compiler.fail(keys.node, { code: "lookup.keys", text: compiler.text(keys.node), reason });
  const constants = exactOf(compiler, keys);
  if (!constants) return refused("not exact");
  if (order === "rising" && !areRising(constants)) return refused("not rising");
  if (!areRising([...constants].sort((a, b) => a - b))) return refused("doubled");
  return constants;
}

function refuse({ compiler, name, native }: LookupCall, at: Operand, reason: string): undefined {
  return compiler.fail(at.node, { code: "function.arguments", name, reason, signature: native.signature });
}
