import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `==`, `**`, `&&`: signs of other languages. */
export const syntaxOtherSign: Wording<"syntax.otherSign"> = {
  severity: "error",
  reference:
    "A sign of another language, such as `==`, `**` or `&&`. It is read as what it means; write the sign of this one.",
  message: ({ found, rewritten: [meant] }) =>
    meant === "" ? `\`${found}\` is not written before a value.` : `\`${found}\` is written \`${meant}\` here.`,
  fixes: (problem, { row }) => rewritings(problem, row),
};
