import { BoxRunner } from "./boxRunner";
import type { Cone } from "./cone";
import { CONE_OPERATIONS } from "./coneOperations";
import type { Ends } from "./interval";

/**
 * A result that jumps, as `floor(x) + 1` does, hides from a search how x moves it. But what comes last and only rises, or
 * only falls, takes the ends of x to its own: so x is searched, and its ends are taken through these operations.
 */
export interface OuterSteps {
  /** The cone of x. */
  readonly inner: Cone;
  /** The highest comes of the lowest. */
  readonly falls: boolean;
  /** Bounds of the result for bounds of x. */
  range(low: number, high: number): readonly [number, number];
  /** The result for one x. */
  number(x: number): number;
}

/** One operation, of which an operand varies and the others are constants. */
interface Step {
  /** Its place among the cone's operations. */
  readonly at: number;
  readonly varying: number;
  readonly falls: boolean;
}

/** The operations of a cone that come last, down to the innermost that jumps; undefined where none does. */
export function outerStepsOf(cone: Cone): OuterSteps | undefined {
  const steps = stepsOf(cone);
  if (steps.length === 0) return undefined;
  const { constants, inputs, op } = cone;
  const base = inputs.length + constants.length;
  const inner = steps[steps.length - 1].varying;
  const count = Math.max(0, inner + 1 - base);
  const inward = [...steps].reverse();
  const ends: Ends = new Float64Array(6);
  const operands = (at: number) => [cone.a[at], cone.b[at], cone.c[at]] as const;
  const constant = (register: number) => constants[register - inputs.length];
  return {
    inner: {
      ...cone,
      op: op.slice(0, count),
      a: cone.a.slice(0, count),
      b: cone.b.slice(0, count),
      c: cone.c.slice(0, count),
      row: cone.row.slice(0, count),
      result: inner,
    },
    falls: steps.filter(({ falls }) => falls).length % 2 === 1,
    range(low, high) {
      let bounds: readonly [number, number] = [low, high];
      for (const { at, varying } of inward) {
        const [x, y, z] = operands(at).map((register) =>
          register === varying ? bounds : ([constant(register), constant(register)] as const),
        );
        CONE_OPERATIONS[op[at]].range(ends, x[0], x[1], y[0], y[1], z[0], z[1]);
        bounds = [ends[0], ends[1]];
      }
      return bounds;
    },
    number(value) {
      let result = value;
      for (const { at, varying } of inward) {
        const [x, y, z] = operands(at).map((register) => (register === varying ? result : constant(register)));
        result = CONE_OPERATIONS[op[at]].number(x, y, z);
      }
      return result;
    },
  };
}

/** From the result inward, as long as one operand varies and the operation rises or falls by it over all that it can be. */
function stepsOf(cone: Cone): readonly Step[] {
  const { inputs, constants, op, a, b, c } = cone;
  const base = inputs.length + constants.length;
  if (!op.some((code) => CONE_OPERATIONS[code].kind === "jumps")) return [];
  const runner = new BoxRunner(cone);
  runner.forward(Float64Array.from(inputs.flatMap(({ low, high }) => [low, high])));
  const { low, high } = runner;
  const ends: Ends = new Float64Array(6);
  const steps: Step[] = [];
  let jumping = 0;
  for (let register = cone.result; register >= base;) {
    const at = register - base;
    const { arity, kind, slopes } = CONE_OPERATIONS[op[at]];
    const operands = [a[at], b[at], c[at]].slice(0, arity);
    const varying = operands.filter((operand) => operand < inputs.length || operand >= base);
    if (varying.length !== 1) break;
    const place = operands.indexOf(varying[0]);
    slopes(ends, low[a[at]], high[a[at]], low[b[at]], high[b[at]], low[c[at]], high[c[at]]);
    const [least, greatest] = [ends[2 * place], ends[2 * place + 1]];
    if (!(least >= 0 || greatest <= 0) || !isBoundedOver(low[register], high[register])) break;
    steps.push({ at, varying: varying[0], falls: !(least >= 0) });
    if (kind === "jumps") jumping = steps.length;
    register = varying[0];
  }
  return steps.slice(0, jumping);
}

function isBoundedOver(low: number, high: number): boolean {
  return Number.isFinite(low) && Number.isFinite(high);
}
