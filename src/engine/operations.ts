import { ARITHMETIC } from "./arithmetic";
import { DECISIONS } from "./decisions";
import { FUNCTIONS } from "./elementary";
import { LOOKUPS } from "./lookups";
import { NETWORK_OPERATIONS } from "./networkOperations";
import type { Op, Operation } from "./operation";
import { SOLUTIONS } from "./solutions";

/** The table of native operations: one entry for each {@link Op}, or the compiler says which is missing. */
const TABLE: Readonly<Record<Op, Operation>> = {
  ...ARITHMETIC,
  ...FUNCTIONS,
  ...DECISIONS,
  ...LOOKUPS,
  ...NETWORK_OPERATIONS,
  ...SOLUTIONS,
};

/** The same by number, which is how the tape names them. */
export const OPERATIONS: readonly Operation[] = Object.entries(TABLE).reduce<Operation[]>((list, [op, operation]) => {
  list[Number(op)] = operation;
  return list;
}, []);
