import { siUnit } from "../quantity/dimension";
import type { Extent, RuleState } from "../engine/outcome";
import type { Origin } from "../engine/problem";
import type { Row, Snapshot } from "../engine/snapshot";
import { extentText } from "../phrases/value";
import type { OpenItem } from "./feature";

/** What is known of one note, as both commands of the command line print it in JSON. Lines and columns count from 1. */
export interface NoteRecord {
  readonly path: string;
  readonly values: readonly ValueRecord[];
  readonly rules: readonly RuleRecord[];
  readonly findings: readonly FindingRecord[];
  readonly openItems: readonly OpenItemRecord[];
}

/**
 * A quantity, in the order of the text. One that has no value is here with its name, line and kind. A list gives one record a member: `x[1]`, `x[2]` …, counted from 1. Conditions that are true or
 * false have no record.
 */
export interface ValueRecord {
  readonly name: string;
  readonly line: number;
  readonly kind: Origin;
  /** Nominal. In the coherent SI unit named by `unit`; temperature points in K. Absent where there is none, or where it is not finite. */
  readonly value?: number;
  readonly min?: number;
  readonly max?: number;
  /** `V`, `W/(m·K)`, `LED`, `EUR`; `1` for a ratio. Absent where no dimension could be worked out. */
  readonly unit?: string;
  /** As it stands beside the line: `0.4 .. 3 .. 5.6 V`; empty where there is no value. */
  readonly shown: string;
}

export interface RuleRecord {
  readonly line: number;
  readonly word: "must" | "should";
  /** As written, without its comment, on one line. */
  readonly condition: string;
  readonly state: RuleState;
  /** (limit − worst) / |limit| for an upper limit, the mirror for a lower; negative where it is short. Absent without a single limit. */
  readonly spare?: number;
}

export interface FindingRecord {
  readonly code: string;
  readonly severity: "error" | "warning" | "information" | "hint";
  readonly line: number;
  /** In UTF-16 code units. */
  readonly column: number;
  readonly message: string;
}

export interface OpenItemRecord {
  readonly line: number;
  /** Absent where the item has no weight. */
  readonly word?: "must" | "should";
  readonly text: string;
}

/** What a record needs of a finding. */
interface Found extends Pick<FindingRecord, "code" | "severity" | "message"> {
  readonly span: { readonly start: number };
}

export function record(snapshot: Snapshot, findings: readonly Found[], openItems: readonly OpenItem[]): NoteRecord {
  const lineOf = (offset: number) => snapshot.lines.lineAt(offset) + 1;
  return {
    path: snapshot.path,
    values: snapshot.rows.flatMap((row) => valuesOf(row, lineOf(row.start))),
    rules: snapshot.rows.flatMap((row) => ruleOf(row, lineOf(row.start))),
    findings: findings.map(({ code, severity, message, span }) => {
      const { line, column } = snapshot.lines.positionAt(span.start);
      return { code, severity, line: line + 1, column: column + 1, message };
    }),
    openItems: openItems.map(({ span, word, text }) => ({ line: lineOf(span.start), ...(word ? { word } : {}), text })),
  };
}

function valuesOf({ outcome }: Row, line: number): readonly ValueRecord[] {
  if (outcome.kind !== "quantity") return [];
  const { name, origin: kind, dimension, isList, values } = outcome;
  if (values.length === 0) return [{ name, line, kind, shown: "" }];
  const unit = siUnit(dimension);
  return values.map((extent, i) => ({
    name: isList ? `${name}[${i + 1}]` : name,
    line,
    kind,
    ...numbersOf(extent),
    unit,
    shown: extentText(extent, outcome),
  }));
}

function numbersOf({ nominal, low, high, standing }: Extent): Pick<ValueRecord, "value" | "min" | "max"> {
  const limits = standing === "undefined" ? {} : { ...finite("min", low), ...finite("max", high) };
  return { ...finite("value", nominal), ...limits };
}

function ruleOf({ outcome, statement }: Row, line: number): readonly RuleRecord[] {
  if (outcome.kind !== "rule" || statement.kind !== "rule") return [];
  const { tree, condition, text } = statement;
  const { word, state, spare } = outcome;
  return [
    {
      line,
      word,
      condition: onOneLine(text.slice(tree.start(condition), tree.end(condition))),
      state,
      ...(spare === undefined ? {} : finite("spare", spare)),
    },
  ];
}

/** The condition of a rule that goes on over lines, without the comments between them. */
function onOneLine(text: string): string {
  return text.replace(/\s*(?:#[^\n]*)?\r?\n\s*/g, " ");
}

/** Digits of a number that the arithmetic of doubles can be trusted for. */
const DIGITS = 12;

/** A number rounded to the digits that count, under its key; nothing where JSON has no number for it. */
function finite<K extends string>(key: K, x: number): Partial<Record<K, number>> {
  return Number.isFinite(x) ? ({ [key]: Number(x.toPrecision(DIGITS)) } as Record<K, number>) : {};
}
