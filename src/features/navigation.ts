import type { Snapshot } from "../engine/snapshot";
import type { Location, Notes } from "./feature";

export function definition(_snapshot: Snapshot, _offset: number, _notes: Notes): Location | undefined {
  return undefined;
}

export function references(_snapshot: Snapshot, _offset: number, _notes: Notes): readonly Location[] {
  return [];
}
