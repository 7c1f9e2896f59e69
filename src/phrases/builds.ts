import type { RuleOutcome, TriedBuilds } from "../engine/outcome";

/** What trials say of a rule; empty where there were none. */
export function buildsText({ builds, required }: RuleOutcome): string {
  if (!builds?.isTried) return "";
  return required === undefined ? failingText(builds) : `${keptText(builds)}, ${requiredText(required)}`;
}

/** *3 builds in 1000*, *27 builds in 100*: how many do not keep a rule. */
function failingText({ share, trials }: TriedBuilds): string {
  const failing = 1 - share;
  if (failing === 0) return `not 1 build in ${trials}`;
  if (failing === 1) return "every build";
  const power = 10 ** Math.max(2, Math.ceil(-Math.log10(failing)));
  const count = Math.round(failing * power);
  return `${count} ${count === 1 ? "build" : "builds"} in ${power}`;
}

/** The share that a rule asks for, as written: *99.5 % asked for*. */
function requiredText(required: number): string {
  return `${Number((required * 100).toPrecision(12))} % asked for`;
}

/** *99.2 % of builds keep it*: how many keep a rule, with digits enough to tell it from all. */
function keptText({ share }: TriedBuilds): string {
  if (share === 0 || share === 1) return share === 1 ? "all builds keep it" : "no build keeps it";
  const lesser = 100 * Math.min(1 - share, share);
  const decimals = Math.min(4, Math.max(0, 1 - Math.floor(Math.log10(lesser))));
  return `${Number((share * 100).toFixed(decimals))} % of builds keep it`;
}
