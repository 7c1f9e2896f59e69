import type { Side } from "../engine/problem";
import { CHARGE, RATIO, TEMPERATURE } from "../quantity/dimension";
import { sideText } from "../phrases/side";
import type { Span } from "../text/span";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `25 °C + 40 °C`, `must T <= 40 K`. */
export const temperaturePair: Wording<"temperature.pair"> = {
  severity: "error",
  reference:
    "A temperature on a scale and a difference are two kinds. Point plus difference is a point, and point minus point a difference; a difference is written in K.",
  message: ({ operation, left, right }, { row, context }) => {
    const [a, b] = [sideText(left, row, context), sideText(right, row, context)];
    const plain =
      operation === "add"
        ? `Cannot add ${b} to ${a}.`
        : operation === "subtract"
          ? `Cannot subtract ${b} from ${a}.`
          : `Cannot set ${a} beside ${b}.`;
    return `${plain}${wayOut(operation, left, right)}`;
  },
  fixes: (problem, { row }) => {
    const { operation, left, right } = problem;
    const limits = dashedLimits(operation, left, right);
    if (limits !== undefined)
      return [{ title: `Write ${limits}`, edits: [replaceIn(row, around(left, right), limits)] }];
    const rewritten = [...degrees(operation, left, right), ...aboveZero(operation, left, right)];
    if (rewritten.length > 0)
      return rewritten.map(({ side, text }) => ({ title: `Write ${text}`, edits: [replaceIn(row, side.span, text)] }));
    // Beside a point, or beside a difference, a literal in °C where a difference belongs was meant as one.
    const meant =
      operation === "add" && left.point && right.point ? right : !left.point ? right : !right.point ? left : undefined;
    if (operation === "compare" && left.point) return [];
    if (meant === undefined || left.dimension !== TEMPERATURE || right.dimension !== TEMPERATURE) return [];
    return inKelvin(meant).map((text) => ({
      title: `Write ${text}, a difference`,
      edits: [replaceIn(row, meant.span, text)],
    }));
  },
};

function wayOut(operation: string, left: Side, right: Side): string {
  const limits = dashedLimits(operation, left, right);
  if (limits !== undefined) return ` For limits write \`${limits}\`.`;
  const [degree] = degrees(operation, left, right);
  if (degree?.text.endsWith("K")) return ` A difference is written in K: \`${degree.text}\`.`;
  if (degree) return ` A point on a scale is written in °C: \`${degree.text}\`.`;
  const isTemperature = left.dimension === TEMPERATURE && right.dimension === TEMPERATURE;
  const usual = isTemperature ? " A difference is written in K, a point on a scale in °C." : "";
  const [absolute] = aboveZero(operation, left, right);
  return absolute ? `${usual} Above absolute zero it is \`${absolute.text}\`.` : usual;
}

interface Rewritten {
  readonly side: Side;
  readonly text: string;
}

/** `20 - 30 °C`: limits with a dash, as they are printed. */
function dashedLimits(operation: string, left: Side, right: Side): string | undefined {
  const [, high] = /^(-?[\d.]+)\s*°[CF]$/.exec(right.text) ?? [];
  const areLimits = operation === "subtract" && high !== undefined && /^-?[\d.]+$/.test(left.text);
  return areLimits && Number(left.text) < Number(high) ? `${left.text} .. ${right.text}` : undefined;
}

/** Beside a point, `125 C` (coulomb) and a bare `125` were meant in degrees; what is added to a point is a difference. */
function degrees(operation: string, left: Side, right: Side): readonly Rewritten[] {
  return withPoint(left, right).flatMap(([, side]) => {
    const number = /^(-?[\d._]+)\s*C?$/.exec(side.text)?.[1];
    const isMeant = side.dimension === CHARGE || (side.dimension === RATIO && side.text !== ABSOLUTE_ZERO);
    return number !== undefined && isMeant ? [{ side, text: `${number} ${operation === "add" ? "K" : "°C"}` }] : [];
  });
}

/** A name on a scale that is compared with kelvins, or turned into them by hand. */
function aboveZero(operation: string, left: Side, right: Side): readonly Rewritten[] {
  return withPoint(left, right).flatMap(([point, other]) => {
    const isCompared = operation === "compare" && other.dimension === TEMPERATURE;
    const isMeant = isCompared || (operation === "add" && other.text === ABSOLUTE_ZERO);
    if (!isMeant || point.name === undefined) return [];
    const text = `kelvin(${point.text})`;
    // Adding the zero by hand is replaced as a whole.
    return [{ side: isCompared ? point : { ...point, span: around(left, right) }, text }];
  });
}

/** The two sides, the point first, where one alone is a point. */
function withPoint(left: Side, right: Side): readonly (readonly [point: Side, other: Side])[] {
  if (left.point === right.point) return [];
  return left.point ? [[left, right]] : [[right, left]];
}

function around(left: Side, right: Side): Span {
  return { start: Math.min(left.span.start, right.span.start), end: Math.max(left.span.end, right.span.end) };
}

/** 0 °C in kelvin, as people add it. */
const ABSOLUTE_ZERO = "273.15";

function inKelvin({ text, point, name }: Side): readonly string[] {
  return point && name === undefined && text.endsWith("°C") ? [text.replace(/°C$/, "K")] : [];
}
