import * as interval from "./interval";
import { Op, type Operation } from "./operation";
import { outward, slope } from "./operationParts";

/**
 * The operations that a network is solved with, beside plain ones. Each has its operands once, so that its range is
 * attained: that of `g / (g + h)` written out would leave [0, 1], and a chain of such shares soon says nothing.
 */
export const NETWORK_OPERATIONS = {
  /** A resistance, which is above zero. */
  [Op.Resistance]: {
    name: "resistance",
    kind: "smooth",
    arity: 1,
    number: (r) => (r > 0 ? r : NaN),
    range: (out, low, high) => {
      if (low > 0) interval.set(out, low, high);
      else interval.undefinedRange(out);
    },
    slopes: (out) => slope(out, 1, 1),
    trouble: "has a resistance that is not above zero",
  },
  /** Of two conductances side by side, the share of the current that the first takes. */
  [Op.Share]: {
    name: "share of current",
    kind: "smooth",
    arity: 2,
    number: share,
    range: (out, gLow, gHigh, hLow, hHigh) => {
      if (!(gLow > 0 && hLow > 0)) return interval.undefinedRange(out);
      interval.rising(out, (x) => x, share(gLow, hHigh), share(gHigh, hLow));
      out[0] = Math.max(0, out[0]);
      out[1] = Math.min(1, out[1]);
    },
    slopes: (out, gLow, gHigh, hLow, hHigh) => {
      if (!(gLow > 0 && hLow > 0)) {
        out.fill(-Infinity).fill(Infinity, 1, 2).fill(Infinity, 3, 4);
        return;
      }
      // By the first: (1 − share) / (g + h). By the second: −share / (g + h).
      const [least, most] = [gLow + hLow, gHigh + hHigh];
      slope(out, outward(share(hLow, gHigh) / most, -1), outward(share(hHigh, gLow) / least, 1));
      out[2] = outward(-share(gHigh, hLow) / least, -1);
      out[3] = outward(-share(gLow, hHigh) / most, 1);
    },
    trouble: "has a resistance that is not above zero",
  },
  /** The mean of two values, of which the first has the weight w, from 0 to 1. */
  [Op.Blend]: {
    name: "weighted mean",
    kind: "smooth",
    arity: 3,
    number: (w, x, y) => (w >= 0 && w <= 1 && !Number.isNaN(x + y) ? blend(w, x, y) : NaN),
    range: (out, wLow, wHigh, xLow, xHigh, yLow, yHigh) => {
      if (!(wLow >= 0 && wHigh <= 1)) return interval.undefinedRange(out);
      const low = Math.min(blend(wLow, xLow, yLow), blend(wHigh, xLow, yLow));
      const high = Math.max(blend(wLow, xHigh, yHigh), blend(wHigh, xHigh, yHigh));
      const noise = (x: number, y: number) => ROUNDING * Math.max(Math.abs(x), Math.abs(y));
      interval.set(
        out,
        Math.max(Math.min(xLow, yLow), unless(low - noise(xLow, yLow), -Infinity)),
        Math.min(Math.max(xHigh, yHigh), unless(high + noise(xHigh, yHigh), Infinity)),
      );
    },
    slopes: (out, wLow, wHigh, xLow, xHigh, yLow, yHigh) => {
      slope(out, outward(xLow - yHigh, -1), outward(xHigh - yLow, 1));
      out[2] = wLow;
      out[3] = wHigh;
      out[4] = outward(1 - wHigh, -1);
      out[5] = outward(1 - wLow, 1);
    },
    trouble: "has no weight between 0 and 1",
  },
} satisfies Partial<Record<Op, Operation>>;

/** What two products and their sum may be off by, relative to the larger value, and doubled to be safe. */
const ROUNDING = 2 ** -50;

function share(g: number, h: number): number {
  if (!(g > 0 && h > 0)) return NaN;
  return g >= h ? 1 / (1 + h / g) : g / h / (1 + g / h);
}

function blend(w: number, x: number, y: number): number {
  return (w === 0 ? 0 : w * x) + (w === 1 ? 0 : (1 - w) * y);
}

function unless(x: number, otherwise: number): number {
  return Number.isNaN(x) ? otherwise : x;
}
