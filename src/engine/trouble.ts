import { Kind, NONE } from "../syntax/tree";
import type { Entry } from "./entry";
import type { JudgeContext } from "./judge";
import { Op } from "./operation";
import { OPERATIONS } from "./operations";
import { placeOf, tableAt } from "./pointTables";
import type { EngineProblem, LookedUp } from "./problem";

/**
 * The problem of an entry that lost its value, or its range, in an operation of its own: at the operation, with what its
 * operands are. Nothing where all is well, or where an argument had none already.
 */
export function troubleProblem(entry: Entry, context: JudgeContext, of: "value" | "range"): EngineProblem | undefined {
  const { tape, slots, runner } = context;
  const { code, results } = entry;
  for (let row = code.from + code.length - results.length; row < code.from + code.length; row++) {
    if (tape.op[row] !== Op.Store) continue;
    const slot = tape.b[row];
    const isLost =
      of === "value"
        ? Number.isNaN(slots.nominal[slot])
        : !Number.isFinite(slots.low[slot]) || !Number.isFinite(slots.high[slot]);
    const searched = entry.found?.[slot - entry.results.from];
    // A search may have found the range that enclosing alone could not give, or may still find it.
    if (!isLost || (of === "range" && (entry.isPending || (searched && searched.kind !== "undefined")))) continue;
    const origin = runner.origin(code, tape.a[row], of);
    if (!origin) continue;
    const problem = describe(entry, context, of, origin.row, origin.operands);
    return inRow(entry, slot - entry.results.from, problem);
  }
  return undefined;
}

/** Of a computed column: in which row it is. */
function inRow({ statement, table }: Entry, row: number, problem: EngineProblem): EngineProblem {
  if (statement.kind !== "column" || statement.value === undefined || table?.type.kind !== "table") return problem;
  const name = table.type.rows[row] || `row ${row + 1}`;
  return { span: problem.span, code: "table.rows", rows: [name], left: 0, problem };
}

function describe(
  entry: Entry,
  context: JudgeContext,
  of: "value" | "range",
  row: number,
  readings: readonly { nominal: number; low: number; high: number }[],
): EngineProblem {
  const { tape } = context;
  const home = context.entryById(tape.entry[row]);
  const { tree, text } = home.statement;
  const node = tape.node[row];
  const span = tree.span(node);
  const texts: string[] = [];
  for (let child = tree.first(node); child !== NONE; child = tree.next(child))
    if (tree.kind(child) !== Kind.Comparator) texts.push(text.slice(tree.start(child), tree.end(child)));
  // A look-up is told at the operand that is looked up.
  if (texts.length === 0) texts.push(text.slice(span.start, span.end));
  const arity = readings.length;
  const operands = readings.map((reading, i) => ({ text: texts.slice(-arity)[i] ?? "", ...reading }));
  const isHere = home === entry;
  return {
    code: of === "value" ? "value.undefined" : "range.undefined",
    span: isHere ? span : { start: 0, end: entry.statement.text.length },
    text: text.slice(span.start, span.end),
    reason: OPERATIONS[tape.op[row]].trouble,
    operands,
    ...(of === "value" && tape.op[row] === Op.ExactLookup ? lookedUp(readings) : {}),
    ...(isHere ? {} : { within: { path: home.note.path, statement: home.statement, span } }),
  };
}

/** The keys on both sides of a value that is none of them. */
function lookedUp([x, number]: readonly { readonly nominal: number }[]): { readonly lookedUp?: LookedUp } {
  const table = tableAt(number.nominal);
  if (!table || Number.isNaN(x.nominal)) return {};
  const place = placeOf(table, x.nominal);
  return { lookedUp: { value: x.nominal, near: [...table.keys.subarray(Math.max(0, place), place + 2)] } };
}
