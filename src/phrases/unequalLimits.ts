import type { Row } from "../engine/snapshot";
import type { Span } from "../text/span";

/** A tolerance with unequal limits as a drawing or a data sheet prints it, and how it is written here. */
export interface UnequalLimits {
  /** In the statement. */
  readonly span: Span;
  /** What is put in the place of the span. */
  readonly rewritten: readonly [string];
}

/** `10 V +10/-5 %`, `10 V -5/+10 %`, `25 +0.1/-0.2 mm`, `5 V (+0.1, -0.2)`, `V_in +10/-5 %` around or at a span of a statement. */
export function unequalLimits({ statement: { text } }: Row, at: Span): UnequalLimits | undefined {
  for (const match of text.matchAll(PRINTED)) {
    const { open, inner, outer = "", ...printed } = match.groups as unknown as Printed & Brackets;
    if (open !== undefined && inner === undefined && outer === "") continue;
    // A bracket that was opened before the number stays.
    const left = open === undefined || inner !== undefined ? outer.length : 0;
    const span = { start: match.index, end: match.index + match[0].length - left };
    if (span.end <= at.start || at.end <= span.start) continue;
    const rewritten = rewrittenOf(printed);
    return rewritten === undefined ? undefined : { span, rewritten: [rewritten] };
  }
  return undefined;
}

/** What the message adds; it begins with a space. */
export function unequalLimitsText({ rewritten: [rewritten] }: UnequalLimits): string {
  return ` Limits that differ are written out: \`${rewritten}\`.`;
}

interface Printed {
  readonly name?: string;
  readonly nominal?: string;
  readonly unit?: string;
  readonly first: "+" | "-" | "−";
  readonly a: string;
  readonly aUnit: string;
  readonly second: "+" | "-" | "−";
  readonly b: string;
  readonly bUnit: string;
}

/** Around the two limits, or around them and their unit. */
interface Brackets {
  readonly open?: string;
  readonly inner?: string;
  readonly outer?: string;
}

// The nominal value has no sign of its own: beside a minus, `+10 %` would not say which way it leads.
const PRINTED =
  /(?<![\p{L}\d_.)\]]|[-−]\s*)(?:(?<nominal>\d[\d_]*(?:\.\d+)?)\s*(?<unit>[\p{L}°µ%][^\s+\-−±()*,]*)?|(?<name>[\p{L}_][\p{L}\d_.]*))\s*(?<open>\()?\s*(?<first>[+\-−])(?<a>\d+(?:\.\d+)?)\s*(?<aUnit>%|‰|ppm|[\p{L}°µ]+)?(?:\s*[/,;]\s*|\s+)(?<second>[+\-−])(?<b>\d+(?:\.\d+)?)\s*(?<inner>\))?\s*(?<bUnit>%|‰|ppm|[\p{L}°µ]+)?(?<outer>\s*\))?/gu;

const SHARES: Readonly<Record<string, number>> = { "%": 1e2, "‰": 1e3, ppm: 1e6 };

function rewrittenOf({ name, nominal, unit, first, a, aUnit, second, b, bUnit }: Printed): string | undefined {
  if ((first === "+") === (second === "+")) return undefined;
  const [up, down] = first === "+" ? [Number(a), Number(b)] : [Number(b), Number(a)];
  const limitsUnit = bUnit ?? aUnit ?? "";
  if (aUnit && aUnit !== limitsUnit) return undefined;
  const parts: number | undefined = SHARES[limitsUnit];
  if (name !== undefined) return parts === undefined ? undefined : `${name} * (${limits(1, up / parts, down / parts)})`;
  const value = Number(nominal!.replaceAll("_", ""));
  const behind = unit ?? (parts ? "" : limitsUnit);
  if (parts) return `${limits(value, (value * up) / parts, (value * down) / parts)} ${behind}`.trim();
  return limitsUnit === "" || limitsUnit === behind ? `${limits(value, up, down)} ${behind}`.trim() : undefined;
}

/** Limits are sums of decimals as written, so the last digits of a double are noise. */
function limits(value: number, up: number, down: number): string {
  return [value - down, value, value + up].map((x) => String(Number(x.toPrecision(12)))).join(" .. ");
}
