import { RATIO, siUnit, TEMPERATURE } from "../quantity/dimension";
import { chooseUnit } from "../quantity/display";
import { extraCounts, kindText } from "../phrases/side";
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
    const asked = kindText({ dimension: wantedDimension, point: isScale(wanted) });
    const plain = `\`[${wanted}]\` asks for ${asked}, and this is ${kindText(side)}.`;
    if (isScale(wanted) && side.dimension === TEMPERATURE)
      return `${plain} A difference is shown in \`[K]\`. If it counts from absolute zero, write \`point(${side.text})\`.`;
    const whole = withWantedUnit({ wanted, side });
    if (whole !== undefined) return `${plain} If a unit was forgotten, write \`${whole}\`.`;
    const names = extraCounts(side.dimension, wantedDimension);
    if (names === undefined) return plain + solidAngleText(side.dimension, wantedDimension);
    return `${plain} What is counted is dropped by \`without ${names.join(", ")}\` behind it.`;
  },
  // In a table it is the cell that is wrong, or the header: nothing says which.
  fixes: (problem, { row }) =>
    row.cells
      ? []
      : [
          ...forgotten(problem, row),
          ...withoutCounted(problem, row),
          shownAsItIs(problem, row),
          ...asPoint(problem, row),
        ],
};

/** `R [kΩ] = 4.7`: the number with the unit in brackets. */
function withWantedUnit({ wanted, side }: Pick<ProblemOf<"unit.shownIn">, "wanted" | "side">): string | undefined {
  return /^-?[\d._]+$/.test(side.text) && side.dimension === RATIO ? `${side.text} ${wanted}` : undefined;
}

function forgotten(problem: ProblemOf<"unit.shownIn">, row: Row): readonly Fix[] {
  const whole = withWantedUnit(problem);
  return whole === undefined ? [] : [{ title: `Write ${whole}`, edits: [replaceIn(row, problem.side.span, whole)] }];
}

/** A temperature difference where the brackets ask for a point: it may have been counted from absolute zero. */
function asPoint({ wanted, side }: ProblemOf<"unit.shownIn">, row: Row): readonly Fix[] {
  if (!isScale(wanted) || side.dimension !== TEMPERATURE) return [];
  const text = `point(${side.text})`;
  return [{ title: `Write ${text}`, edits: [replaceIn(row, side.span, text)] }];
}

/** Alone in brackets, a degree asks for a point on its scale. */
function isScale(unit: string): boolean {
  return unit === "°C" || unit === "°F";
}

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
