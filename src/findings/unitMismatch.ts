import type { MismatchOperation, Side } from "../engine/problem";
import type { Row } from "../engine/snapshot";
import { CURRENCIES } from "../quantity/currencies";
import { RATIO, RESISTANCE, siUnit, withoutCounts } from "../quantity/dimension";
import { isBuiltInUnit } from "../quantity/unit";
import { withForgottenUnit } from "../phrases/forgottenUnit";
import { extraCounts, kindText, sideText, type Scope } from "../phrases/side";
import { solidAngleText } from "../phrases/solidAngle";
import { codeMeant } from "../phrases/unitMeant";
import type { Span } from "../text/span";
import type { ProblemOf, Site, Wording } from "./finding";
import { replaceIn } from "./fixing";

/** `a + 1 s` where a is a length. */
export const unitMismatch: Wording<"unit.mismatch"> = {
  severity: "error",
  reference:
    "Quantities of different kinds are added, compared or set side by side. Units are never converted into each other's kind: one of the two is not what it is taken for.",
  message: (problem, site) => sentence(problem, site.row, site.context) + wayOut(problem, site),
  fixes: (problem, site) =>
    mended(problem, site).map(({ text, span }) => ({
      title: `Write ${text}`,
      edits: [replaceIn(site.row, span, text)],
    })),
};

/** What is put in the place of a side. */
interface Mended {
  readonly text: string;
  readonly span: Span;
}

function mended({ left, right, operation }: ProblemOf<"unit.mismatch">, { context }: Site<"unit.mismatch">): Mended[] {
  if (operation.kind === "limits") return [];
  const step = decimalsAsStep(operation, left, right, context);
  if (step !== undefined) return mendedBy(step, right);
  if (operation.kind === "measure") return mendedBy(withForgottenUnit(right, left, context), right);
  return [
    ...mendedBy(withForgottenUnit(right, left, context) ?? wantedUnit(operation, left, right), right),
    ...mendedBy(withForgottenUnit(left, right, context), left),
    ...mendedBy(withoutCounted(left, right), left),
    ...mendedBy(withoutCounted(right, left), right),
  ];
}

/** `choose 150` where a resistance is wanted, in the SI unit: what was left out may be a prefix, too. */
function wantedUnit({ kind }: MismatchOperation, wanted: Side, { text, dimension }: Side): string | undefined {
  if (kind !== "choose" || dimension !== RATIO || wanted.point || !/^-?[\d._]+$/.test(text)) return undefined;
  return `${text} ${siUnit(wanted.dimension)}`;
}

/** `round(x, 2)`: a rounding function beside a plain whole number, which was meant as how many decimals. */
function isStep({ kind, name }: MismatchOperation, { text, dimension }: Side): boolean {
  return kind === "pick" && ROUNDINGS.has(name ?? "") && dimension === RATIO && /^\d$/.test(text);
}

const ROUNDINGS: ReadonlySet<string> = new Set(["round", "floor", "ceil"]);

function decimalsAsStep(operation: MismatchOperation, left: Side, right: Side, scope: Scope): string | undefined {
  if (!isStep(operation, right) || left.point) return undefined;
  const [, unit] = /^\d (.+)$/.exec(withForgottenUnit(right, left, scope) ?? "") ?? [];
  return `${Number(`1e-${right.text}`)} ${unit ?? siUnit(left.dimension)}`;
}

function mendedBy(text: string | undefined, { span }: Side): Mended[] {
  return text === undefined ? [] : [{ text, span }];
}

/** The first of the fixes as a sentence, or what lies between the two sides. */
function wayOut(problem: ProblemOf<"unit.mismatch">, site: Site<"unit.mismatch">): string {
  const [first] = mended(problem, site);
  const { left, right, operation } = problem;
  if (first === undefined) {
    const code = codeInKelvin(problem);
    if (code !== undefined)
      return ` \`K\` behind a decimal number is the kelvin. If thousands of ohms are meant, write \`${code}\`.`;
    return (
      differentCountsText(left, right) + exchangeText(left, right) + solidAngleText(left.dimension, right.dimension)
    );
  }
  if (isStep(operation, right)) return ` The second argument is a step, not how many decimals: \`${first.text}\`.`;
  return first.text.includes(" without ")
    ? ` What is counted is dropped by \`${first.text}\`.`
    : ` If a unit was forgotten, write \`${first.text}\`.`;
}

