/**
 * The dimension line, in box characters, after the dimension lines of technical drawings: witness lines at the two
 * limits of the range, a short stroke at nominal, a long stroke where the limit of a rule crosses.
 *
 * ```
 *                  ╷          ┃
 *   ├──────────────┴──────────╂────┤
 *   0.4            3          5    5.6 V
 * ```
 */
export interface DimensionLine {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** Limits of rules; those outside are drawn beside the line, unless they are out of all proportion. */
  readonly limits: readonly number[];
  /** Text of a value, without its unit. */
  label(value: number): string;
  readonly unit: string;
}

/** Columns of the line from witness to witness. */
const WIDTH = 32;
/** Columns of the whole; where limits lie far outside, the line is shortened until they fit. */
const WHOLE_WIDTH = 48;
/** A limit farther outside than so many widths of the range would leave nothing of the line. */
const REACH = 3;
/** Columns between two labels. */
const GAP = 2;

/** Three rows of text, the strokes, the line, the labels; rows without anything are left out. */
export function drawDimensionLine({ low, nominal, high, limits, label, unit }: DimensionLine): string {
  const reach = REACH * (high - low);
  const inReach = [...new Set(limits)].filter((limit) => limit >= low - reach && limit <= high + reach);
  const first = Math.min(low, ...inReach);
  const last = Math.max(high, ...inReach);
  const perColumn = Math.max((high - low) / (WIDTH - 1), (last - first) / (WHOLE_WIDTH - 1));
  const columnOf = (value: number) => Math.round((value - first) / perColumn);
  const blank = () => Array.from({ length: columnOf(last) + 1 }, () => " ");
  const [above, line] = [blank(), blank()];
  line.fill("─", columnOf(low), columnOf(high));
  line[columnOf(low)] = "├";
  line[columnOf(high)] = "┤";
  put(line, columnOf(nominal), { "─": "┴", "├": "├", "┤": "┤" });
  above[columnOf(nominal)] = "╷";
  for (const column of inReach.map(columnOf)) {
    above[column] = "┃";
    put(line, column, { " ": "┃", "─": "╂", "┴": "╂", "├": "┠", "┤": "┨" });
  }
  const labelAt = (value: number): Label => ({ at: columnOf(value), text: label(value) });
  const labels = labelRow([low, nominal, high].map(labelAt), inReach.map(labelAt));
  return [above.join("").trimEnd(), line.join("").trimEnd(), `${labels} ${unit}`.trimEnd()].join("\n");
}

function put(row: string[], column: number, becomes: Readonly<Record<string, string>>): void {
  row[column] = becomes[row[column]] ?? row[column];
}

interface Label {
  /** Its first column. */
  readonly at: number;
  readonly text: string;
}

/** The labels of the range under their places, pushed right where they would touch; those of limits where there is room. */
function labelRow(ofRange: readonly Label[], ofLimits: readonly Label[]): string {
  const placed: Label[] = [];
  for (const { at, text } of ofRange) {
    const before = placed.at(-1);
    placed.push({ at: before ? Math.max(at, endOf(before) + GAP) : at, text });
  }
  for (const label of ofLimits)
    if (placed.every((other) => label.at >= endOf(other) + GAP || endOf(label) + GAP <= other.at)) placed.push(label);
  return placed.sort((a, b) => a.at - b.at).reduce((row, { at, text }) => row.padEnd(at) + text, "");
}

function endOf({ at, text }: Label): number {
  return at + text.length;
}
