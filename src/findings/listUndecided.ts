import type { Wording } from "./finding";

/** `filter(parts.price, parts.mass > 3 g)`, where a mass may be on either side. */
export const listUndecided: Wording<"list.undecided"> = {
  severity: "error",
  reference:
    "Which members a list has, or in which order, may not depend on uncertain inputs: it is decided at one value, such as the nominal, the lowest or the highest.",
  message: ({ name, row, isMissing }) => {
    if (isMissing)
      return name === "filter"
        ? `Whether \`${row}\` is in the list cannot be told, since what it is asked for has no value there.`
        : `Where \`${row}\` stands in the order cannot be told, since what it is sorted by has no value there.`;
    return name === "filter"
      ? `Whether \`${row}\` is in the list is open within the limits of the inputs. Compare what is certain, such as a nominal or highest value.`
      : `Where \`${row}\` stands in the order is open within the limits of the inputs. Sort by what is certain, such as a nominal value.`;
  },
};
