import type { FunctionDefinition } from "./statement";
import type { Node } from "./tree";

/** How a function is called, and the unit of what it gives: `loop(length [m], area [mm^2] = 0.5 mm^2) [Ω]`. */
export function signatureOf(definition: FunctionDefinition): string {
  const { tree, name, unit } = definition;
  return `${tree.text(name)}(${parametersOf(definition).join(", ")})${bracketText(definition, unit)}`;
}

/** The parameters of a function, each with its unit, and with what it is unless it is given: `area [mm^2] = 0.5 mm^2`. */
export function parametersOf(definition: FunctionDefinition): readonly string[] {
  const { tree, text, parameters } = definition;
  return parameters.map(({ name, unit, default: by }) => {
    const otherwise = by === undefined ? "" : ` = ${text.slice(tree.start(by), tree.end(by))}`;
    return tree.text(name) + bracketText(definition, unit) + otherwise;
  });
}

function bracketText({ tree, text }: FunctionDefinition, unit: Node | undefined): string {
  return unit === undefined ? "" : ` [${text.slice(tree.start(unit), tree.end(unit))}]`;
}
