import { Service, type NoteRecord, type TrialCount } from "../service";
import { ExitCode } from "./exitCode";
import { FileLibrary } from "./fileLibrary";
import type { NoteFile, NoteFiles } from "./noteFiles";

/** Notes that were asked for, with all that they use. */
export interface OpenNotes {
  readonly service: Service;
  readonly notes: readonly NoteFile[];
  /** A sentence for each note or folder that could not be read. */
  readonly troubles: readonly string[];
  /** Notes that these use, and that were not asked for. */
  readonly used: readonly NoteFile[];
}

/** No finding of the command line offers a choice, so these are not asked for: the series that every shop has. */
export const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

/** Reads the notes, and what they use, and computes them; shares of builds by so many trials. */
export async function openNotes(
  { root, notes: files, troubles, shown }: NoteFiles,
  trials: TrialCount = "adaptive",
): Promise<OpenNotes> {
  const library = new FileLibrary(root);
  const service = new Service(library, { ...SETTINGS, trials });
  const notes: NoteFile[] = [];
  const sentences = [...troubles];
  for (const file of files) {
    const result = await library.read(file.path);
    if ("text" in result) {
      service.open(file.path, result.text);
      notes.push(file);
    } else sentences.push(`${file.shownPath} cannot be read: ${result.detail}.`);
  }
  await service.load();
  const asked = new Set(notes.map(({ path }) => path));
  const others = service.paths().filter((path) => !asked.has(path));
  const used = others.sort().map((path) => ({ path, shownPath: shown(path) }));
  return { service, notes, troubles: sentences, used };
}

/** The one shape that is printed as JSON; `output.schema.json` describes it. Values are tried where it is said how often. */
export function toJson({ service, notes }: OpenNotes, trials?: TrialCount): string {
  const records = notes.map(({ path, shownPath }): NoteRecord => ({
    ...service.record(path, "full", trials),
    path: shownPath,
  }));
  return `${JSON.stringify({ notes: records }, undefined, 2)}\n`;
}

/** What is not read is worse than what does not hold: the answer would be incomplete. */
export function exitCodeOf({ service, notes, troubles }: OpenNotes): ExitCode {
  if (troubles.length > 0) return ExitCode.Trouble;
  return notes.every(({ path }) => service.summary(path).isGood) ? ExitCode.Good : ExitCode.Bad;
}
