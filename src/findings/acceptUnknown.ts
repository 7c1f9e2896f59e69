import { nearestName } from "../engine/suggest";
import { alternatives, replaceIn } from "./fixing";
import type { Wording } from "./finding";

/** `accept rule.fails`, `accept choice.overtaken_`. */
export const acceptUnknown: Wording<"accept.unknown"> = {
  severity: "warning",
  reference:
    "What is accepted is the code of a finding, such as `choice.overtaken`, or `should.NAME` with the first name of a `should`.",
  message: ({ accepted, instead }) => {
    if (accepted.startsWith("rule.") && instead.length > 0)
      return `Rules are accepted one by one: write ${alternatives(instead)}.`;
    const meant = nearestName(instead, accepted);
    return `\`${accepted}\` is the code of no finding.${meant === undefined ? "" : ` Did you mean \`${meant}\`?`}`;
  },
  fixes: ({ accepted, instead, span }, { row }) => {
    const meant = accepted.startsWith("rule.") ? instead.slice(0, 3) : [nearestName(instead, accepted)];
    return meant
      .filter((code) => code !== undefined)
      .map((code) => ({ title: `Write ${code}`, edits: [replaceIn(row, span, code)] }));
  },
};
