/** In a process of its own: mathjs's first loop over the formulas of a note. `coldMathjs.js SHAPE COUNT` prints it in ms. */
import { all, create } from "mathjs";
import { generate, type Shape } from "./notes";
import { time } from "./time";

const math = create(all);
const [shape, count] = process.argv.slice(2);
const { formulas } = generate(shape as Shape, Number(count));
// Its functions are made when they are first asked for, which is part of its loading as ours is of ours.
math.evaluate("1 + 1");
const state = time(() => {
  const scope = {};
  for (const formula of formulas) math.evaluate(formula, scope);
});
console.log(JSON.stringify({ state }));
