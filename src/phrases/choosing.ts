import { definedName } from "../engine/entry";
import type { Extent } from "../engine/outcome";
import type { InSlices } from "../engine/slices";
import type { Row, Snapshot } from "../engine/snapshot";
import { CAPACITANCE, INDUCTANCE, RESISTANCE, type Dimension } from "../quantity/dimension";
import { showNumber } from "../quantity/display";
import { readLetterCode } from "../quantity/letterCode";
import { isSeriesName, neighbours, type SeriesName } from "../quantity/series";
import { Form, Kind, Notation } from "../syntax/tree";
import type { Edit } from "../text/edit";
import type { Fix } from "../text/fix";
import { shift, type Span } from "../text/span";
import { dependentsOf, restsOn } from "./dependence";
import { effectOf } from "./effect";
import type { Scope } from "./side";

/** What trying another value asks for. */
export interface Trial extends Scope {
  /** What the note would be after the edits. */
  whatIf<T>(edits: readonly Edit[], look: (snapshot: Snapshot) => T): InSlices<T>;
  /** Series to choose from by the quantity's SI unit, a setting. */
  seriesFor(unit: "Ω" | "F" | "H"): string;
}

/** Steps along a series that are tried on either side for a value with which a rule holds. */
const FARTHEST_STEP = 24;
/** Fixes offered at one place. */
const MOST_FIXES = 3;

/** Fixes that use other values in a definition that chooses one, each with what follows from it. Missing ones are left out. */
export function* choose(values: readonly (string | undefined)[], row: Row, trial: Trial): InSlices<readonly Fix[]> {
  const fixes: Fix[] = [];
  for (const value of values) {
    const edit = value === undefined ? undefined : useInstead(row, value);
    if (edit) fixes.push(yield* fixWithEffect(`Use ${value}`, edit, row, trial));
  }
  return fixes;
}

/** Another value of a choice with which a rule holds. */
export interface OtherChoice {
  readonly choice: Row;
  readonly name: string;
  readonly value: string;
  readonly edit: Edit;
  /** With it all rules that rest on the choice hold; else only the one that was asked for. */
  readonly isForAll: boolean;
}

/**
 * Of each choice behind a rule the nearest other value with which all rules that rest on the choice hold, or else the
 * nearest with which this one does; the best first. Values are those of its series or list. Costly.
 */
export function* otherChoices(row: Row, trial: Trial): InSlices<readonly OtherChoice[]> {
  const found: OtherChoice[] = [];
  for (const { row: choice, snapshot } of restsOn(row, trial)) {
    if (snapshot !== trial.snapshot || !isChoice(choice)) continue;
    const other = yield* otherChoice(choice, row, trial);
    if (other) found.push(other);
    if (found.length === MOST_FIXES) break;
  }
  return found.sort((a, b) => Number(b.isForAll) - Number(a.isForAll));
}

function* otherChoice(choice: Row, rule: Row, trial: Trial): InSlices<OtherChoice | undefined> {
  const name = definedName(choice.statement);
  if (name === undefined) return undefined;
  const { rows } = trial.snapshot;
  const place = rows.indexOf(rule);
  const concerned = dependentsOf(name, trial.snapshot).map((row) => rows.indexOf(row));
  const holdsIn = (after: Snapshot) => (at: number) => {
    const { outcome } = after.rows[at];
    return outcome.kind !== "rule" || outcome.state === "holds";
  };
  let forThis: OtherChoice | undefined;
  for (const { value, edit } of candidatesFor(choice, trial)) {
    const [isHeld, isForAll] = yield* trial.whatIf([edit], (after) => {
      const holds = holdsIn(after);
      return [holds(place), concerned.every(holds)];
    });
    if (!isHeld) continue;
    const found = { choice, name, value, edit, isForAll };
    if (isForAll) return found;
    forThis ??= found;
  }
  return forThis;
}

/** *with R_string 120 Ω all rules on it hold* */
export function otherChoiceText({ name, value, isForAll }: Pick<OtherChoice, "name" | "value" | "isForAll">): string {
  return `with ${name} ${value} ${isForAll ? "all rules on it hold" : "this rule holds, not all others"}`;
}

/** The fixes that take {@link otherChoices}, each with what follows. */
export function* chooseForRule(row: Row, trial: Trial): InSlices<readonly Fix[]> {
  const fixes: Fix[] = [];
  for (const { choice, name, value, edit } of yield* otherChoices(row, trial))
    fixes.push(yield* fixWithEffect(`Use ${value} for ${name}`, edit, choice, trial));
  return fixes;
}

