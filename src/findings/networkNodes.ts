import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

const listed = (names: readonly string[], left: number) =>
  `${names.map((name) => `\`${name}\``).join(", ")}${left > 0 ? ` and ${left} more` : ""}`;

/** In a network: a branch that ends nowhere, or where it begins. */
export const networkEnd: Wording<"network.end"> = {
  severity: "error",
  reference: "A branch leads from one node to another: both are named in its row. A branch that does not is left out.",
  message: ({ branch, node }) =>
    node === undefined
      ? `\`${branch}\` leads nowhere, and is left out. Name the node at this end.`
      : `\`${branch}\` ends where it begins, at \`${node}\`, and is left out. Name the other node.`,
};

/** In a network: no node is the reference, or several could be. */
export const networkReference: Wording<"network.reference"> = {
  severity: "error",
  reference:
    "Voltages are against a reference node, which is called `0`, `0V`, `GND` or `ground`, by one of these names in the whole table.",
  message: ({ found }) =>
    found.length === 0
      ? "No node of this network is the reference. Call one `0V`, or `GND`: all voltages are against it."
      : `${listed(found, 0)} are all names of the reference, which is one node. Use one of them.`,
};

/** In a network: nodes without a way to the reference. */
export const networkFloating: Wording<"network.floating"> = {
  severity: "error",
  reference:
    "A node has a voltage where resistances or sources lead from it to the reference. A load is no way, since its current is given. Branches at such a node are left out.",
  message: ({ nodes, left, reference }) => {
    const one = nodes.length === 1;
    return `${listed(nodes, left)} ${one ? "has" : "have"} no way to \`${reference}\` by resistances or sources, so that ${one ? "its voltage is" : "their voltages are"} not known. Add the branch that is missing; until then the branches there are left out.`;
  },
};

/** In a network: a node at which one branch ends and no other begins. */
export const networkDeadEnd: Wording<"network.deadEnd"> = {
  severity: "warning",
  reference:
    "No other branch ends at the node, so that nothing flows to it. That may be meant; it is also what a mistyped name looks like.",
  message: ({ node, branch, suggestion }) =>
    `No other branch ends at \`${node}\`, so that nothing flows through \`${branch}\`.${suggestion === undefined ? "" : ` Did you mean \`${suggestion}\`?`}`,
  fixes: ({ suggestion, span }, { row }) =>
    suggestion === undefined
      ? []
      : [{ title: `Write ${suggestion}`, edits: [replaceIn(row, span, suggestion)], isPreferred: true }],
};
