import type { Extent, Outcome, QuantityOutcome, RuleOutcome } from "../engine/outcome";
import { problemsOf, type Row, type Snapshot } from "../engine/snapshot";
import { columnsOf } from "../engine/tableReferent";
import { computedInRow } from "../phrases/tableCells";
import { extentText, valueText } from "../phrases/value";
import { rulePhrase } from "../phrases/rule";
import type { Statement } from "../syntax/statement";
import { Form, Kind, Notation, NONE, type Node, type Tree } from "../syntax/tree";
import type { LineResult } from "./feature";

const bySnapshot = new WeakMap<Snapshot, readonly LineResult[]>();

/**
 * What stands beside the lines of a note, in the order of the text: at the end of the last line of each statement, where
 * the eye is when it has read it. A statement without a value has nothing.
 */
export function results(snapshot: Snapshot): readonly LineResult[] {
  let found = bySnapshot.get(snapshot);
  if (!found) {
    found = snapshot.rows.flatMap((row) => (row.cells ? besideRows(row, snapshot) : (resultOf(row, snapshot) ?? [])));
    bySnapshot.set(snapshot, found);
  }
  return found;
}

/** What is computed in the rows of a table stands beside them, with the name of the column where there are several. */
function besideRows(head: Row, snapshot: Snapshot): readonly LineResult[] {
  const { cells, outcome } = head;
  if (!cells || outcome.kind !== "table") return [];
  const columns = columnsOf(snapshot, head);
  return outcome.rows.flatMap((_, index): LineResult[] => {
    const computed = computedInRow(columns, index);
    if (computed.length === 0) return [];
    const { start } = snapshot.spanOf(head, {
      start: cells.lines.starts[index + 1],
      end: cells.lines.starts[index + 1],
    });
    const line = snapshot.lines.lineAt(start);
    const text = computed.map(({ column, text: value }) => `${column} ${value}`).join(" · ");
    return [{ line, at: snapshot.lines.lineEnd(line), text, ...PLAIN }];
  });
}

type Words = Pick<LineResult, "text" | "kind" | "style" | "isStrong">;

function resultOf(row: Row, snapshot: Snapshot): LineResult | undefined {
  const words = rememberedWords(row, snapshot);
  if (!words || words.text === "") return undefined;
  const line = snapshot.lines.lineAt(row.start + row.statement.text.length);
  return { line, at: snapshot.lines.lineEnd(line), ...words };
}

/** Statements and outcomes outlive snapshots, so that an edit words anew only what it changed. */
const remembered = new WeakMap<Statement, { readonly outcome: Outcome; readonly words?: Words }>();

function rememberedWords(row: Row, snapshot: Snapshot): Words | undefined {
  const { statement, outcome } = row;
  // A measurement is compared with what stands elsewhere.
  if (statement.kind === "measured") return wordsOf(row, snapshot);
  const known = remembered.get(statement);
  if (known?.outcome === outcome) return known.words;
  const words = wordsOf(row, snapshot);
  remembered.set(statement, { outcome, words });
  return words;
}

function wordsOf(row: Row, snapshot: Snapshot): Words | undefined {
  const { outcome } = row;
  switch (outcome.kind) {
    case "quantity":
      return { ...quantityWords(row, outcome, snapshot), kind: "value", isStrong: false };
    case "truth":
      return { text: outcome.blockedBy === undefined ? valueText(outcome) : "", ...PLAIN };
    case "rule":
      return ruleWords(outcome);
    case "use":
      return { text: outcome.isRead ? "read" : "not read", ...PLAIN };
    default:
      return undefined;
  }
}

const PLAIN = { kind: "value", style: "none", isStrong: false } as const;

function ruleWords(rule: RuleOutcome): Words {
  const isStrong = rule.state === "fails" || rule.state === "failsAtLimits";
  return { text: rulePhrase(rule), kind: "rule", style: "none", isStrong };
}

function quantityWords(row: Row, outcome: QuantityOutcome, snapshot: Snapshot): Pick<Words, "text" | "style"> {
  const value = listText(outcome.values, outcome);
  if (value === "") return { text: "", style: "none" };
  const { statement } = row;
  if (statement.kind === "measured") return { text: join(value, comparison(row, snapshot)), style: "measured" };
  if (outcome.origin === "measured") return { text: join(value, "measured"), style: "measured" };
  if (outcome.wanted) return { text: join(value, `wanted ${listText(outcome.wanted, outcome)}`), style: "none" };
  if (outcome.origin === "assumed") return { text: value, style: outcome.isGuess ? "guess" : "assumed" };
  return { text: repeatsItself(row) ? "" : value, style: "none" };
}

/**
 * A value is left out where the line already reads as its value: where all that it says is one number, or minimum,
 * typical and maximum, in plain decimals. Assumptions and measurements keep theirs, since its line style says which it is.
 */
function repeatsItself({ statement }: Row): boolean {
  if (statement.kind === "function" || !("value" in statement) || statement.value === undefined) return false;
  if (statement.kind === "derived" && (statement.unit !== undefined || statement.choice)) return false;
  return isPlainLiteral(statement.tree, statement.value);
}

function isPlainLiteral(tree: Tree, node: Node): boolean {
  if (tree.kind(node) !== Kind.Literal) return false;
  const form = tree.operator(node);
  if (form !== Form.Exact && form !== Form.TypicalRange) return false;
  for (let value = tree.first(node); value !== NONE; value = tree.next(value))
    if (tree.kind(value) !== Kind.Value || tree.operator(value) !== Notation.Decimal) return false;
  return true;
}

/** Values of a list that stand beside a line; the hover has them all. */
const LIST_SHOWN = 6;

function listText(values: readonly Extent[], of: QuantityOutcome): string {
  const texts = values.slice(0, LIST_SHOWN).map((extent) => extentText(extent, of));
  if (texts.includes("")) return "";
  return values.length > LIST_SHOWN ? `${texts.join(", ")} … ${values.length} values` : texts.join(", ");
}

/** How a measurement compares with what the note says without it. */
function comparison(row: Row, snapshot: Snapshot): string {
  const { statement } = row;
  if (statement.kind !== "measured") return "";
  for (const problem of problemsOf(row)) {
    if (problem.code === "measurement.disjoint")
      return `outside what was ${SAID[problem.origin] ?? "predicted"}, ${problem.predicted}`;
    if (problem.code === "measurement.outside")
      return `not inside what was ${SAID[problem.origin] ?? "predicted"}, ${problem.predicted}`;
  }
  const target = snapshot.find(statement.tree.text(statement.name))?.outcome;
  if (target?.kind !== "quantity" || target.values.length === 0 || row.noteProblems.length > 0) return "";
  return `inside what was ${SAID[target.assumed ? "assumed" : target.origin] ?? "predicted"}`;
}

const SAID: Readonly<Record<string, string>> = { given: "given", assumed: "assumed" };

function join(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join(", ");
}
