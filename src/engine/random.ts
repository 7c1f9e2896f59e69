/**
 * Pseudo-random numbers that are the same on every machine, seeded by text.
 *
 * Generator: xoshiro128++ 1.0 (D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM Trans. Math.
 * Softw. 47, 2021): period 2¹²⁸ − 1, passes BigCrush, and needs 32-bit operations only. It meets what JCGM 101:2008,
 * 6.4.3 and annex C ask of a generator. An even draw takes two of its words, so that every double has its 53 bits.
 * Normal draws: the ziggurat of G. Marsaglia and W. W. Tsang (J. Stat. Softw. 5(8), 2000) with layer and place drawn
 * from separate bits, as J. A. Doornik (2005) showed to be necessary.
 * Draws of Student's t: R. W. Bailey, Polar generation of random variates with the t-distribution, Math. Comp. 62 (1994).
 */
export const GENERATOR = "xoshiro128++";

export class Random {
  private readonly state = new Uint32Array(4);

  constructor(seed: string | readonly [number, number, number, number]) {
    this.state.set(typeof seed === "string" ? hash(seed) : seed);
  }

  /** The next 32 bits. */
  word(): number {
    const { state } = this;
    const sum = (state[0] + state[3]) | 0;
    const result = (((sum << 7) | (sum >>> 25)) + state[0]) >>> 0;
    const shifted = state[1] << 9;
    state[2] ^= state[0];
    state[3] ^= state[1];
    state[1] ^= state[2];
    state[0] ^= state[3];
    state[2] ^= shifted;
    state[3] = (state[3] << 11) | (state[3] >>> 21);
    return result;
  }

  /** Evenly spread, never 0 and never 1. */
  unit(): number {
    return this.word() * 2 ** -32 + ((this.word() >>> 11) + 0.5) * 2 ** -53;
  }

  /** The first `count` places, evenly spread between the limits. The generator is written out for the sake of speed. */
  fillEven(out: Float64Array, count: number, low: number, high: number): void {
    const { state } = this;
    const width = high - low;
    let s0 = state[0] | 0;
    let s1 = state[1] | 0;
    let s2 = state[2] | 0;
    let s3 = state[3] | 0;
    for (let i = 0; i < count; i++) {
      let sum = (s0 + s3) | 0;
      const first = (((sum << 7) | (sum >>> 25)) + s0) | 0;
      let shifted = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= shifted;
      s3 = (s3 << 11) | (s3 >>> 21);
      sum = (s0 + s3) | 0;
      const second = (((sum << 7) | (sum >>> 25)) + s0) | 0;
      shifted = s1 << 9;
      s2 ^= s0;
      s3 ^= s1;
      s1 ^= s2;
      s0 ^= s3;
      s2 ^= shifted;
      s3 = (s3 << 11) | (s3 >>> 21);
      out[i] = low + width * ((first >>> 0) * 2 ** -32 + ((second >>> 11) + 0.5) * 2 ** -53);
    }
    state[0] = s0;
    state[1] = s1;
    state[2] = s2;
    state[3] = s3;
  }

  /** Normal, with that mean and standard deviation. */
  fillNormal(out: Float64Array, count: number, mean: number, deviation: number): void {
    for (let i = 0; i < count; i++) out[i] = mean + deviation * this.normal();
  }

  /** mean + scale·t with that many degrees of freedom (JCGM 101, 6.4.9.2). */
  fillStudent(out: Float64Array, count: number, mean: number, scale: number, degreesOfFreedom: number): void {
    for (let i = 0; i < count; i++) out[i] = mean + scale * this.student(degreesOfFreedom);
  }

  /** Standard normal. */
  normal(): number {
    for (;;) {
      const word = this.word();
      const layer = word & (LAYERS - 1);
      const place = (word >>> 7) * 2 ** -24 + this.word() * 2 ** -56 - 1;
      if (Math.abs(place) < INNER[layer]) return place * EDGE[layer];
      if (layer === 0) return this.normalTail(place < 0);
      const x = place * EDGE[layer];
      const outer = Math.exp(-0.5 * (EDGE[layer] ** 2 - x * x));
      const inner = Math.exp(-0.5 * (EDGE[layer + 1] ** 2 - x * x));
      if (outer + this.unit() * (inner - outer) < 1) return x;
    }
  }

  /** χ² with one degree of freedom, or with two or more: G. Marsaglia, W. W. Tsang, ACM Trans. Math. Softw. 26 (2000). */
  chiSquared(degreesOfFreedom: number): number {
    if (degreesOfFreedom === 1) return this.normal() ** 2;
    const d = degreesOfFreedom / 2 - 1 / 3;
    for (;;) {
      const x = this.normal();
      const v = (1 + x / Math.sqrt(9 * d)) ** 3;
      if (v > 0 && Math.log(this.unit()) < 0.5 * x * x + d * (1 - v + Math.log(v))) return 2 * d * v;
    }
  }

  /** Beyond the last layer: G. Marsaglia (1964). */
  private normalTail(isNegative: boolean): number {
    for (;;) {
      const x = -Math.log(this.unit()) / EDGE[1];
      if (-2 * Math.log(this.unit()) >= x * x) return isNegative ? -EDGE[1] - x : EDGE[1] + x;
    }
  }

  private student(degreesOfFreedom: number): number {
    for (;;) {
      const u = 2 * this.unit() - 1;
      const v = 2 * this.unit() - 1;
      const square = u * u + v * v;
      if (square < 1 && square > 0)
        return u * Math.sqrt((degreesOfFreedom * Math.expm1((-2 / degreesOfFreedom) * Math.log(square))) / square);
    }
  }
}

/** 128 layers of equal area: `EDGE[i]` is where layer i ends, `INNER[i]` how much of it lies wholly under the curve. */
const LAYERS = 128;
const EDGE = new Float64Array(LAYERS + 1);
const INNER = new Float64Array(LAYERS);
{
  const LAST_EDGE = 3.442619855899;
  const AREA = 9.91256303526217e-3;
  const height = (x: number) => Math.exp(-0.5 * x * x);
  EDGE[0] = AREA / height(LAST_EDGE);
  EDGE[1] = LAST_EDGE;
  for (let i = 2; i < LAYERS; i++) EDGE[i] = Math.sqrt(-2 * Math.log(AREA / EDGE[i - 1] + height(EDGE[i - 1])));
  EDGE[LAYERS] = 0;
  for (let i = 0; i < LAYERS; i++) INNER[i] = EDGE[i + 1] / EDGE[i];
}

/**
 * 128 bits from text: four FNV-1a sums over its UTF-16 units from different starts, each mixed at the end
 * (the finalizer of MurmurHash3), so that seeds that differ in one letter differ everywhere.
 */
function hash(text: string): number[] {
  const sums = [0x811c9dc5, 0x9e3779b9, 0x85ebca6b, 0xc2b2ae35];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    for (let k = 0; k < sums.length; k++) sums[k] = Math.imul(sums[k] ^ (unit + k), 0x01000193);
  }
  const words = sums.map((sum) => {
    sum = Math.imul(sum ^ (sum >>> 16), 0x85ebca6b);
    sum = Math.imul(sum ^ (sum >>> 13), 0xc2b2ae35);
    return (sum ^ (sum >>> 16)) >>> 0;
  });
  /** The state must not be all zeros, which the generator would never leave. */
  return words.some((word) => word !== 0) ? words : [1, 2, 3, 4];
}
