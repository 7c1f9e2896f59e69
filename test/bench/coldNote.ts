/** In a process of its own: the first note that it opens, from scratch to stage A and to what stands beside its lines. `coldNote.js SHAPE COUNT` prints both in ms. */
import { HeldNotes } from "../../src/heldNotes";
import { generate, type Shape } from "./notes";
import { time } from "./time";

const PATH = "bench.calcs.md";
const [shape, count] = process.argv.slice(2);
const { text } = generate(shape as Shape, Number(count));
const nothing = { read: () => Promise.resolve({ trouble: "missing", detail: "" } as const) };
const notes = new HeldNotes(nothing, "in slices", () => Promise.reject(new Error("No part is asked for here.")));
const state = time(() => {
  notes.open(PATH, text);
  notes.snapshot(PATH);
});
const beside = time(() => notes.results(PATH));
console.log(JSON.stringify({ state, beside }));
