import type { Cursor } from "./cursor";
import { Token } from "./lexer";
import { literal } from "./literal";
import { group, isNumber, postfix } from "./operand";
import { Form, Kind, type Node } from "./tree";

/** `2 (a + b)`: nothing is multiplied by standing side by side. */
export function missingOperator(at: Cursor, left: Node): Node {
  const { tree } = at;
  const start = tree.start(left);
  const limits = isNumber(at, left) ? bracketedLimits(at, left) : undefined;
  if (limits !== undefined) return limits;
  const before = at.text.slice(start, tree.end(left));
  // `20 log10(x)`: a word that is called is no unit.
  const called = tree.end(left) === at.start ? /^(-?[\d._]+)\s+([\p{L}_][\p{L}\d_]*)$/u.exec(before) : undefined;
  const right = group(at);
  const end = tree.end(right);
  const inBrackets = at.text.slice(tree.start(right), end);
  // `2 x (a + b)`: the sign has been read as a unit.
  const factor = before.replace(/(?<=\d)\s*[xX]$/, "");
  const rewritten = [called ? `${called[1]} * ${called[2]}${inBrackets}` : `${factor} * ${inBrackets}`];
  at.report(start, end, { code: "syntax.missingOperator", rewritten });
  tree.join(left, right);
  return tree.add(Kind.Missing, start, end, left);
}

/** `5 V (± 5 %)`: limits in brackets, as data sheets print them. */
function bracketedLimits(at: Cursor, left: Node): Node | undefined {
  const { tree, text } = at;
  const [whole, half] = /^\(\s*(?:±|\+\/[-−])\s*([^()]*?)\s*\)/.exec(text.slice(at.start)) ?? [];
  if (whole === undefined) return undefined;
  const [start, end] = [tree.start(left), at.start + whole.length];
  const rewritten = [`${text.slice(start, tree.end(left))} ± ${half}`];
  at.report(start, end, { code: "syntax.missingOperator", rewritten });
  at.resume(end);
  return at.spoil(left);
}

/** A sign or number behind an operand that it cannot follow. */
export function misplaced(at: Cursor, operand: Node): Node {
  if (at.tree.kind(operand) === Kind.Missing) return operand;
  switch (at.kind) {
    case Token.PlusMinus:
      return isNumber(at, operand) ? operand : plusMinus(at, operand);
    case Token.Range:
      return isNumber(at, operand) ? operand : range(at, operand);
    case Token.Percent:
      return remainder(at, operand, true);
    default:
      return isNumber(at, operand) ? adjacent(at, operand) : operand;
  }
}

/** `x ± 5 %` and `x ± 0.1 V`: an uncertainty of its own has to be multiplied or added. */
function plusMinus(at: Cursor, left: Node): Node {
  const { tree } = at;
  const start = tree.start(left);
  const before = at.text.slice(start, tree.end(left));
  at.advance();
  if (!at.is(Token.Number)) {
    at.report(start, at.previousEnd, { code: "syntax.plusMinusAfterQuantity", rewritten: [] });
    return at.spoil(left);
  }
  const half = literal(at);
  const written = at.text.slice(tree.start(half), tree.end(half));
  const relative = /(%|ppm)$/.test(written);
  const unit = relative ? "" : written.replace(/^[\d._eE+-]*/, "");
  const rewritten = relative ? `${before} * (1 ± ${written})` : `${before} + (0${unit} ± ${written})`;
  const isAlone = at.is(Token.End) && /[=:]\s*$/.test(at.text.slice(Math.max(0, start - 20), start));
  at.report(start, tree.end(half), {
    code: "syntax.plusMinusAfterQuantity",
    rewritten: [isAlone ? rewritten : `(${rewritten})`],
  });
  tree.join(left, half);
  return tree.add(Kind.Missing, start, tree.end(half), left);
}

function range(at: Cursor, left: Node): Node {
  const { tree } = at;
  at.report(at.start, at.end, { code: "syntax.joinsNumbers", sign: ".." });
  at.advance();
  if (!at.is(Token.Word) && !at.is(Token.Number) && !at.is(Token.Minus)) return at.spoil(left);
  if (!at.enter()) return at.spoil(left);
  if (at.is(Token.Minus)) at.advance();
  const right = postfix(at);
  at.leave();
  tree.join(left, right);
  return tree.add(Kind.Missing, tree.start(left), tree.end(right), left);
}

/** `a % b`. Of a number, the percent sign has been read as its unit already. */
function remainder(at: Cursor, left: Node, stepOver: boolean): Node {
  const { tree, text } = at;
  const start = tree.start(left);
  const before = text.slice(start, tree.end(left)).replace(/\s*%$/, "");
  if (stepOver) at.advance();
  if (!at.is(Token.Word) && !at.is(Token.Number) && !at.is(Token.Open)) {
    at.report(start, at.previousEnd, { code: "syntax.percentIsUnit", rewritten: [] });
    return at.spoil(left);
  }
  if (!at.enter()) return at.spoil(left);
  const right = postfix(at);
  at.leave();
  const end = tree.end(right);
  const rewritten = [`mod(${before}, ${text.slice(tree.start(right), end)})`];
  at.report(start, end, { code: "syntax.percentIsUnit", rewritten });
  tree.join(left, right);
  return tree.add(Kind.Missing, start, end, left);
}

/** A number straight behind a number: `5 1/4 in`, `7 % 3`, or something that cannot be guessed. */
function adjacent(at: Cursor, left: Node): Node {
  const { tree, text } = at;
  const before = text.slice(tree.start(left), tree.end(left));
  if (tree.operator(left) !== Form.Exact) return left;
  if (before.endsWith("%")) return remainder(at, left, false);
  const mixed = /^\d+$/.test(before) && /^(\d+)\/(\d+)$/.exec(at.found);
  if (!mixed) return left;
  const whole = Number(before) * Number(mixed[2]) + Number(mixed[1]);
  const start = tree.start(left);
  const fraction = at.start;
  const right = literal(at);
  const end = tree.end(right);
  const rewritten = [`${whole}/${mixed[2]}${text.slice(fraction + mixed[0].length, end)}`];
  at.report(start, end, { code: "syntax.mixedNumber", rewritten });
  tree.join(left, right);
  return tree.add(Kind.Missing, start, end, left);
}
