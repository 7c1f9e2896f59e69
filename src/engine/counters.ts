import { RATIO } from "../quantity/dimension";
import { Form, Kind, type Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { quantity, type Operand } from "./operand";
import type { EngineTrouble } from "./problem";
import { commonUnit } from "./statedUnit";

/** Terms of one counter. More are a loop, and no formula that a reader follows. */
export const MOST_TERMS = 1000;

/** `e for k = a .. b`: the list of what e is for each whole number, both limits included. */
export function compileTerms(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const [body, name, ...limits] = tree.children(node);
  const range = limitsOf(compiler, limits);
  if (!range) return undefined;
  const terms: Operand[] = [];
  let type: Operand | undefined;
  for (let k = range.low; k <= range.high; k++) {
    const counter = quantity(name, RATIO, [compiler.constant(k)], { constant: k });
    const term = compiler.counting(tree.text(name), counter, body);
    if (!term || !compiler.isQuantity(term, "before `for`")) return undefined;
    if (term.isList)
      return compiler.fail(body, { code: "list.unexpected", where: "before `for`", text: compiler.text(body) });
    const agreed = type ? compiler.agree({ kind: "list" }, type, term) : term;
    if (!agreed) return undefined;
    type = { ...(type ?? term), dimension: agreed.dimension, isZero: (type?.isZero ?? true) && term.isZero };
    terms.push(term);
  }
  const constants = terms.map(({ constant }) => constant);
  return quantity(
    node,
    type!.dimension,
    terms.map(({ at }) => at[0]),
    {
      point: type!.point,
      isList: true,
      isZero: type!.isZero,
      constants: constants.every((constant) => constant !== undefined) ? constants : undefined,
      unit: commonUnit(terms),
    },
  );
}

interface Limits {
  readonly low: number;
  readonly high: number;
}

/** As far as a quotient may miss a whole number: decimal fractions behave as on paper. */
const WHOLE_WITHIN = 1e-12;

function whole(value: number): number {
  const nearest = Math.round(value);
  return Math.abs(value - nearest) <= WHOLE_WITHIN * Math.abs(value) ? nearest : value;
}

/**
 * Two certain whole numbers, the lower first, and not too far apart; reported where they are not. A quantity that is one now is
 * counted to as it stands, and what counts is compiled again when it changes.
 */
function limitsOf(compiler: Compiler, nodes: readonly Node[]): Limits | undefined {
  const { tree } = compiler;
  const refuse = (node: Node, reason: (EngineTrouble & { code: "counter.limits" })["reason"], value?: number) => {
    const text = reason === "not certain" ? compiler.text(node) : between;
    const isFormula = value !== undefined && tree.kind(node) !== Kind.Literal;
    const broken = isFormula ? { broken: { text: compiler.text(node), value } } : {};
    return compiler.fail(node, { code: "counter.limits", text, reason, ...broken });
  };
  const [first, last = first] = nodes;
  const between = first === last ? compiler.text(first) : `${compiler.text(first)} .. ${compiler.text(last)}`;
  const found: number[] = [];
  for (const node of nodes) {
    if (tree.kind(node) === Kind.Missing) return undefined;
    const isLiteral = tree.kind(node) === Kind.Literal;
    const isRange = isLiteral && (tree.operator(node) as Form) === Form.Range;
    if (isLiteral && !isRange && (tree.operator(node) as Form) !== Form.Exact) return refuse(node, "not whole");
    const numbers = isRange ? compiler.readLiteral(node) : compiler.expression(node);
    if (!numbers) return undefined;
    if (numbers.dimension !== RATIO) return refuse(node, "not whole");
    if ("low" in numbers) found.push(numbers.low, numbers.high);
    else if (numbers.kind === "quantity" && numbers.constant !== undefined) found.push(numbers.constant);
    else if (numbers.kind !== "quantity" || numbers.isList) return refuse(node, "not whole");
    else {
      const [{ nominal, low, high }] = compiler.peek(numbers.at);
      const isNamed = tree.kind(node) === Kind.Name || tree.kind(node) === Kind.Member;
      if (Number.isNaN(nominal)) return isNamed ? compiler.block(compiler.text(node)) : refuse(node, "not whole");
      if (low !== high) return refuse(node, "not certain");
      found.push(whole(nominal));
    }
  }
  const [low, high = low] = found;
  if (found.length !== 2) return refuse(first, "not whole");
  if (!Number.isInteger(low)) return refuse(first, "not whole", low);
  if (!Number.isInteger(high)) return refuse(last, "not whole", high);
  if (low > high) return refuse(last, "none");
  if (high - low >= MOST_TERMS) return refuse(last, "too many");
  return { low, high };
}
