import type { Cone } from "./cone";
import { CONE_OPERATIONS, NOTHING, ONE, SQUARE } from "./coneOperations";
import { Op } from "./operation";

/**
 * One loop for a whole cone, where the kernels have one for each operation: what comes between stays in registers of the
 * processor. The code is put together from the numbers of operations and of registers only; no text of a note gets
 * into it, and constants are read from memory.
 */
export type Loop = (count: number) => void;

/** Most operations in one generated function: longer ones are not compiled well, or not at all. */
const MOST_OPERATIONS = 500;

/**
 * The loops that compute a cone on blocks in `memory`, to be run in order; each register has its block at `places`.
 * Undefined where generated code is forbidden, as in a page with a strict content security policy.
 */
export function fused(cone: Cone, memory: Float64Array, places: Int32Array): readonly Loop[] | undefined {
  const loops: Loop[] = [];
  try {
    for (let from = 0; from < cone.op.length; from += MOST_OPERATIONS) {
      const code = codeOf(cone, places, from, Math.min(cone.op.length, from + MOST_OPERATIONS));
      const make = new Function("memory", "functions", code) as (memory: Float64Array, functions: unknown) => Loop;
      loops.push(make(memory, FUNCTIONS));
    }
    return loops;
  } catch (error) {
    if (error instanceof EvalError) return undefined;
    throw error;
  }
}

const FUNCTIONS = CONE_OPERATIONS.map(({ number }) => number);

/** Operations that are an expression of their operands x, y and z; the others call their number function. */
const EXPRESSIONS: Readonly<Record<number, ((x: string, y: string, z: string) => string) | undefined>> = {
  [Op.Store]: (x) => x,
  [Op.Add]: (x, y) => `${x} + ${y}`,
  [Op.Subtract]: (x, y) => `${x} - ${y}`,
  [Op.Multiply]: (x, y) => `${x} * ${y}`,
  [Op.Total]: (x, y) => `${x} * ${y}`,
  [Op.Divide]: (x, y) => `${x} / ${y}`,
  [Op.Negate]: (x) => `-${x}`,
  [Op.SquareRoot]: (x) => `Math.sqrt(${x})`,
  [Op.Exp]: (x) => `Math.exp(${x})`,
  [Op.Ln]: (x) => `Math.log(${x})`,
  [Op.Sin]: (x) => `Math.sin(${x})`,
  [Op.Cos]: (x) => `Math.cos(${x})`,
  [Op.Abs]: (x) => `Math.abs(${x})`,
  [Op.Min]: (x, y) => `Math.min(${x}, ${y})`,
  [Op.Max]: (x, y) => `Math.max(${x}, ${y})`,
  [Op.And]: (x, y) => `${x} * ${y}`,
  [Op.Not]: (x) => `1 - ${x}`,
  [Op.If]: (x, y, z) => `(${x} === 1 ? ${y} : ${x} === 0 ? ${z} : NaN)`,
  [SQUARE]: (x) => `${x} * ${x}`,
  [NOTHING]: (x) => `${x} - ${x}`,
  [ONE]: (x) => `${x} / ${x}`,
};

/**
 * Operands that, infinite, need not make the expression so: 1/∞ is 0. Of the expressions that are not here the result is
 * infinite or NaN whenever an operand that matters is, and so it is enough to look at the end for both.
 */
const HIDDEN: Readonly<Record<number, readonly number[] | undefined>> = {
  [Op.Divide]: [1],
  [Op.Exp]: [0],
  [Op.Min]: [0, 1],
  [Op.Max]: [0, 1],
};
const ALL_OPERANDS = [0, 1, 2];

/**
 * `const r7 = memory[1792 + i];` for what an operation reads and was not computed here; `const r9 = r7 / r8 + (r8 - r8);`,
 * where the difference makes the result NaN if r8 is not finite; `memory[2304 + i] = r9 + (r9 - r9);` if it is read elsewhere.
 */
function codeOf(cone: Cone, places: Int32Array, from: number, to: number): string {
  const first = cone.inputs.length + cone.constants.length;
  const before: string[] = [];
  const lines: string[] = [];
  const known = new Set<number>();
  const read = (register: number): string => {
    if (!known.has(register)) {
      known.add(register);
      const isConstant = register >= cone.inputs.length && register < first;
      if (isConstant) before.push(`const r${register} = memory[${places[register]}];`);
      else lines.push(`const r${register} = memory[${places[register]} + i];`);
    }
    return `r${register}`;
  };
  const isReadLater = readFrom(cone, to);
  for (let k = from; k < to; k++) {
    const op = cone.op[k];
    const registers = [cone.a[k], cone.b[k], cone.c[k]].slice(0, CONE_OPERATIONS[op].arity);
    const [x, y = "0", z = "0"] = registers.map(read);
    const expression = EXPRESSIONS[op];
    const hidden = expression ? (HIDDEN[op] ?? []) : ALL_OPERANDS;
    const finite = registers.filter((register, i) => register >= first && hidden.includes(i));
    const computed = expression ? expression(x, y, z) : `functions[${op}](${x}, ${y}, ${z})`;
    const name = `r${first + k}`;
    known.add(first + k);
    lines.push(`const ${name} = ${[computed, ...finite.map((other) => `(r${other} - r${other})`)].join(" + ")};`);
    if (isReadLater(first + k)) lines.push(`memory[${places[first + k]} + i] = ${name} + (${name} - ${name});`);
  }
  return `${before.join("\n")}\nreturn (count) => { for (let i = 0; i < count; i++) {\n${lines.join("\n")}\n} };`;
}

/** Whether a register is the result, or read by an operation from that one on. */
function readFrom({ a, b, c, op, result }: Cone, from: number): (register: number) => boolean {
  const registers = new Set([result]);
  for (let k = from; k < op.length; k++) registers.add(a[k]).add(b[k]).add(c[k]);
  return (register) => registers.has(register);
}
