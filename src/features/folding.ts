import type { PlacedBlock, Snapshot } from "../engine/snapshot";
import { shift } from "../text/span";
import type { Folding } from "./feature";

/** What can be folded away: the section under a heading, calculations, statements over lines, fences, front matter. */
export function foldings(snapshot: Snapshot): readonly Folding[] {
  const { blocks, rows } = snapshot;
  const spans = [
    ...sections(snapshot),
    ...blocks.filter((placed) => placed.block.kind === "calculation" || isFence(snapshot, placed)).map(contentSpan),
    ...rows.map(({ start, statement }) => ({ start, end: start + statement.text.length })),
  ];
  return spans
    .map((span) => linesOf(snapshot, span))
    .filter(({ firstLine, lastLine }) => lastLine > firstLine)
    .sort((a, b) => a.firstLine - b.firstLine || b.lastLine - a.lastLine)
    .filter((folding, i, all) => i === 0 || all[i - 1].firstLine !== folding.firstLine);
}

/** From each heading to the line before the next one of its level or above. */
function sections({ blocks, text }: Snapshot): readonly { start: number; end: number }[] {
  const headings = blocks.flatMap(({ block, start }) =>
    block.kind === "prose" ? block.headings.map(({ span, level }) => ({ level, start: shift(span, start).start })) : [],
  );
  return headings.map(({ level, start }, i) => ({
    start,
    end: headings.slice(i + 1).find((next) => next.level <= level)?.start ?? text.length,
  }));
}

/** A block that opens with a code fence, or the front matter. */
function isFence({ text }: Snapshot, { block, start }: PlacedBlock): boolean {
  if (block.kind !== "prose") return false;
  return /^ {0,3}(```|~~~)/.test(text.slice(start, start + 6)) || (start === 0 && /^---[ \t]*\r?\n/.test(text));
}

function contentSpan({ block, start }: PlacedBlock): { start: number; end: number } {
  const first = block.kind === "calculation" ? block.lines[0].start : 0;
  return { start: start + first, end: start + block.length };
}

/** The lines of a span without the blank ones at its end. */
function linesOf({ lines, text }: Snapshot, { start, end }: { start: number; end: number }): Folding {
  let last = end;
  while (last > start && /\s/.test(text[last - 1])) last--;
  return { firstLine: lines.lineAt(start), lastLine: lines.lineAt(last) };
}
