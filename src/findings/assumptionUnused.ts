import type { Wording } from "./finding";

/** An assumption on which no rule rests. */
export const assumptionUnused: Wording<"assumption.unused"> = {
  severity: "information",
  reference:
    "No rule depends on the assumption, so that it need not be settled. Write the rule that needs it, or remove it.",
  message: ({ name }) =>
    `No rule depends on ${name}: whatever it is, every rule stays as it is. Write the rule that needs it, or remove it.`,
};
