import type { Wording } from "./finding";

/** `accept` of something that is not there. */
export const acceptIdle: Wording<"accept.idle"> = {
  severity: "information",
  reference:
    "The acceptance has nothing to accept: what it was written for is gone, or is an error, which cannot be accepted.",
  message: ({ accepted, reason }) =>
    reason === "error"
      ? `\`${accepted}\` is an error in this note, and errors cannot be accepted.`
      : `There is nothing to accept: this note has no \`${accepted}\`. Remove the line, or keep it for when it returns.`,
};
