import { withoutCounts, type Dimension } from "../quantity/dimension";
import { isBuiltInUnit, isUnit, type Unit } from "../quantity/unit";
import type { FunctionDefinition } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import { Compiler } from "./compile";
import type { Entry } from "./entry";
import type { Binding } from "./frame";
import { unitOf } from "./literal";
import { NATIVES } from "./natives";
import { quantity, type Operand } from "./operand";
import { bracketUnit, shownIn } from "./shownIn";
import { keptUnit } from "./statedUnit";

/**
 * The units of a function, `cutoff(R [Ω], C [F]) [Hz] = …`: of what kind its arguments are, and what it gives. A parameter
 * without a unit takes any kind. What is counted may come on top, since a function knows nothing of LEDs: where it wants a
 * current, 20 mA/LED will do, and what it gives then counts as well. A bare zero is of every kind.
 */

/** An argument as its parameter takes it; undefined where it is of another kind, which is reported at the argument. */
export function fittingArgument(
  compiler: Compiler,
  found: Entry,
  name: string,
  parameter: string,
  argument: Binding,
): Binding | undefined {
  const unit = parameterUnit(compiler, found, parameter);
  if (!unit) return argument;
  const { operand, node } = argument;
  const { dimension, isTemperatureScale: point } = unit;
  if (operand.kind !== "quantity") {
    compiler.isQuantity(operand, `as \`${parameter}\` of ${name}(…)`);
    return undefined;
  }
  if (operand.isZero && !point) return { ...argument, operand: { ...operand, dimension, unit } };
  if (operand.point === point && isAsideFromCounts(operand.dimension, dimension)) return argument;
  const wanted = { dimension, point };
  const side = compiler.side({ ...operand, node });
  return compiler.fail(node, { code: "function.argumentUnit", name, parameter, unit: unit.text, wanted, side });
}

/**
 * What a function gives, in its unit; in the function that is open. A unit with a prefix is kept as it is written, since
 * whoever writes mm means mm; one without takes whatever prefix fits.
 */
export function resultIn(compiler: Compiler, result: Operand, bracket: Node): Operand {
  const unit = bracketUnit(compiler, bracket);
  if (!unit || result.kind !== "quantity") return result;
  const fits = result.point === unit.isTemperatureScale && isAsideFromCounts(result.dimension, unit.dimension);
  if (!fits) return shownIn(compiler, result, unit, bracket);
  if (result.dimension !== unit.dimension) return result;
  const isPrefixed = unit.powers.some(({ prefix }) => prefix !== "");
  return { ...result, unit: keptUnit(unit) ?? (isPrefixed ? unit : result.unit) };
}

/**
 * At the definition of a function that rests on nothing but its parameters, all of which say of what kind they are: whether
 * it gives what its brackets say. What else is wrong with a body is told where it is called, since that depends on what is counted.
 */
export function checkResult(compiler: Compiler, entry: Entry, statement: FunctionDefinition): void {
  const { tree, parameters, unit: bracket, value } = statement;
  const isClosed = entry.mentions.every(({ name, use }) => use === "unit" || NATIVES.has(name) || name === "π");
  if (bracket === undefined || !isClosed || compiler.problems.length > 0) return;
  const trial = new Compiler(compiler.around, compiler.code, entry);
  const bound = new Map<string, Binding>();
  for (const { name: node } of parameters) {
    const name = tree.text(node);
    const unit = parameterUnit(compiler, entry, name);
    if (!unit) return;
    const { dimension, isTemperatureScale: point } = unit;
    bound.set(name, { operand: quantity(node, dimension, [trial.constant(1)], { point, unit }), node });
  }
  const result = trial.inFrame({ ...trial.frame, bound }, () => {
    const given = trial.expression(value);
    return given && resultIn(trial, given, bracket);
  });
  compiler.code.clear();
  if (!result) return;
  for (const problem of trial.problems) if (problem.code === "unit.shownIn") compiler.complain(problem.span, problem);
}

/** A unit that cannot be read is reported at the function. */
function parameterUnit(compiler: Compiler, found: Entry, name: string): Unit | undefined {
  const { tree, parameters } = found.statement as FunctionDefinition;
  const bracket = parameters.find((parameter) => tree.text(parameter.name) === name)?.unit;
  if (bracket === undefined) return undefined;
  const unit = unitOf(tree, bracket, (counted) => compiler.around.isCounted(found, counted));
  return isUnit(unit) ? unit : undefined;
}

function isAsideFromCounts(dimension: Dimension, wanted: Dimension): boolean {
  if (dimension === wanted) return true;
  const extra = [...dimension.counts.keys()].filter((name) => !wanted.counts.has(name) && !isBuiltInUnit(name));
  return extra.length > 0 && withoutCounts(dimension, extra) === wanted;
}
