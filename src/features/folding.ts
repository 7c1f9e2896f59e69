import type { Snapshot } from "../engine/snapshot";
import type { Folding } from "./feature";

/** What can be folded away. */
export function foldings({ blocks, lines, text }: Snapshot): readonly Folding[] {
  return blocks.flatMap(({ block, start }) => {
    if (block.kind === "prose") return [];
    const last = block.lines[block.lines.length - 1];
    const folding = { firstLine: lines.lineAt(start), lastLine: lines.lineAt(Math.min(start + last.end, text.length)) };
    return folding.lastLine > folding.firstLine ? [folding] : [];
  });
}
