import { nameUsesOf } from "../engine/nameUses";
import type { Notes } from "../engine/referent";
import type { Row, Snapshot } from "../engine/snapshot";
import type { FunctionDefinition } from "../syntax/statement";
import { Kind, NONE, type Node } from "../syntax/tree";
import { formulaOf, numberUnder } from "./describeQuantity";
import { code, codeBlock, escaped } from "./markdown";
import { substituted } from "./substitution";

/** Where a function's name stands. */
interface CallPlace {
  readonly row?: Row;
  readonly node?: Node;
  readonly note: Snapshot;
}

/** A function: its signature and formula, at a call with the arguments set under the parameters; its description. */
export function describeFunction(
  definition: FunctionDefinition,
  row: Row,
  home: Snapshot,
  at: CallPlace,
  notes: Notes,
): readonly string[] {
  const given = argumentsAt(definition, at, notes);
  const body = formulaOf(row, definition.value, home, notes, (name) => given.get(name));
  const { tree, text } = definition;
  const written = text.slice(tree.start(definition.value), tree.end(definition.value)).replace(/\s+/g, " ");
  return [
    `**${code(signatureOf(definition))}**`,
    body === "" ? codeBlock(written) : body,
    escaped(definition.comment),
  ].filter((part) => part !== "");
}

/** `loop(length, area = 0.5 mm^2)`. */
export function signatureOf({ tree, text, name, parameters }: FunctionDefinition): string {
  const shown = parameters.map((parameter) => {
    const by = parameter.default;
    const otherwise = by === undefined ? "" : ` = ${text.slice(tree.start(by), tree.end(by))}`;
    return tree.text(parameter.name) + otherwise;
  });
  return `${tree.text(name)}(${shown.join(", ")})`;
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
