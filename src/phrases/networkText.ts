import type { NetworkQuantity } from "../syntax/network";

/** What each column says that a network has without its being written. */
const SAYS: Readonly<Record<NetworkQuantity, string>> = {
  voltage: "The voltage of each node against the reference",
  supply: "The voltage that each load gets, from its first end to its second",
  current: "The current through each branch, from its first end to its second",
  drop: "The voltage of each branch's first end over its second",
  power: "What each branch takes in: its voltage times its current, negative where it gives",
  loss: "What becomes heat in the resistance of each branch",
};

export function solvedText(quantity: NetworkQuantity): string {
  return `${SAYS[quantity]}, worked out from the network.`;
}
