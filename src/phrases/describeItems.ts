import type { ColumnOutcome, QuantityOutcome } from "../engine/outcome";
import { nameUsesOf } from "../engine/nameUses";
import { linkedWith, referentOf, type Notes } from "../engine/referent";
import type { Row, Snapshot } from "../engine/snapshot";
import { countDimension, type Dimension } from "../quantity/dimension";
import { Kind } from "../syntax/tree";
import { named } from "./describeQuantity";
import { code, escaped } from "./markdown";
import { cellType, rowNamesOf } from "./tableCells";
import { extentText, numberText, type Showable } from "./value";

/** A quantity or a column of a note. */
interface Place {
  readonly home: Snapshot;
  readonly row: Row;
  readonly outcome: QuantityOutcome | ColumnOutcome;
}

/** A number of pieces: what it comes to, at nominal, and how it is told. */
interface Count extends Place {
  readonly total: number;
  readonly showable: Showable;
  readonly text: string;
}

/**
 * A counted unit: what is counted in it in this note and in those that share quantities with it, and what that comes to. A
 * count from which another is worked out is a part of that one, and is not added up again.
 */
export function describeItems(name: string, row: Row, home: Snapshot, notes: Notes): readonly string[] {
  const places = linkedWith(home.path, notes).flatMap((path) => placesIn(notes.get(path)));
  const pieces = countDimension(name);
  const counts = places.flatMap((place) => countIn(place, pieces) ?? []);
  const within = reachedFrom(counts, notes);
  const [all, parts] = [counts.filter((each) => !within.has(each.row)), counts.filter((each) => within.has(each.row))];
  const others = places.filter(
    ({ outcome }) => !counts.some((count) => count.outcome === outcome) && isAbout(outcome, name),
  );
  const namesOf = (of: readonly Place[]) => named([...new Set(of.map(({ outcome }) => code(outcome.name)))]);
  return [
    `**${code(name)}** is counted: a unit of its own, which only ${code(`without ${name}`)} drops.`,
    escaped(row.statement.comment),
    all.map(({ text }) => `- ${text}`).join("\n"),
    all.length > 1 ? togetherText(all) : "",
    parts.length > 0 ? `Counted in there: ${namesOf(parts)}` : "",
    others.length > 0 ? `${counts.length > 0 ? "Also in" : "In"} ${namesOf(others)}` : "",
  ].filter((text) => text !== "");
}

function placesIn(home: Snapshot | undefined): readonly Place[] {
  return (home?.rows ?? []).flatMap((row) => {
    const { outcome } = row;
    return home && (outcome.kind === "quantity" || outcome.kind === "column") ? [{ home, row, outcome }] : [];
  });
}

/** Whether a counted unit is part of the dimension of a quantity, or of a cell of a column. */
function isAbout(outcome: Place["outcome"], name: string): boolean {
  return kindsOf(outcome).some(({ dimension }) => dimension.counts.has(name));
}

function kindsOf(outcome: Place["outcome"]): readonly Showable[] {
  if (outcome.kind === "quantity") return [outcome];
  return outcome.of === "quantity" ? (outcome.mixed ?? [outcome]) : [];
}

/** What a quantity or a column comes to in pieces; undefined where it is no number of them. */
function countIn(place: Place, pieces: Dimension): Count | undefined {
  const { outcome, row, home } = place;
  const about = code(outcome.name);
  if (outcome.kind === "quantity") {
    if (outcome.dimension !== pieces || outcome.values.length !== 1) return undefined;
    const [extent] = outcome.values;
    const formula = outcome.origin === "derived" ? formulaOf(row) : "";
    const value = escaped(extentText(extent, outcome));
    return {
      ...place,
      total: extent.nominal,
      showable: outcome,
      text: [`${about} ${value}`, formula].filter(Boolean).join(", from "),
    };
  }
  if (outcome.of !== "quantity") return undefined;
  const rows = outcome.values.flatMap(({ nominal }, i) =>
    cellType(outcome, i).dimension === pieces && !Number.isNaN(nominal) ? [i] : [],
  );
  if (rows.length === 0) return undefined;
  const showable = cellType(outcome, rows[0]);
  const total = rows.reduce((sum, i) => sum + outcome.values[i].nominal, 0);
  const names = rowNamesOf(home, outcome);
  const where = named(rows.map((i) => code(names[i] || `row ${i + 1}`)));
  return { ...place, total, showable, text: `${about} ${escaped(numberText(total, showable))}, in ${where}` };
}

function formulaOf({ statement }: Row): string {
  if (statement.kind !== "derived" || statement.tree.kind(statement.value) === Kind.Literal) return "";
  const { tree, text, value } = statement;
  return code(text.slice(tree.start(value), tree.end(value)));
}

function togetherText(counts: readonly Count[]): string {
  const sum = counts.reduce((all, { total }) => all + total, 0);
  return `Together ${escaped(numberText(sum, counts[0].showable))}, if none of them is counted in another`;
}

/** What some rows rest on, however far. */
function reachedFrom(places: readonly Place[], notes: Notes): ReadonlySet<Row> {
  const reached = new Set<Row>();
  const waiting: { readonly home: Snapshot; readonly row: Row }[] = [...places];
  for (let at = waiting.pop(); at; at = waiting.pop()) {
    for (const use of nameUsesOf(at.row.statement)) {
      const referent = referentOf(at.home, at.row, use, notes);
      if (referent?.kind !== "defined" || referent.row === at.row || reached.has(referent.row)) continue;
      const home = notes.get(referent.path);
      if (!home) continue;
      reached.add(referent.row);
      waiting.push({ home, row: referent.row });
    }
  }
  return reached;
}
