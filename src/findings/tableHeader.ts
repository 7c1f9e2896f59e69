import { CURRENCIES } from "../quantity/currencies";
import { isBuiltInUnit } from "../quantity/unit";
import { isName } from "../syntax/name";
import type { Wording } from "./finding";
import { rewritings } from "./fixing";

/** `| parts: | unit price |`: a column has no name by which it could be used. */
export const tableHeader: Wording<"table.header"> = {
  severity: "error",
  reference:
    "The header of a data table's column is a name, perhaps with a unit in brackets or with a formula: `qty`, `current [mA]`, `total = qty * price`.",
  message: ({ found, rewritten }) => {
    if (found === "") return "This column has no name. Write one, or what it computes: `total = qty * price`.";
    const plain = `\`${found}\` is no name, so nothing can use this column. A name has letters, digits and \`_\``;
    const unit = withUnit(found);
    if (unit !== undefined) return `${plain}, and a unit stands in brackets: \`${unit}\`.`;
    return rewritten.length === 0 ? `${plain}.` : `${plain}: \`${rewritten[0]}\`.`;
  },
  fixes: (problem, { row }) => {
    const unit = withUnit(problem.found);
    return rewritings(unit === undefined ? problem : { ...problem, rewritten: [unit, ...problem.rewritten] }, row);
  },
};

/** `price EUR`: a name with the unit of its column behind it. */
function withUnit(found: string): string | undefined {
  const [, name, word] = /^([\p{L}\d_ ]*[\p{L}\d_])[ ]*[ (]([\p{L}°µΩ%]+)\)?$/u.exec(found) ?? [];
  const joined = name?.replace(/ +/g, "_");
  return joined !== undefined && isName(joined) && isUnitText(word) ? `${joined} [${word}]` : undefined;
}

/** A single letter behind a word is as likely a part of the name: `row A`. */
function isUnitText(word: string): boolean {
  return (word.length > 1 || /[Ω%]/.test(word)) && (isBuiltInUnit(word) || CURRENCIES.has(word));
}
