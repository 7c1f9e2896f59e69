import type { Extent, QuantityOutcome } from "../engine/outcome";
import type { Row } from "../engine/snapshot";
import type { Derived, Input, Measurement, Solution, Statement } from "../syntax/statement";
import type { Node } from "../syntax/tree";
import { code, escaped } from "./markdown";
import { spreadSentence } from "./spread";
import { valueText } from "./value";

/** Where a quantity comes from, in words, as Markdown: *A guess.* *Assumed, from “LED sheet”.* Empty where its formula says it. */
export function originText({ statement }: Row, outcome: QuantityOutcome): string {
  switch (statement.kind) {
    case "given":
      return `Given${eachText(statement)}${sourceText(statement, statement.source)}.${spreadText(outcome)}`;
    case "over":
      return `An operating condition${sourceText(statement, statement.source)}: rules hold throughout it.`;
    case "assume":
      if (outcome.assumed)
        return `Measured. It was assumed to be ${escaped(valueText({ ...outcome, values: outcome.assumed }))}${sourceText(statement, statement.source)}.`;
      return `${statement.source === undefined ? "A guess" : "Assumed"}${eachText(statement)}${sourceText(statement, statement.source)}.${spreadText(outcome)}`;
    case "order":
      return "To be typed into the order.";
    case "choice":
      return "A decision.";
    case "derived":
      return choiceText(statement);
    case "let":
      return foundText(statement);
    case "measured":
      return `${measurementText(statement)}.`;
    default:
      return "";
  }
}

/** `for each LED`, of what differs from piece to piece. */
function eachText({ each, tree }: Input): string {
  if (!each) return "";
  return ` for each ${each.item === undefined ? "piece" : escaped(tree.text(each.item))}`;
}

/** What a worst case counts of an input that is stated by its uncertainty. */
function spreadText({ values }: QuantityOutcome): string {
  const [extent] = values as readonly (Extent | undefined)[];
  const input = extent?.pushes.length === 1 ? extent.pushes[0].input : undefined;
  if (!input || input.low !== extent?.low || (input.spread.shape !== "normal" && input.spread.shape !== "student"))
    return "";
  return ` ${spreadSentence(input)}`;
}

/** A measurement with its circumstances, as Markdown: `Measured, 3 pieces, at V_cell = 3.0 V, on 2026-03-20, from “bench book”`. */
export function measurementText(statement: Measurement): string {
  const { tree, text } = statement;
  const written = (node: Node) => text.slice(tree.start(node), tree.end(node));
  const parts = ["Measured"];
  if (statement.of !== undefined) parts.push(statement.of === 1 ? "1 piece" : `${statement.of} pieces`);
  if (statement.at.length > 0)
    parts.push(
      `at ${statement.at.map(({ name, value }) => code(`${tree.text(name)} = ${written(value)}`)).join(", ")}`,
    );
  if (statement.on !== undefined) parts.push(`on ${escaped(statement.on)}`);
  return parts.join(", ") + sourceText(statement, statement.source);
}

/** *Found in `1 .. 20 mA`, so that `R * I = V - I`.* */
function foundText({ tree, text, bracket, left, right }: Solution): string {
  const written = (from: Node, to = from) => code(text.slice(tree.start(from), tree.end(to)));
  return `Found in ${written(bracket)}, so that ${written(left, right)}.`;
}

function choiceText({ choice, tree, text }: Derived): string {
  if (!choice) return "";
  const sense = { nearest: "", least: ", at least what is wanted", most: ", at most what is wanted" }[choice.sense];
  const from =
    choice.from === undefined ? "" : ` from ${code(text.slice(tree.start(choice.from), tree.end(choice.from)))}`;
  return `Chosen${from}${sense}.`;
}

function sourceText({ tree }: Statement, source: Node | undefined): string {
  return source === undefined ? "" : `, from “${escaped(tree.text(source))}”`;
}
