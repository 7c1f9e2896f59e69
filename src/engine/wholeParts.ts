import { readCsvTable } from "../note/csvTable";
import { conditionsOf, lowestShare } from "./conditions";
import { compileSolution } from "./equation";
import { compileSolved } from "./network";
import { compileWithOpen } from "./networkOpen";
import type { Parts } from "./parts";
import { searchInSlices, trueRangeOfCone } from "./trueRange";

/** For those who need not care what is read when. */
export const WHOLE_PARTS: Parts = {
  readCsvTable,
  compileSolution,
  searchInSlices,
  trueRangeOfCone,
  conditionsOf,
  lowestShare,
  compileSolved,
  compileWithOpen,
};
