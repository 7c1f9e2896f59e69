/** A column of numbers that are kept side by side, without an object for each row. */
export type NumberColumn = Uint8Array | Int32Array | Float64Array;

/** The column with room for more rows; what it holds stays in its place. */
export function widened<T extends NumberColumn>(column: T, rows: number): T {
  const wider = new (column.constructor as new (rows: number) => T)(rows);
  wider.set(column);
  return wider;
}
