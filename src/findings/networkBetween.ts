import { dimensionName, siUnit } from "../quantity/dimension";
import { NETWORK_UNITS } from "../engine/networkUnits";
import type { Wording } from "./finding";

/** In a network: what stands in the column of resistances, sources or loads is of another kind. */
export const networkKind: Wording<"network.kind"> = {
  severity: "error",
  reference:
    "What lies between the ends of a branch is a resistance, a source in V or a load in A. A load that takes a fixed power draws the more the lower its voltage: write its current at the lowest, `= 4.8 W / 21 V`.",
  message: ({ role, text, dimension }) => {
    const wanted = NETWORK_UNITS[role].dimension;
    const is = dimension ? `is ${dimensionName(dimension)}` : "is no value";
    const way =
      role === "load" && dimension && siUnit(dimension) === "W" ? " Divide it by the lowest voltage that it gets." : "";
    return `The ${role} of a branch is in ${siUnit(wanted)}, and \`${text}\` ${is}.${way}`;
  },
};

/** In a network: a resistance that is not above zero. */
export const networkResistance: Wording<"network.resistance"> = {
  severity: "error",
  reference: "Between two nodes there is more than no resistance: what joins them without any makes them one node.",
  message: ({ text, isZero }) =>
    isZero
      ? `\`${text}\` is no resistance, and nodes without any between them are one. Give both ends the same name and leave the branch out, or write how small it is; beside a source the cell may be empty.`
      : `\`${text}\` is below zero, and no resistance is.`,
};

/** In a network: a branch with nothing between its ends, or with more than one thing. */
export const networkBetween: Wording<"network.between"> = {
  severity: "error",
  reference:
    "Between the ends of a branch there is a resistance, a source, a source with its resistance, or a load. A branch with another combination is left out.",
  message: ({ branch, has }) =>
    has.length === 0
      ? `There is nothing between the ends of \`${branch}\`, and it is left out. Give it a resistance, a source or a load.`
      : `\`${branch}\` has a load beside a ${has.find((part) => part !== "load")}, and it is left out. What stands side by side, or one behind the other, are two branches.`,
};