/** The fix, its title completed by what follows. */
export function* fixWithEffect(title: string, edit: Edit, row: Row, trial: Trial): InSlices<Fix> {
  const name = definedName(row.statement);
  const effect =
    name === undefined ? "" : yield* trial.whatIf([edit], (after) => effectOf(trial.snapshot, after, name));
  return { title: effect === "" ? title : `${title}: ${effect}`, edits: [edit] };
}

/** The edit that puts a value in the place of the one that is chosen; its tolerance stays as it is written. */
export function useInstead({ statement, start }: Row, value: string): Edit | undefined {
  const { tree } = statement;
  const node =
    statement.kind === "derived" ? statement.choice?.value : statement.kind === "choice" ? statement.value : undefined;
  if (node === undefined || tree.kind(node) !== Kind.Literal) return undefined;
  const nominal = tree.first(node);
  const isToleranced = tree.operator(node) === Form.PlusMinus || tree.operator(node) === Form.Expanded;
  const replaced: Span = tree.span(isToleranced ? nominal : node);
  const tolerance = tree.operator(nominal) === Notation.LetterCode ? toleranceOf(tree.text(nominal)) : "";
  return tolerance === undefined ? undefined : { span: shift(replaced, start), text: value + tolerance };
}

/** The series that a definition's value is taken from: its own, or the one set for its dimension. */
export function seriesOf({ statement, outcome }: Row, trial: Trial): SeriesName | undefined {
  if (outcome.kind !== "quantity" || outcome.values.length !== 1) return undefined;
  const from = statement.kind === "derived" ? statement.choice?.from : undefined;
  if (from !== undefined)
    return seriesNamed(statement.text.slice(statement.tree.start(from), statement.tree.end(from)));
  const unit = UNITS_OF_PARTS.get(outcome.dimension);
  return unit && seriesNamed(trial.seriesFor(unit));
}

/** The dimensions of parts that are made in series of values. */
const UNITS_OF_PARTS: ReadonlyMap<Dimension, "Ω" | "F" | "H"> = new Map([
  [RESISTANCE, "Ω"],
  [CAPACITANCE, "F"],
  [INDUCTANCE, "H"],
] as const);

function seriesNamed(text: string): SeriesName | undefined {
  return isSeriesName(text) ? text : undefined;
}

function isChoice({ statement }: Row): boolean {
  return statement.kind === "choice" || (statement.kind === "derived" && statement.choice !== undefined);
}

/** Other values of a choice, the nearest first: those of its list, or the members of its series, up and down in turn. */
function candidatesFor(row: Row, trial: Trial): readonly { readonly value: string; readonly edit: Edit }[] {
  const { outcome } = row;
  if (outcome.kind !== "quantity" || outcome.values.length !== 1) return [];
  const used = outcome.values[0].nominal;
  const series = seriesOf(row, trial);
  const values = outcome.options ? listed(outcome.options, used) : series ? stepsAlong(series, used) : [];
  return values.flatMap((x) => {
    const value = showNumber(x, outcome.dimension, { point: outcome.point });
    const edit = useInstead(row, value);
    return edit ? [{ value, edit }] : [];
  });
}

function listed(options: readonly Extent[], used: number): readonly number[] {
  const distance = (x: number) => Math.abs(x - used);
  return options
    .map(({ nominal }) => nominal)
    .filter((x) => Number.isFinite(x) && x !== used)
    .sort((a, b) => distance(a) - distance(b));
}

function stepsAlong(series: SeriesName, used: number): readonly number[] {
  const steps: number[] = [];
  let [below, above] = [used, used];
  for (let step = 0; step < FARTHEST_STEP; step++) {
    above = neighbours(series, above).above;
    below = neighbours(series, below).below;
    steps.push(...[above, below].filter(Number.isFinite));
  }
  return steps;
}

/** The tolerance that a letter code brings, as text behind a value; undefined where it has none that can be kept so. */
function toleranceOf(code: string): string | undefined {
  const read = readLetterCode(code);
  if (!read || read.absoluteTolerance) return undefined;
  if (!read.tolerance) return "";
  const { low, high } = read.tolerance;
  return -low === high ? ` ± ${Number((high * 100).toPrecision(6))} %` : undefined;
}
