import type { Cone } from "./cone";
import type { LowestShare } from "./conditions";
import { isSameCone } from "./knownRanges";
import { sameData } from "./sameData";
import type { ShareSettings } from "./shareOfBuilds";
import type { Spread } from "./spread";

/** What a share of builds depends on. */
export interface Tried {
  readonly cone: Cone;
  readonly spreads: readonly Spread[];
  readonly settings: ShareSettings;
}

/** Shares that are kept: of what somebody types, takes back and tries. */
const MOST_KEPT = 50;

/** What earlier trials found, so that what comes back, by undoing or after a look at what would be, is not tried again. */
export class KnownShares {
  private known: readonly (Tried & { readonly share: LowestShare })[] = [];

  get(tried: Tried): LowestShare | undefined {
    return this.known.find((each) => isSame(each, tried))?.share;
  }

  set(tried: Tried, share: LowestShare): void {
    const { cone, spreads, settings } = tried;
    const others = this.known.filter((each) => !isSame(each, tried));
    this.known = [{ cone, spreads, settings, share }, ...others].slice(0, MOST_KEPT);
  }
}

function isSame(one: Tried, other: Tried): boolean {
  return (
    one.settings.seed === other.settings.seed &&
    sameData(one.settings, other.settings) &&
    sameData(one.spreads, other.spreads) &&
    isSameCone(one.cone, other.cone) &&
    one.cone.inputs.every(({ sums }, i) => sameData(sums, other.cone.inputs[i].sums))
  );
}
