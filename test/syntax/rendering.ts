import { parseStatement } from "../../src/syntax/parse";
import type { Statement } from "../../src/syntax/statement";
import { Arena, Form, Kind, Operator, type Node, type Tree } from "../../src/syntax/tree";

export function parse(text: string): Statement {
  return parseStatement(new Arena(), text);
}

/** The statement of one kind that the text is; anything else is a failure. */
export function parseAs<K extends Statement["kind"]>(kind: K, text: string): OfKind<Statement, K> {
  const read = parse(text);
  if (read.kind !== kind) throw new Error(`“${text}” was read as ${read.kind}, not as ${kind}.`);
  return read as OfKind<Statement, K>;
}

/** The member of the union that can be of this kind; `given` and `assume` share one. */
type OfKind<S extends Statement, K> = S extends unknown ? (K extends S["kind"] ? S : never) : never;

export function codes(read: Statement): string[] {
  return read.problems.map((problem) => problem.code);
}

/** The value of `x = expression` as an s-expression. */
export function valueOf(expression: string): string {
  const read = parseAs("derived", `x = ${expression}`);
  return render(read.tree, read.value);
}

/**
 * A node as an s-expression: `(+ a (* 2:V b))`. A number carries its units after a colon, a literal of several numbers its
 * form, and what has no value is `(missing …)`.
 */
export function render(tree: Tree, node: Node): string {
  const children = tree.children(node).map((child) => render(tree, child));
  const list = (head: string): string => `(${[head, ...children].join(" ")})`;
  switch (tree.kind(node)) {
    case Kind.Name:
      return tree.text(node);
    case Kind.Text:
      return `"${tree.text(node)}"`;
    case Kind.Value:
      return [tree.text(node), ...children].join(":");
    case Kind.Power:
      return tree.text(node) + (tree.number(node) === 1 ? "" : tree.number(node));
    case Kind.Unit:
      return children.join("·");
    case Kind.Literal:
      return tree.operator(node) === Form.Exact ? children[0] : list(FORMS[tree.operator(node)]);
    case Kind.Binary:
    case Kind.Unary:
      return list(OPERATORS[tree.operator(node)]);
    case Kind.Comparator:
      return OPERATORS[tree.operator(node)];
    case Kind.Argument:
      return `${tree.text(node)}=${children[0]}`;
    default:
      return list(KINDS[tree.kind(node)]!);
  }
}

const FORMS: Readonly<Record<number, string>> = {
  [Form.PlusMinus]: "±",
  [Form.Expanded]: "±k",
  [Form.Range]: "range",
  [Form.TypicalRange]: "typical",
  [Form.NoMinimum]: "upto",
  [Form.Readings]: "readings",
  [Form.Sample]: "sample",
};

const OPERATORS: Readonly<Record<number, string>> = {
  [Operator.Add]: "+",
  [Operator.Subtract]: "-",
  [Operator.Multiply]: "*",
  [Operator.Divide]: "/",
  [Operator.Power]: "^",
  [Operator.Parallel]: "||",
  [Operator.And]: "and",
  [Operator.Or]: "or",
  [Operator.Negate]: "neg",
  [Operator.Not]: "not",
  [Operator.Another]: "another",
  [Operator.Less]: "<",
  [Operator.LessOrEqual]: "<=",
  [Operator.Greater]: ">",
  [Operator.GreaterOrEqual]: ">=",
  [Operator.Equal]: "=",
  [Operator.NotEqual]: "!=",
  [Operator.Inside]: "inside",
};

const KINDS: Readonly<Partial<Record<number, string>>> = {
  [Kind.Missing]: "missing",
  [Kind.Member]: ".",
  [Kind.Index]: "index",
  [Kind.Call]: "call",
  [Kind.List]: "list",
  [Kind.Group]: "group",
  [Kind.Comparison]: "compare",
  [Kind.If]: "if",
  [Kind.Without]: "without",
  [Kind.For]: "for",
};
