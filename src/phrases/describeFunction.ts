import { chapterAt } from "../engine/handbook";
import { nameUsesOf } from "../engine/nameUses";
import type { Notes } from "../engine/referent";
import type { Row, Snapshot } from "../engine/snapshot";
import type { FunctionDefinition } from "../syntax/statement";
import { signatureOf } from "../syntax/signature";
import { Kind, NONE, type Node } from "../syntax/tree";
import { formulaOf, numberUnder } from "./describeQuantity";
import { code, codeBlock, escaped } from "./markdown";
import { onOneLine, sourceOf, withoutComments } from "./sourceText";
import { substituted } from "./substitution";

/** Where a function's name stands. */
export interface CallPlace {
  readonly row?: Row;
  readonly node?: Node;
  readonly note: Snapshot;
  /** The names that the statement binds there. */
  readonly scope?: readonly string[];
}

/** The value of an expression, were it written above a statement; empty where it has none. */
export type Trial = (row: Row, expression: string) => string;

/**
 * A function: its signature and formula, at a call with the arguments set under the parameters and what comes out; its
 * description, where it holds, and its source.
 */
export function describeFunction(
  definition: FunctionDefinition,
  row: Row,
  home: Snapshot,
  at: CallPlace,
  notes: Notes,
  trial: Trial,
): readonly string[] {
  const given = argumentsAt(definition, at, notes);
  const body = formulaOf(row, definition.value, home, notes, (name) => given.get(name));
  const { tree, text } = definition;
  const written = text.slice(tree.start(definition.value), tree.end(definition.value)).replace(/\s+/g, " ");
  const chapter = chapterAt(home.path);
  const [result, domain, source] = [resultAt(at, trial), domainOf(definition), sourceOf(home, row)];
  return [
    `**${code((chapter === undefined ? "" : `${chapter}.`) + signatureOf(definition))}**`,
    body === "" ? codeBlock(written) : body,
    result === "" ? "" : `gives **${escaped(result)}**`,
    escaped(definition.comment),
    domain === "" ? "" : `Holds where ${code(domain)}`,
    source === "" ? "" : `Source: ${escaped(source)}`,
  ].filter((part) => part !== "");
}

/** What a call gives. Inside a function, and where a name runs through values, its arguments have none. */
function resultAt({ row, node, scope }: CallPlace, trial: Trial): string {
  if (!row || node === undefined || row.statement.kind === "function" || (scope ?? []).length > 0) return "";
  const call = callOf(row, node);
  if (call === NONE) return "";
  const { tree, text } = row.statement;
  return trial(row, text.slice(tree.start(call), tree.end(call)));
}

/** The condition on the arguments under which a function holds, as it is written; empty where it states none. */
export function domainOf({ domain, tree, text }: FunctionDefinition): string {
  return domain === undefined ? "" : onOneLine(withoutComments(text.slice(tree.start(domain), tree.end(domain))));
}

/** What a call gives for each parameter, with numbers in place of names; nothing where the name stands in no call. */
function argumentsAt(
  definition: FunctionDefinition,
  { row, node, note }: CallPlace,
  notes: Notes,
): ReadonlyMap<string, string> {
  const given = new Map<string, string>();
  const call = row && node !== undefined ? callOf(row, node) : NONE;
  if (!row || call === NONE) return given;
  const { tree, text } = row.statement;
  const names = definition.parameters.map((parameter) => definition.tree.text(parameter.name));
  tree
    .children(call)
    .slice(1)
    .forEach((argument, i) => {
      const isNamed = tree.kind(argument) === Kind.Argument;
      const value = isNamed ? tree.first(argument) : argument;
      const name = isNamed ? tree.text(argument) : names[i];
      const pieces = substituted(text, tree.span(value), nameUsesOf(row.statement), (use) =>
        numberUnder(row, use, note, notes),
      );
      if (name !== undefined)
        given.set(name, inBrackets(pieces.map(({ symbol, number }) => number ?? symbol).join("")));
    });
  return given;
}

/** The call whose called name is a node, or what holds it. */
function callOf({ statement: { tree } }: Row, node: Node): Node {
  for (let call = node + 1; call < tree.count; call++) {
    if (tree.kind(call) !== Kind.Call) continue;
    const called = tree.first(call);
    if (called === node || (tree.kind(called) === Kind.Member && tree.next(tree.first(called)) === node)) return call;
  }
  return NONE;
}

/** An argument with an operator in it stands in brackets where it takes a parameter's place. */
function inBrackets(text: string): string {
  return /\s[-+*/^]\s/.test(text) ? `(${text})` : text;
}