function sentence({ operation, left, right }: ProblemOf<"unit.mismatch">, row: Row, scope: Scope): string {
  const [a, b] = [sideText(left, row, scope), sideText(right, row, scope)];
  switch (operation.kind) {
    case "choose": {
      const { statement } = row;
      const isFromList =
        statement.kind === "derived" &&
        statement.choice?.from !== undefined &&
        right.span.start >= statement.tree.start(statement.choice.from);
      return isFromList
        ? `Cannot choose ${a} from a list that holds ${kindText(right)} (${right.text}).`
        : `Cannot choose ${b} where ${a} is wanted.`;
    }
    case "measure":
      return `The measurement is ${b}, but ${left.text} is ${kindText(left)}.`;
    case "condition":
      return `The measurement was made at ${b}, but ${left.text} is ${kindText(left)}.`;
    case "pick":
      return `\`${operation.name ?? ""}\` cannot take ${b} beside ${a}.`;
    case "argument":
      return `\`${operation.name ?? ""}\` takes ${kindText(right)}, not ${a}.`;
    default:
      return SENTENCES[operation.kind](a, b);
  }
}

const SENTENCES: Readonly<
  Record<
    Exclude<MismatchOperation["kind"], "choose" | "measure" | "condition" | "pick" | "argument">,
    (a: string, b: string) => string
  >
> = {
  add: (a, b) => `Cannot add ${b} to ${a}.`,
  subtract: (a, b) => `Cannot subtract ${b} from ${a}.`,
  compare: (a, b) => `Cannot compare ${a} with ${b}.`,
  limits: (a, b) => `The limits of a number are of one kind; these are ${a} and ${b}.`,
  list: (a, b) => `The members of a list are of one kind; these are ${a} and ${b}.`,
  branches: (a, b) => `Both branches are of one kind; these are ${a} and ${b}.`,
  parallel: (a, b) => `Cannot put ${b} in parallel with ${a}.`,
};

/** `4.7K` beside a resistance, as a letter code. */
function codeInKelvin({ left, right }: ProblemOf<"unit.mismatch">): string | undefined {
  const side = left.dimension === RESISTANCE ? right : right.dimension === RESISTANCE ? left : undefined;
  const [, number] = /^(\d+(?:\.\d+)?)\s*K$/.exec(side?.text ?? "") ?? [];
  return number === undefined ? undefined : codeMeant(`${number}k`);
}

/** The two count different things, and are alike otherwise. */
function differentCountsText(left: Side, right: Side): string {
  const of = ({ dimension }: Side, { dimension: other }: Side) =>
    [...dimension.counts.keys()].filter((name) => dimension.counts.get(name) !== other.counts.get(name));
  const [a, b] = [of(left, right), of(right, left)];
  if (a.length === 0 || b.length === 0 || [...a, ...b].some(isBuiltInUnit)) return "";
  if (withoutCounts(left.dimension, a) !== withoutCounts(right.dimension, b)) return "";
  const plain = `\`(${left.text} without ${a.join(", ")})\` and \`(${right.text} without ${b.join(", ")})\``;
  return ` Without what they count they are ${plain}.`;
}

/** Money of two currencies. */
function exchangeText({ dimension: a }: Side, { dimension: b }: Side): string {
  const [from] = [...b.counts.keys()].filter((name) => CURRENCIES.has(name) && !a.counts.has(name));
  const [to] = [...a.counts.keys()].filter((name) => CURRENCIES.has(name) && !b.counts.has(name));
  if (from === undefined || to === undefined) return "";
  return ` There are no exchange rates. State one in \`${to}/${from}\`, and multiply by it.`;
}

/** One side counts something that the other does not. */
function withoutCounted(side: Side, other: Side): string | undefined {
  const names = extraCounts(side.dimension, other.dimension);
  return names === undefined || other.dimension === RATIO ? undefined : `(${side.text} without ${names.join(", ")})`;
}
