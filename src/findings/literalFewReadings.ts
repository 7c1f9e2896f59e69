import type { Wording } from "./finding";

/** `readings [5.007] V`. */
export const literalFewReadings: Wording<"literal.fewReadings"> = {
  severity: "error",
  reference:
    "How far readings scatter is seen from two of them on (JCGM 100, 4.2.2). A single one is written with an uncertainty of its own, `5.007 V ± 2 mV (k = 2)`.",
  message: ({ word, number, unit }) => {
    const single = unit === undefined ? number : `${number} ${unit}`;
    return `From ${word === "readings" ? "a single reading" : "a single piece"}, ${single}, nobody can tell how far others lie from it. Give two or more, or write ${single} with its own limits: \`${single} ± …\`.`;
  },
};
