import { nearestName } from "../engine/suggest";
import { alternatives, replaceIn } from "./fixing";
import type { Wording } from "./finding";

const ACCEPTABLE = "Only a caution, another warning or a `should` can be accepted.";
/** As many as there are fixes for one finding. */
const MOST_NAMED = 3;

/** `accept rule.fails`, `accept must.V`, `accept choice.overtaken_`. */
export const acceptUnknown: Wording<"accept.unknown"> = {
  severity: "warning",
  reference:
    "What is accepted is the code of a finding, such as `choice.overtaken`, or `should.NAME` with the first name of a `should`.",
  message: ({ accepted, instead }) => {
    const [kind] = accepted.split(".");
    if (kind === "must") return `${ACCEPTABLE} Mend what \`${accepted}\` means, or make it a \`should\`.`;
    if (kind === "rule")
      return instead.length === 0
        ? `${ACCEPTABLE} This note has no \`should\`.`
        : `${ACCEPTABLE} Rules are accepted one by one: write ${alternatives(instead.slice(0, MOST_NAMED))}.`;
    const meant = nearestName(instead, accepted);
    return `\`${accepted}\` is the code of no finding.${meant === undefined ? "" : ` Did you mean \`${meant}\`?`}`;
  },
  fixes: ({ accepted, instead, span }, { row }) => {
    const [kind] = accepted.split(".");
    if (kind === "must") return [];
    const meant = kind === "rule" ? instead.slice(0, MOST_NAMED) : [nearestName(instead, accepted)];
    return meant
      .filter((code) => code !== undefined)
      .map((code) => ({ title: `Write ${code}`, edits: [replaceIn(row, span, code)] }));
  },
};
