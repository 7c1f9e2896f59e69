import { showRatio } from "../quantity/display";

/** What a guess does to the `must` that it moves most. */
export interface Moved {
  readonly condition: string;
  /** Of what the rule has to spare at nominal, or is short; see `Influence`. Absent where it is without bound. */
  readonly share?: number;
  readonly isShort: boolean;
}

/** How a guess is stated: with limits, as one number, or as one temperature on a scale. */
export type Stated = "with limits" | "as a number" | "as a point";

/** What a guess without limits is taken to be off by; see `LIMITS_OF_NONE`. */
const BY: Readonly<Record<Stated, string>> = {
  "with limits": "",
  "as a number": "a tenth of it ",
  "as a point": "10 K ",
};

/**
 * Why a guess is to be settled, in words: *can take 31 % of what `must I <= 10 mA` has to spare* · *alone can break
 * `must P <= 1 W`* · *without limits, a tenth of it can take 3 % of …* · *no must rests on it*.
 */
export function settlingText(stated: Stated, must: Moved | undefined): string {
  const parts = [stated === "with limits" ? "" : "without limits", must ? BY[stated] + movedText(must) : NO_MUST];
  return parts.filter((part) => part !== "").join(", ");
}

const NO_MUST = "no must rests on it";

function movedText({ condition, share, isShort }: Moved): string {
  const rule = `\`must ${condition}\``;
  if (share === undefined) return `can decide ${rule}`;
  if (isShort) return `can make up ${share >= 1 ? "all" : showRatio(share)} of what ${rule} is short`;
  return share > 1 ? `alone can break ${rule}` : `can take ${showRatio(share)} of what ${rule} has to spare`;
}
