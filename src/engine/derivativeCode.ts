import { Op } from "./operation";

/** Appends an operation; the operand that names its result. */
export type Emit = (op: Op, a: number, b?: number, c?: number) => number;

/** An operation whose derivative is wanted: its operands, its result, and the derivatives of its operands where they have any. */
export interface Differentiated {
  readonly op: Op;
  readonly operands: readonly [number, number, number];
  readonly value: number;
  readonly derivatives: readonly [number | undefined, number | undefined, number | undefined];
}

/**
 * The operations that compute a derivative, by the rules of differentiation; "jumps" where there is none because the operation
 * jumps or is not known here. Constants are asked for by value.
 */
export function derivativeOf(
  { op, operands: [a, b], value, derivatives: [da, db, dc] }: Differentiated,
  emit: Emit,
  constant: (value: number) => number,
): number | undefined | "jumps" {
  const times = (d: number | undefined, factor: () => number) =>
    d === undefined ? undefined : emit(Op.Multiply, d, factor());
  const sum = (left: number | undefined, right: number | undefined) =>
    left === undefined ? right : right === undefined ? left : emit(Op.Add, left, right);
  const over = (d: number, divisor: number) => emit(Op.Divide, d, divisor);
  const square = (x: number) => emit(Op.Multiply, x, x);
  const one = () => constant(1);
  const or = (d: number | undefined) => d ?? constant(0);
  if (da === undefined && db === undefined && dc === undefined) return undefined;
  switch (op) {
    case Op.Add:
      return sum(da, db);
    case Op.Subtract:
      return db === undefined ? da : da === undefined ? emit(Op.Negate, db) : emit(Op.Subtract, da, db);
    case Op.Negate:
      return emit(Op.Negate, da!);
    case Op.Multiply:
      if (a === b) return times(da, () => emit(Op.Multiply, constant(2), a));
      return sum(
        times(da, () => b),
        times(db, () => a),
      );
    case Op.Divide: {
      const byA = da === undefined ? undefined : over(da, b);
      const byB = db === undefined ? undefined : emit(Op.Negate, over(emit(Op.Multiply, db, value), b));
      return sum(byA, byB);
    }
    case Op.Power:
      if (db !== undefined) return sum(powerByBase(), emit(Op.Multiply, db, emit(Op.Multiply, value, emit(Op.Ln, a))));
      return powerByBase();
    case Op.SquareRoot:
      return over(da!, emit(Op.Multiply, constant(2), value));
    case Op.CubeRoot:
      return over(da!, emit(Op.Multiply, constant(3), square(value)));
    case Op.Exp:
      return emit(Op.Multiply, da!, value);
    case Op.Ln:
      return over(da!, a);
    case Op.Log10:
      return over(da!, emit(Op.Multiply, constant(Math.LN10), a));
    case Op.Log2:
      return over(da!, emit(Op.Multiply, constant(Math.LN2), a));
    case Op.Sin:
      return emit(Op.Multiply, da!, emit(Op.Cos, a));
    case Op.Cos:
      return emit(Op.Negate, emit(Op.Multiply, da!, emit(Op.Sin, a)));
    case Op.Tan:
      return emit(Op.Multiply, da!, emit(Op.Add, one(), square(value)));
    case Op.Asin:
      return over(da!, emit(Op.SquareRoot, emit(Op.Subtract, one(), square(a))));
    case Op.Acos:
      return emit(Op.Negate, over(da!, emit(Op.SquareRoot, emit(Op.Subtract, one(), square(a)))));
    case Op.Atan:
      return over(da!, emit(Op.Add, one(), square(a)));
    case Op.Sinh:
      return emit(Op.Multiply, da!, emit(Op.Cosh, a));
    case Op.Cosh:
      return emit(Op.Multiply, da!, emit(Op.Sinh, a));
    case Op.Tanh:
      return emit(Op.Multiply, da!, emit(Op.Subtract, one(), square(value)));
    case Op.Hypot:
      return over(
        sum(
          times(da, () => a),
          times(db, () => b),
        )!,
        value,
      );
    case Op.Parallel: {
      const total = () => emit(Op.Add, a, b);
      return sum(
        times(da, () => square(over(b, total()))),
        times(db, () => square(over(a, total()))),
      );
    }
    case Op.Abs:
      return emit(Op.Multiply, da!, emit(Op.Sign, a));
    // At the kink either derivative will do: where it is not decided, a range has both.
    case Op.Min:
      return emit(Op.If, emit(Op.Less, a, b), or(da), or(db));
    case Op.Max:
      return emit(Op.If, emit(Op.Less, a, b), or(db), or(da));
    case Op.If:
      return da === undefined ? emit(Op.If, a, or(db), or(dc)) : "jumps";
    default:
      return "jumps";
  }

  function powerByBase(): number | undefined {
    if (da === undefined) return undefined;
    const lower = emit(Op.Power, a, emit(Op.Subtract, b, constant(1)));
    return emit(Op.Multiply, da, emit(Op.Multiply, b, lower));
  }
}
