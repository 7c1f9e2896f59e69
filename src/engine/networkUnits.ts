import { unitOfPowers, type Unit } from "../quantity/unit";
import type { NetworkColumns, NetworkQuantity } from "../syntax/network";

const [VOLT, AMPERE, WATT, OHM] = ["V", "A", "W", "Ω"].map((symbol) => unitOfPowers([[symbol, 1]]));

/** The units of what lies between the ends of a branch, and of what a network comes to. */
export const NETWORK_UNITS: Readonly<Record<NetworkQuantity | keyof NetworkColumns, Unit>> = {
  voltage: VOLT,
  supply: VOLT,
  drop: VOLT,
  source: VOLT,
  current: AMPERE,
  load: AMPERE,
  power: WATT,
  loss: WATT,
  resistance: OHM,
};
