import type { Library } from "./engine/library";
import { Program } from "./engine/program";
import type { Snapshot } from "./engine/snapshot";
import type { Edit } from "./text/edit";

/** Choices of the user that change what is offered, never what is computed. */
export interface Settings {
  /** The series that quick fixes choose from. */
  readonly series: { readonly resistor: string; readonly capacitor: string; readonly inductor: string };
}

/**
 * The façade: notes are opened, edited and asked about; plain data comes out. It knows no editor, no file system and
 * no clock. Paths are what the {@link Library} takes them for.
 */
export class Service {
  private readonly program = new Program();

  constructor(
    private readonly library: Library,
    private readonly settings: Settings,
  ) {}

  /** Opens a note, or gives an open one a new text. Answers are up to date at once, but for notes still to be read by {@link load}. */
  open(path: string, text: string): void {
    this.program.setText(path, text);
    this.program.settle();
  }

  /** Edits an open note; the spans are in the text before. */
  edit(path: string, edits: readonly Edit[]): void {
    for (const edit of [...edits].sort((a, b) => b.span.start - a.span.start)) this.program.edit(path, edit);
    this.program.settle();
  }

  close(path: string): void {
    this.program.close(path);
    this.program.settle();
  }

  /** Reads the notes that others use, and the notes that those use, until none is missing. Whether any was read. */
  async load(): Promise<boolean> {
    let isAny = false;
    for (let wanted = this.program.wanted(); wanted.length > 0; wanted = this.program.wanted()) {
      isAny = true;
      const results = await Promise.all(wanted.map(async (path) => ({ path, result: await this.library.read(path) })));
      for (const { path, result } of results) this.program.provide(path, result);
      this.program.settle();
    }
    return isAny;
  }

  /** The settled state of a note. */
  snapshot(path: string): Snapshot | undefined {
    return this.program.snapshot(path);
  }
}
