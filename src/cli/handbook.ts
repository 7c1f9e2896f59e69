import { CHAPTERS, Service, type LookUp } from "../service";
import { UsageError } from "./commandLine";
import { ExitCode } from "./exitCode";
import { FileLibrary } from "./fileLibrary";
import { chapterText, indexText, memberText } from "./handbookText";
import { SETTINGS } from "./openNotes";
import { faceFor, type Terminal } from "./terminal";

/**
 * `copperbook handbook`: prints the list of chapters, a chapter, or a function with its formula, source and examples.
 * @throws UsageError where nothing in the handbook has the name.
 */
export async function handbook(word: string | undefined, terminal: Terminal): Promise<ExitCode> {
  const face = faceFor(terminal);
  if (word === undefined) {
    terminal.output.write(indexText(CHAPTERS, face));
    return ExitCode.Good;
  }
  const service = new Service(new FileLibrary(terminal.currentFolder), SETTINGS, "in slices");
  await service.loadChapters(chaptersFor(word));
  const found = service.lookUp(word);
  switch (found.kind) {
    case "chapter":
      terminal.output.write(chapterText(found.chapter, found.page, face));
      return ExitCode.Good;
    case "members":
      terminal.output.write(found.members.map((member) => memberText(member, face)).join("\n"));
      return ExitCode.Good;
    case "unknown":
      throw new UsageError(`The handbook has no chapter and no function “${word}”. ${wayOut(found)}`);
  }
}

/** What may have been meant, or where to look. */
function wayOut({ suggestion, near }: Extract<LookUp, { kind: "unknown" }>): string {
  if (suggestion !== undefined) return `Did you mean ${suggestion}?`;
  if (near.length > 0) return `Near it: ${near.join(", ")}.`;
  return "“copperbook handbook” lists the chapters.";
}

/** The chapters in which a word can be: its own where it names one, else all. */
function chaptersFor(word: string): readonly string[] {
  const [chapter] = word.split(".");
  return CHAPTERS.has(chapter) ? [chapter] : [...CHAPTERS.keys()];
}
