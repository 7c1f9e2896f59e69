/**
 * The dimension line, in box characters, after the dimension lines of technical drawings: witness lines at the two
 * limits, a short stroke at nominal, a long stroke where a rule's limit crosses.
 *
 * ```
 *           ╷                 ┃
 *   ├───────┴─────────────────╂──┤
 *   0.4     3                 5  5.6 V
 * ```
 */
export interface DimensionLine {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** Limits of rules; those outside are drawn beside the line. */
  readonly limits: readonly number[];
  /** Text of a value, without its unit. */
  label(value: number): string;
  readonly unit: string;
}

/** Columns of the line from witness to witness. */
const WIDTH = 32;
/** Columns left free on either side for limits that lie outside. */
const MARGIN = 8;

/** Three rows of text, the strokes, the line, the labels; rows without anything are left out. */
export function drawDimensionLine({ low, nominal, high, limits, label, unit }: DimensionLine): string {
  const position = (value: number) => Math.round(((value - low) / (high - low)) * (WIDTH - 1));
  const inView = limits.map(position).filter((column) => column >= -MARGIN && column < WIDTH + MARGIN);
  const first = Math.min(0, ...inView);
  const last = Math.max(WIDTH - 1, ...inView);
  const blank = () => Array.from({ length: last - first + 1 }, () => " ");
  const [above, line] = [blank(), blank()];
  for (let column = 0; column < WIDTH; column++) line[column - first] = "─";
  line[0 - first] = "├";
  line[WIDTH - 1 - first] = "┤";
  put(line, position(nominal) - first, { "─": "┴", "├": "├", "┤": "┤" });
  above[position(nominal) - first] = "╷";
  for (const column of inView) {
    above[column - first] = "┃";
    put(line, column - first, { " ": "┃", "─": "╂", "┴": "╂", "├": "┠", "┤": "┨" });
  }
  const labels = labelRow([low, nominal, high].map((value) => ({ at: position(value) - first, text: label(value) })));
  return [above.join("").trimEnd(), line.join("").trimEnd(), `${labels} ${unit}`.trimEnd()].join("\n");
}

function put(row: string[], column: number, becomes: Readonly<Record<string, string>>): void {
  row[column] = becomes[row[column]] ?? row[column];
}

/** Labels under their places, pushed right where they would touch. */
function labelRow(labels: readonly { readonly at: number; readonly text: string }[]): string {
  let row = "";
  for (const { at, text } of labels) {
    const column = row === "" ? at : Math.max(at, row.length + 2);
    row = row.padEnd(column) + text;
  }
  return row;
}
