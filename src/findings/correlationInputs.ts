import type { Wording } from "./finding";

/** `correlation R_p, R2 = 0.8`, where R_p is worked out from others. */
export const correlationInputs: Wording<"correlation.inputs"> = {
  severity: "error",
  severityOf: ({ reason }) => (reason === "measured" ? "warning" : "error"),
  reference:
    "A correlation is of two inputs, each stated or chosen by one literal with limits or an uncertainty of its own; both differ from piece to piece, or neither does. With ± 1 they are one variable, and spread alike.",
  message: ({ name, other, reason }) => {
    switch (reason) {
      case "no input":
        return `\`${name}\` is no input: what is worked out is correlated by the inputs it comes from. Name those.`;
      case "part":
        return `\`${name}\` is a part of a table, whose values vary each by itself. Give the one that is meant a name of its own, as a number with its limits, and name that.`;
      case "condition":
        return `\`${name}\` is an operating condition, which every build passes through, and has no correlation from build to build.`;
      case "formula":
        return `\`${name}\` is stated by a formula. Give the number that varies a name of its own, and name that.`;
      case "exact":
        return `\`${name}\` is exact, and what does not vary is correlated with nothing. Give it limits, or remove the correlation.`;
      case "measured":
        return `\`${name}\` is measured instead, and the correlation was of what was assumed. It has no effect now.`;
      case "same":
        return `\`${name}\` stands on both sides. A correlation is of two inputs.`;
      case "doubled":
        return `The correlation of \`${name}\` and \`${other}\` is stated already. Remove one of the two.`;
      case "pieces":
        return `\`${name}\` differs from piece to piece and \`${other}\` does not, so that pieces could not all follow it. Mark both by \`each\`, or neither.`;
      case "shapes":
        return `With the correlation ± 1, \`${name}\` and \`${other}\` are one variable, and they are not spread alike about their nominal values. State the one by the other, or a correlation between -1 and 1.`;
    }
  },
};
