import { CAUTIONS, howToAccept, type CautionCode } from "../phrases/cautions";
import { extentText } from "../phrases/value";
import type { Wording } from "./finding";

/** A quantity passes a limit beyond which people can be hurt. */
export function caution(code: CautionCode): Wording<CautionCode> {
  const { meaning } = CAUTIONS.find((each) => each.code === code)!;
  return {
    severity: "warning",
    reference: `A caution: ${meaning}. The chapter \`safety\` has the source. It goes only by \`accept ${code} because "…"\`.`,
    message: ({
      passed: {
        caution: { meaning, source, notCovered, constant },
        outcome,
        value,
      },
    }) => {
      const shown = extentText({ nominal: value, low: value, high: value, standing: "exact", pushes: [] }, outcome);
      return [
        `Caution: \`${outcome.name}\` comes to ${shown}, and ${meaning} (${source}; the figure is from memory, to be confirmed there).`,
        `Not covered: ${notCovered}.`,
        "The codes that apply where the work is done, and licensed practice, come first.",
        `See \`safety.${constant}\`${howToAccept(code)}.`,
      ].join(" ");
    },
  };
}
