/**
 * The correlation coefficient of two uncertain inputs, by their places among the inputs of a cone (JCGM 100:2008, 5.2).
 * Pairs that are not listed are independent.
 */
export interface Correlation {
  readonly a: number;
  readonly b: number;
  /** −1 .. 1 */
  readonly r: number;
}

/** Inputs that are correlated with each other, and how to make them so from as many independent normal numbers. */
export interface CorrelatedGroup {
  readonly inputs: readonly number[];
  /** Lower triangular, row by row: row i times the independent numbers is the i-th correlated one. */
  readonly factor: readonly Float64Array[];
}

/**
 * Whether there can be quantities with these correlations. Three that each pull strongly on the next may not be free to
 * pull against each other: the matrix must have no negative eigenvalue.
 */
export function canHoldTogether(correlations: readonly Correlation[]): boolean {
  return groups(correlations, ({ r }) => r).every(({ isExact }) => isExact);
}

/**
 * The groups of inputs that hang together, with their factors (Cholesky, JCGM 101:2008, C.5). `ofNormals` gives the
 * coefficient that the normal numbers must have for a pair to come out as stated.
 * Where no such numbers exist, those that come near are taken; see {@link canHoldTogether}.
 */
export function correlatedGroups(
  correlations: readonly Correlation[],
  ofNormals: (correlation: Correlation) => number,
): readonly CorrelatedGroup[] {
  return groups(correlations, ofNormals);
}

/** What rounding leaves of a pivot that should be zero. */
const ZERO_PIVOT = 1e-12;

function groups(
  correlations: readonly Correlation[],
  ofNormals: (correlation: Correlation) => number,
): (CorrelatedGroup & { readonly isExact: boolean })[] {
  return components(correlations).map((inputs) => {
    const place = new Map(inputs.map((input, i) => [input, i]));
    const matrix = inputs.map((_input, i) => Float64Array.from(inputs, (_other, j) => (i === j ? 1 : 0)));
    for (const correlation of correlations) {
      const i = place.get(correlation.a);
      const j = place.get(correlation.b);
      if (i !== undefined && j !== undefined) matrix[i][j] = matrix[j][i] = ofNormals(correlation);
    }
    return { inputs, ...factorized(matrix) };
  });
}

/** Inputs that are connected by correlations, in rising order. */
function components(correlations: readonly Correlation[]): number[][] {
  const memberOf = new Map<number, number[]>();
  for (const { a, b } of correlations) {
    const first = memberOf.get(a) ?? [a];
    const second = memberOf.get(b) ?? [b];
    const joined = first === second || a === b ? first : [...first, ...second];
    for (const input of joined) memberOf.set(input, joined);
  }
  return [...new Set(memberOf.values())].map((inputs) => inputs.sort((x, y) => x - y));
}

/** L with L·Lᵀ = the matrix; `isExact` says whether it has one. Rows of a length above 1 are brought back to 1. */
function factorized(matrix: readonly Float64Array[]): { factor: Float64Array[]; isExact: boolean } {
  const size = matrix.length;
  const factor = matrix.map(() => new Float64Array(size));
  let isExact = true;
  for (let i = 0; i < size; i++) {
    const row = factor[i];
    for (let j = 0; j < i; j++) {
      const left = matrix[i][j] - dot(row, factor[j], j);
      const pivot = factor[j][j];
      row[j] = pivot > 0 ? left / pivot : 0;
      if (pivot === 0 && Math.abs(left) > Math.sqrt(ZERO_PIVOT)) isExact = false;
    }
    const taken = dot(row, row, i);
    if (taken > 1 + Math.sqrt(ZERO_PIVOT)) isExact = false;
    if (taken > 1) for (let j = 0; j < i; j++) row[j] /= Math.sqrt(taken);
    row[i] = 1 - taken > ZERO_PIVOT ? Math.sqrt(1 - taken) : 0;
  }
  return { factor, isExact };
}

function dot(a: Float64Array, b: Float64Array, count: number): number {
  let sum = 0;
  for (let k = 0; k < count; k++) sum += a[k] * b[k];
  return sum;
}
