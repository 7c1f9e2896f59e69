import { NATIVES } from "../engine/natives";
import { CHAPTERS } from "../engine/handbook";
import type { NameKind } from "../engine/problem";
import { findName, type Scope } from "../phrases/side";
import type { Wording } from "./finding";
import { replaceIn } from "./fixing";

/** A function without brackets, a counted unit as a quantity, a quantity that is called. */
export const nameWrongKind: Wording<"name.wrongKind"> = {
  severity: "error",
  reference:
    "The name is of another kind than its place needs: a function is called with brackets, a counted unit belongs to a number, another note gives quantities by `NAME.quantity`.",
  message: ({ name, is, wanted, span }, { row, context }) => {
    if (wanted === "function")
      return `\`${name}\` is ${KINDS[is]} and cannot be called.${is === "quantity" ? " To multiply write `*`." : ""}`;
    if (wanted === "note") {
      const behind = row.statement.text.slice(span.end);
      return oneOfList(name, behind, context) ?? withoutMembers(name, is, behind);
    }
    if (wanted === "counted unit") return `\`${name}\` is ${KINDS[is]}; only counted units are dropped by \`without\`.`;
    return `\`${name}\` is ${KINDS[is]}, and a quantity is wanted here. ${WAYS_OUT[is](name)}`;
  },
  fixes: ({ name, is, wanted, span }, { row }) => {
    if (wanted === "quantity" && is === "counted unit")
      return [{ title: `Write 1 ${name}`, edits: [replaceIn(row, span, `1 ${name}`)] }];
    if (wanted !== "function" || is !== "quantity") return [];
    const space = /^\s*/.exec(row.statement.text.slice(span.end))![0].length;
    const gap = { start: span.end, end: span.end + space };
    return [{ title: `Write ${name} * (…)`, edits: [replaceIn(row, gap, " * ")] }];
  },
};

/** `list[2]`: a member is looked up by its number. */
function oneOfList(name: string, behind: string, scope: Scope): string | undefined {
  const number = /^\s*\[\s*(\d+)\s*\]/.exec(behind)?.[1];
  const outcome = findName(name, scope)?.outcome;
  if (number === undefined || outcome?.kind !== "quantity" || outcome.values.length < 2) return undefined;
  const { length } = outcome.values;
  const plain = `\`${name}\` is a list of ${length}, and its members have no names.`;
  if (Number(number) < 1 || Number(number) > length || length > MOST_NUMBERED) return `${plain} ${ONE_OF_A_LIST}`;
  const numbers = Array.from({ length }, (_, i) => i + 1).join(", ");
  return `${plain} By its number one is looked up: \`lookup(${number}, [${numbers}], ${name})\`.`;
}

/** Members of a list whose numbers are written out. */
const MOST_NUMBERED = 12;

/** `v.x`, `list[1]`: what a dot and an index are for, and what is there instead. */
function withoutMembers(name: string, is: NameKind, behind: string): string {
  const plain = `\`${name}\` is ${KINDS[is]}`;
  if (/^\s*\[/.test(behind))
    return `${plain}, and has no members by number or name: \`[…]\` takes a row of a table, \`table["name"].column\`. ${ONE_OF_A_LIST}`;
  const [, member = ""] = /^\s*\.\s*([\p{L}\d_]+)/u.exec(behind) ?? [];
  const native = OF_A_RANGE[member.toLowerCase()];
  if (native !== undefined && NATIVES.has(native)) return `${plain}, and has no members. Write \`${native}(${name})\`.`;
  if (CHAPTERS.has(name))
    return `${plain} here, and hides the chapter of the handbook of that name. Give it another one to call \`${name}.${member}\`.`;
  return `${plain}, and nothing of it can be named behind a dot. A dot leads to a quantity of another note, a column or cell of a table, or a function of a chapter.`;
}

const ONE_OF_A_LIST =
  "Of a list there are `sum`, `mean`, `min`, `max` and `size`; to use one member, give it a name of its own.";

/** What people ask of a value behind a dot. */
const OF_A_RANGE: Readonly<Partial<Record<string, string>>> = {
  min: "lowest",
  low: "lowest",
  max: "highest",
  high: "highest",
  nom: "nominal",
  nominal: "nominal",
  typ: "nominal",
};

const KINDS: Readonly<Record<NameKind, string>> = {
  quantity: "a quantity",
  function: "a function",
  "counted unit": "a counted unit",
  note: "another note",
  "fabrication files": "a set of fabrication files",
  "native function": "a built-in function",
  table: "a table",
  column: "a column",
  row: "a row of a table",
  part: "a part",
};

const called = (name: string): string => `Call it with its arguments: \`${name}(…)\`.`;

const WAYS_OUT: Readonly<Record<NameKind, (name: string) => string>> = {
  quantity: () => "",
  function: called,
  "native function": called,
  "counted unit": (name) => `Put a number before it: \`1 ${name}\`.`,
  note: (name) => `Name one of its quantities: \`${name}.quantity\`.`,
  "fabrication files": (name) => `Name one of their facts: \`${name}.width\`.`,
  table: (name) => `Name one of its columns, or a cell: \`${name}.column\`, \`${name}.row.column\`.`,
  column: () => "",
  row: (name) => `Name one of its cells: \`${name}.column\`.`,
  part: (name) => `Name one of its values: \`${name}.column\`.`,
};
