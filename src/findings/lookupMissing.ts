import type { Wording } from "./finding";

/** `lookup("FR4", ["FR-4", "CEM-1"], …)`. */
export const lookupMissing: Wording<"lookup.missing"> = {
  severity: "error",
  reference: "A text that is looked up has to be one of the keys, letter by letter.",
  message: ({ text, keys, suggestion }) => {
    const known = keys.slice(0, MOST_KEYS).map((key) => `"${key}"`);
    const more = keys.length > MOST_KEYS ? " …" : "";
    const meant = suggestion === undefined ? "" : ` Did you mean "${suggestion}"?`;
    return `There is no "${text}" among ${known.join(", ")}${more}.${meant}`;
  },
};

/** A longer list is not read. */
const MOST_KEYS = 12;
