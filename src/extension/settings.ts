import * as vscode from "vscode";
import { ASKED_TRIALS, readTrialCount, type TrialCount } from "../heldNotes";
import type { Settings } from "../service";
import { toUri } from "./paths";

export const SECTION = "copperbook";

/** What the person chose for the notes, each in its folder; read once until {@link forget}. */
export class NoteSettings {
  private readonly known = new Map<string, Settings>();
  /** Values that were refused, each once. */
  private readonly refused = new Set<string>();

  readonly of = (path: string): Settings => {
    const known = this.known.get(path);
    if (known) return known;
    const settings = this.read(toUri(path));
    this.known.set(path, settings);
    return settings;
  };

  readonly trialsFor = (path: string): TrialCount => this.of(path).trials ?? "adaptive";

  forget(): void {
    this.known.clear();
  }

  private read(uri: vscode.Uri | undefined): Settings {
    const section = vscode.workspace.getConfiguration(SECTION, uri);
    return {
      series: {
        resistor: section.get("series.resistor", "E24"),
        capacitor: section.get("series.capacitor", "E12"),
        inductor: section.get("series.inductor", "E12"),
      },
      trials: this.trialsFrom(section.get<unknown>("trials", "adaptive")),
    };
  }

  /** What cannot be read is said, and replaced by what everybody starts with. */
  private trialsFrom(written: unknown): TrialCount {
    const text = typeof written === "string" ? written.trim() : JSON.stringify(written);
    const count = readTrialCount(text);
    if (count === undefined && !this.refused.has(text)) {
      this.refused.add(text);
      void complain(text);
    }
    return count ?? "adaptive";
  }
}

async function complain(text: string): Promise<void> {
  const open = "Open the setting";
  const answer = await vscode.window.showWarningMessage(
    `The setting ${SECTION}.trials is ${text === "" ? "empty" : `“${text}”`}. It takes “adaptive” or a whole number from ${ASKED_TRIALS.least} to ${ASKED_TRIALS.most}; until then as many builds are drawn as it takes.`,
    open,
  );
  if (answer === open) await vscode.commands.executeCommand("workbench.action.openSettings", `${SECTION}.trials`);
}

/** Whether values are shown beside lines. */
export function showsValues(): boolean {
  return vscode.workspace.getConfiguration(`${SECTION}.values`).get("show", true);
}
