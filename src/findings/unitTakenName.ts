import { unitHelp } from "../phrases/unitHelp";
import type { Wording } from "./finding";

/** `items A`. */
export const unitTakenName: Wording<"unit.takenName"> = {
  severity: "error",
  reference: "What is counted cannot bear the name of a unit, or `3 A` would have two meanings.",
  message: ({ name }) => {
    const help = unitHelp(name);
    const which = help ? ` (${help.names})` : "";
    return `\`${name}\` is a unit${which}, so that \`3 ${name}\` would have two meanings. Choose another name for what is counted.`;
  },
};
