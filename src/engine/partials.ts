import { NOTHING, ONE, SQUARE } from "./coneOperations";
import { slopeOnCurve } from "./lookups";
import { Op } from "./operation";

/**
 * The adjoint arithmetic: the partial derivatives of each operation at a point, by its operands.
 *
 * Where an operation jumps, it is flat on either side, and the derivative is 0. At a kink (|x| at 0, the smaller of two
 * equal values) it is the mean of those on either side. It is not finite where a root starts and undefined where there
 * is none, as that of (−2)^y by y.
 */
export type Partials = (out: Float64Array, x: number, y: number, z: number, value: number) => void;

const one: (derivative: (x: number, value: number) => number) => Partials = (derivative) => (out, x, _y, _z, value) => {
  out[0] = derivative(x, value);
};

const two: (byX: (x: number, y: number, value: number) => number, byY: typeof byX) => Partials =
  (byX, byY) => (out, x, y, _z, value) => {
    out[0] = byX(x, y, value);
    out[1] = byY(x, y, value);
  };

const flat: Partials = (out) => {
  out.fill(0);
};

/** Of two values, the share that the first has in the one that is picked. */
const picked = (isPicked: (x: number, y: number) => boolean): Partials =>
  two(
    (x, y) => (x === y ? 0.5 : isPicked(x, y) ? 1 : 0),
    (x, y) => (x === y ? 0.5 : isPicked(x, y) ? 0 : 1),
  );

const TABLE: Readonly<Record<Op, Partials>> = {
  [Op.Store]: one(() => 1),
  [Op.Add]: two(
    () => 1,
    () => 1,
  ),
  [Op.Subtract]: two(
    () => 1,
    () => -1,
  ),
  [Op.Multiply]: two(
    (_x, y) => y,
    (x) => x,
  ),
  [Op.Total]: two(
    (_x, y) => y,
    (x) => x,
  ),
  [Op.Divide]: two(
    (_x, y) => 1 / y,
    (_x, y, value) => -value / y,
  ),
  [Op.Negate]: one(() => -1),
  [Op.Power]: two(
    (x, y) => (y === 0 ? 0 : y * x ** (y - 1)),
    (x, y, value) => (x > 0 ? value * Math.log(x) : x === 0 && y > 0 ? 0 : NaN),
  ),
  [Op.SquareRoot]: one((_x, value) => 0.5 / value),
  [Op.CubeRoot]: one((_x, value) => 1 / (3 * value * value)),
  [Op.Exp]: one((_x, value) => value),
  [Op.Ln]: one((x) => 1 / x),
  [Op.Log10]: one((x) => 1 / (x * Math.LN10)),
  [Op.Log2]: one((x) => 1 / (x * Math.LN2)),
  [Op.Sin]: one((x) => Math.cos(x)),
  [Op.Cos]: one((x) => -Math.sin(x)),
  [Op.Tan]: one((_x, value) => 1 + value * value),
  [Op.Asin]: one((x) => 1 / Math.sqrt(1 - x * x)),
  [Op.Acos]: one((x) => -1 / Math.sqrt(1 - x * x)),
  [Op.Atan]: one((x) => 1 / (1 + x * x)),
  [Op.Sinh]: one((x) => Math.cosh(x)),
  [Op.Cosh]: one((x) => Math.sinh(x)),
  [Op.Tanh]: one((_x, value) => 1 - value * value),
  [Op.Abs]: one((x) => Math.sign(x)),
  [Op.Sign]: flat,
  [Op.Floor]: flat,
  [Op.Ceil]: flat,
  [Op.Round]: flat,
  [Op.Min]: picked((x, y) => x < y),
  [Op.Max]: picked((x, y) => x > y),
  [Op.Modulo]: two(
    () => 1,
    (x, y, value) => (value - x) / y,
  ),
  [Op.Atan2]: two(
    (y, x) => x / (x * x + y * y),
    (y, x) => -y / (x * x + y * y),
  ),
  [Op.Hypot]: two(
    (x, _y, value) => (value === 0 ? 0 : x / value),
    (_x, y, value) => (value === 0 ? 0 : y / value),
  ),
  [Op.Parallel]: two(
    (x, y) => (y / (x + y)) ** 2,
    (x, y) => (x / (x + y)) ** 2,
  ),
  [Op.Less]: flat,
  [Op.LessOrEqual]: flat,
  [Op.Equal]: flat,
  [Op.And]: flat,
  [Op.Or]: flat,
  [Op.Not]: flat,
  [Op.Nearest]: flat,
  [Op.Below]: flat,
  [Op.Above]: flat,
  [Op.StepLookup]: flat,
  [Op.ExactLookup]: flat,
  [Op.PairMember]: flat,
  [Op.Interpolate]: two(
    (x, table) => slopeOnCurve(table, x),
    () => 0,
  ),
  [Op.If]: (out, condition) => {
    out[0] = 0;
    out[1] = condition === 1 ? 1 : 0;
    out[2] = condition === 1 ? 0 : 1;
  },
  [Op.Resistance]: one(() => 1),
  [Op.Share]: two(
    (x, y) => y / (x + y) ** 2,
    (x, y) => -x / (x + y) ** 2,
  ),
  [Op.Blend]: (out, w, x, y) => {
    out[0] = x - y;
    out[1] = w;
    out[2] = 1 - w;
  },
  [Op.Bracketed]: flat,
  [Op.Centre]: flat,
  [Op.Contract]: flat,
  [Op.Settled]: flat,
  [Op.Solution]: (out, _x, _residual, slope) => {
    out[0] = out[2] = 0;
    out[1] = -1 / slope;
  },
};

/** The partial derivatives of each operation on the tape of a cone, by its number. */
export const PARTIALS: readonly Partials[] = Object.assign([], TABLE, {
  [SQUARE]: one((x) => 2 * x),
  [NOTHING]: flat,
  [ONE]: flat,
});
