import * as vscode from "vscode";

/** What is done within this time needs no words. */
const QUIET_MS = 1000;
/** The figure changes so often: seldom enough to be read. */
const TOLD_EVERY_MS = 200;
/** At the right of what is said of the note, so that this does not move when work comes and goes. */
const PRIORITY = 9;
const STOP = "copperbook.stopWork";

/** Work that takes long, as it is told in the status bar. */
export interface Work {
  /**
   * How far it has come.
   * @param share 0 to 1; undefined where that is not known
   * @param stop what a click does; undefined where it is not to be stopped
   */
  report(what: string, share?: number, stop?: () => void): void;
  end(): void;
}

/** Says in the status bar what takes longer than a second, and how far it has come; a click stops it. */
export class WorkBar implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem(
    "copperbook.work",
    vscode.StatusBarAlignment.Left,
    PRIORITY,
  );
  private readonly command = vscode.commands.registerCommand(STOP, () => this.stop?.());
  private readonly works = new Set<Work>();
  private stop?: () => void;
  private told = 0;

  constructor() {
    this.item.name = "Copperbook: work";
  }

  dispose(): void {
    this.item.dispose();
    this.command.dispose();
  }

  begin(): Work {
    const began = performance.now();
    const work: Work = {
      report: (what, share, stop) => {
        const now = performance.now();
        if (!this.works.has(work) || now - began < QUIET_MS || now - this.told < TOLD_EVERY_MS) return;
        this.told = now;
        this.show(what, share, stop);
      },
      end: () => {
        this.works.delete(work);
        if (this.works.size === 0) this.item.hide();
      },
    };
    this.works.add(work);
    return work;
  }

  private show(what: string, share: number | undefined, stop: (() => void) | undefined): void {
    this.stop = stop;
    this.item.text = share === undefined ? what : `${what} ${Math.floor(100 * share)} %`;
    this.item.tooltip = stop ? `${what}. Click to stop.` : what;
    this.item.command = stop ? STOP : undefined;
    this.item.show();
  }
}
