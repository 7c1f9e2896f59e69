import type { Wording } from "./finding";

/** In a network: a source that closes a loop of sources. */
export const networkSourceLoop: Wording<"network.sourceLoop"> = {
  severity: "error",
  reference:
    "Sources without resistance that close a loop say twice what a voltage is, or short each other, and how they share a current is not known. The last of them is left out.",
  message: ({ branch }) =>
    `\`${branch}\` closes a loop of sources without any resistance, and is left out: how such sources share a current is not known. Give each its resistance, in the same row.`,
};

/** A network that is too meshed to be worked out. */
export const networkTooMeshed: Wording<"network.tooMeshed"> = {
  severity: "error",
  reference:
    "Chains, trees, ladders and rings of thousands of branches are worked out, and meshes of some hundred nodes. Beyond that it would take too long.",
  message: ({ branches }) =>
    `These ${branches} branches are too meshed to be worked out. Join nodes that differ little, or take a part of the network.`,
};

/** A network with loads and without any source. */
export const networkNoSource: Wording<"network.noSource"> = {
  severity: "warning",
  reference:
    "The network has loads and nothing that feeds them, so that its voltages are only what they lose on the way. A current that is fed in is a load that leads from the reference.",
  message: ({ column }) =>
    `Nothing feeds this network: it has loads and no source. ${
      column === undefined
        ? "Give the branch of its supply a voltage in a column `source`, or `V`."
        : `Is \`${column}\` its source? That column is called \`source\`, or \`V\`.`
    } A current that is fed in leads from the reference to its node.`,
};
