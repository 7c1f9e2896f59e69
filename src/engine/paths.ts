import { rowKey } from "../syntax/table";
import { Kind, type Node, type Tree } from "../syntax/tree";

/** What is written with dots and brackets behind a name: `parts["M3×8"].qty`. */
export interface Path {
  readonly base: Node;
  readonly steps: readonly Step[];
}

export interface Step {
  /** The name behind a dot, or the key in brackets as rows are looked up by it. */
  readonly name: string;
  readonly node: Node;
  /** It stands in brackets, so that only a row can be meant. */
  readonly isKey: boolean;
}

/** The path that a Member or Index node is; undefined where it does not begin with a name. */
export function pathOf(tree: Tree, node: Node, text: string): Path | undefined {
  const steps: Step[] = [];
  let at = node;
  while (tree.kind(at) === Kind.Member || tree.kind(at) === Kind.Index) {
    const inner = tree.first(at);
    const step = tree.next(inner);
    const isKey = tree.kind(at) === Kind.Index;
    steps.unshift({ name: isKey ? keyOf(tree, step, text) : tree.text(step), node: step, isKey });
    at = inner;
  }
  return tree.kind(at) === Kind.Name ? { base: at, steps } : undefined;
}

/** The names that columns can be meant by: those behind dots. */
export function namedSteps({ steps }: Path): readonly Step[] {
  return steps.filter(({ isKey }) => !isKey);
}

/** A number is the row that is written so. */
function keyOf(tree: Tree, node: Node, text: string): string {
  return rowKey(tree.kind(node) === Kind.Text ? tree.text(node) : text.slice(tree.start(node), tree.end(node)));
}
