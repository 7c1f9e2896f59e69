import { RATIO } from "../quantity/dimension";
import type { Compiler } from "./compile";
import { Entry } from "./entry";
import type { Operand } from "./operand";
import { Op } from "./operation";
import type { Parts } from "./parts";
import type { Program } from "./program";
import { coneDepthOf, searchResult } from "./search";
import type { Code } from "./tape";

/** What an operand comes to: its nominal value and its range, in coherent SI; NaN where there is none. */
export interface Probed {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** What an operand comes to, one for each member of a list; see {@link probe}. */
export function probed(compiler: Compiler, { at }: Operand): readonly Probed[] {
  return compiler.around.probe(compiler.top, compiler.code, at, compiler.instances.copied);
}

/**
 * What operands of a definition come to while it is being compiled. The code so far is run apart, and a range that is not
 * attained at once is searched for, as that of a definition would be, if what searches is there. All that the entry rests on is up to date then.
 */
export function probe(
  program: Program,
  parts: Parts | undefined,
  entry: Entry,
  code: Code,
  at: readonly number[],
  copied: readonly Entry[],
): readonly Probed[] {
  const { tape, slots, runner } = program;
  const trial = new Entry(entry.id, entry.note, entry.statement, entry.source, entry.table);
  trial.dependencies = entry.dependencies;
  trial.copied = copied;
  trial.type = { kind: "quantity", dimension: RATIO, point: false };
  trial.results = slots.take(at.length);
  const before = code.count;
  at.forEach((operand, i) => code.emit(Op.Store, 0, entry.id, operand, trial.results.from + i));
  trial.code = tape.append(code);
  code.count = before;
  runner.run(trial.code);
  trial.coneDepth = coneDepthOf(trial);
  const results = at.map((_operand, i) => {
    const slot = trial.results.from + i;
    const searched = searchResult(program, parts, trial, i);
    const { nominal, low, high } = slots.read(slot);
    return searched ? { nominal, low: searched.low, high: searched.high } : { nominal, low, high };
  });
  tape.giveBack(trial.code);
  slots.giveBack(trial.results);
  return results;
}
