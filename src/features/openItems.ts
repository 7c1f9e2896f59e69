import type { Snapshot } from "../engine/snapshot";
import { shift } from "../text/span";
import type { OpenItem } from "./feature";

/** The task items of a note that are not ticked, in the order of the text. */
export function openItems(snapshot: Snapshot): readonly OpenItem[] {
  return snapshot.blocks.flatMap(({ block, start }) =>
    block.kind === "calculation"
      ? []
      : block.tasks
          .filter(({ checked }) => !checked)
          .map(({ span, word, text }) => ({ span: shift(span, start), ...(word ? { word } : {}), text })),
  );
}
