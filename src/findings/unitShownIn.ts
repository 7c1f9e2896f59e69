import { siUnit } from "../quantity/dimension";
import { chooseUnit } from "../quantity/display";
import { dimensionText, extraCounts, kindText } from "../phrases/side";
import { solidAngleText } from "../phrases/solidAngle";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { ProblemOf, Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `P [V] = 3 W`. */
export const unitShownIn: Wording<"unit.shownIn"> = {
  severity: "error",
  reference:
    "The unit in brackets is of another kind than the value. The value is right or the unit is; the brackets convert nothing.",
  message: ({ wanted, wantedDimension, side }) => {
    const plain = `\`[${wanted}]\` asks for ${dimensionText(wantedDimension)}, and this is ${kindText(side)}.`;
    const names = extraCounts(side.dimension, wantedDimension);
    if (names === undefined) return plain + solidAngleText(side.dimension, wantedDimension);
    return `${plain} What is counted is dropped by \`without ${names.join(", ")}\` behind it.`;
  },
  // In a table it is the cell that is wrong, or the header: nothing says which.
  fixes: (problem, { row }) => (row.cells ? [] : [...withoutCounted(problem, row), shownAsItIs(problem, row)]),
};

/** Behind the definition, where brackets ask for what it is without what it counts. */
function withoutCounted({ side, wantedDimension }: ProblemOf<"unit.shownIn">, row: Row): readonly Fix[] {
  const names = extraCounts(side.dimension, wantedDimension);
  if (names === undefined) return [];
  const clause = `without ${names.join(", ")}`;
  return [
    { title: `Add ${clause}`, edits: [replaceIn(row, { start: side.span.end, end: side.span.end }, ` ${clause}`)] },
  ];
}

function shownAsItIs({ side, span }: ProblemOf<"unit.shownIn">, row: Row): Fix {
  const { outcome, statement } = row;
  const nominal = outcome.kind === "quantity" ? outcome.values[0]?.nominal : undefined;
  const unit = side.point
    ? "°C"
    : nominal === undefined
      ? siUnit(side.dimension)
      : chooseUnit(nominal, side.dimension).text;
  const isBracketed = statement.text.startsWith("[", span.start);
  return { title: `Show it in ${unit}`, edits: [replaceIn(row, span, isBracketed ? `[${unit}]` : unit)] };
}
