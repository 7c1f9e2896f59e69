import { RATIO, type Dimension } from "../quantity/dimension";
import { showNumber } from "../quantity/display";
import type { Solution } from "../syntax/statement";
import { Form } from "../syntax/tree";
import type { Compiler } from "./compile";
import { ResidualWriter } from "./iteration";
import type { Literal } from "./literal";
import { quantity, type Operand } from "./operand";
import { Op } from "./operation";
import type { SidesAt } from "./problem";
import type { Residual } from "./residual";
import { bracketNumber } from "./solutions";
import { bracketAround, solutionsIn } from "./solutionSearch";
import { temporary } from "./tape";

/** Interval Newton steps on the tape. Each squares what is left, once it is small; the bracket is narrow to begin with. */
const STEPS = 6;
const MOST_SOLUTIONS_SHOWN = 5;

/**
 * Compiles `let NAME in a .. b satisfy left = right`: the solution as things stand is found by a bracketing method, and
 * written to the tape is an iteration from there that holds for all values of the inputs. See `solutions.ts`.
 */
export function compileSolution(compiler: Compiler, statement: Solution): Operand | undefined {
  const literal = bracketOf(compiler, statement);
  if (!literal) return undefined;
  const equation = new Equation(compiler, statement, literal);
  const residual = equation.look();
  return residual && equation.write(residual);
}

function bracketOf(compiler: Compiler, { bracket }: Solution): Literal | undefined {
  const literal = compiler.readLiteral(bracket);
  if (!literal) return undefined;
  const isRange = compiler.tree.operator(bracket) === Form.Range && literal.low < literal.high;
  const refuse = (reason: "not a range" | "points") =>
    compiler.fail(bracket, { code: "solution.bracket", text: compiler.text(bracket), reason });
  if (!isRange || !Number.isFinite(literal.high - literal.low)) return refuse("not a range");
  return literal.point ? refuse("points") : literal;
}

class Equation {
  private readonly name: string;
  /** Of the sides. */
  private dimension: Dimension = RATIO;

  constructor(
    private readonly compiler: Compiler,
    private readonly statement: Solution,
    private readonly bracket: Literal,
  ) {
    this.name = compiler.tree.text(statement.name);
  }

  /** Compiles the equation with any value for the unknown, to look at it. */
  look(): Residual | undefined {
    const { compiler, bracket, statement, name } = this;
    const start = compiler.constant(bracket.low);
    const unknown = -1 - compiler.emit(Op.Centre, statement.bracket, start);
    const sides = this.sides(temporary(unknown));
    if (!sides) return undefined;
    const residual = compiler.residual(unknown, sides);
    if (!residual.isOpen(sides.difference)) return compiler.fail(statement.name, { code: "solution.unused", name });
    const jumps = new ResidualWriter(compiler, residual).slopeAt(temporary(unknown)) === "jumps";
    return jumps ? compiler.fail(statement.name, { code: "solution.jumps", name }) : residual;
  }

  /** Writes the iteration, and the equation at its end, which is where its functions' conditions are looked at. */
  write(residual: Residual): Operand | undefined {
    const { compiler, statement, bracket } = this;
    const solution = this.solve(residual);
    if (solution === undefined) return undefined;
    const [low, high] = bracketAround(residual, solution, bracket);
    compiler.startAgain();
    const writer = new ResidualWriter(compiler, residual);
    const limits = compiler.constant(bracketNumber(low, solution, high), "table");
    const atLow = writer.at(compiler.constant(low));
    const atHigh = writer.at(compiler.constant(high));
    let x = compiler.emit(Op.Bracketed, statement.bracket, atLow, atHigh, limits);
    let before = x;
    for (let step = 0; step < STEPS; step++) {
      const r = writer.at(compiler.emit(Op.Centre, statement.bracket, x));
      const s = writer.slopeAt(x);
      if (s === "jumps") return undefined;
      [before, x] = [x, compiler.emit(Op.Contract, statement.bracket, x, r, s)];
    }
    const settled = compiler.emit(Op.Settled, statement.bracket, x, before, limits);
    const sides = this.sides(settled);
    const s = writer.slopeAt(settled);
    if (!sides || s === "jumps") return undefined;
    const at = compiler.emit(Op.Solution, statement.bracket, settled, sides.difference, s);
    return quantity(statement.name, bracket.dimension, [at], { unit: bracket.unit });
  }

  private sides(unknown: number): Residual["sides"] | undefined {
    const { compiler, statement, bracket, name } = this;
    const value = quantity(statement.name, bracket.dimension, [unknown], { unit: bracket.unit });
    const left = compiler.counting(name, value, statement.left);
    const right = compiler.counting(name, value, statement.right);
    if (!left || !right || !this.isSingle(left) || !this.isSingle(right)) return undefined;
    const agreed = compiler.agree({ kind: "compare" }, left, right);
    if (!agreed) return undefined;
    this.dimension = agreed.dimension;
    const difference = compiler.emit(Op.Subtract, statement.right, left.at[0], right.at[0]);
    return { left: left.at[0], right: right.at[0], difference };
  }

  private isSingle(side: Operand): boolean {
    const where = "in an equation";
    if (!this.compiler.isQuantity(side, where)) return false;
    if (!side.isList) return true;
    this.compiler.fail(side.node, { code: "list.unexpected", where, text: this.compiler.text(side.node) });
    return false;
  }

  /** The one solution in the bracket as things stand; none and several are reported. */
  private solve(residual: Residual): number | undefined {
    const { compiler, statement, bracket, name } = this;
    const solutions = solutionsIn(residual, bracket);
    if (solutions.length === 1) return solutions[0];
    const { low, high } = bracket;
    if (solutions.length > 1) {
      const at = solutions.slice(0, MOST_SOLUTIONS_SHOWN).map((x) => this.shown(x));
      const left = Math.max(0, solutions.length - MOST_SOLUTIONS_SHOWN);
      return compiler.fail(statement.bracket, { code: "solution.several", name, at, left });
    }
    const [first, last] = [low, high].map((x) => this.sidesAt(residual, x));
    return compiler.fail(statement.bracket, { code: "solution.none", name, ends: [first, last] });
  }

  private shown(x: number): string {
    return showNumber(x, this.bracket.dimension, { unit: this.bracket.unit });
  }

  private sidesAt(residual: Residual, x: number): SidesAt {
    const { left, right } = residual.sidesAt(x);
    const side = (value: number) => (Number.isNaN(value) ? undefined : showNumber(value, this.dimension));
    return { at: this.shown(x), left: side(left), right: side(right) };
  }
}
