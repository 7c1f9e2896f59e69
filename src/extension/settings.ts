import * as vscode from "vscode";
import type { Settings } from "../service";

export const SECTION = "copperbook";

/** What the person chose for the service. */
export function readSettings(): Settings {
  const series = vscode.workspace.getConfiguration(`${SECTION}.series`);
  return {
    series: {
      resistor: series.get("resistor", "E24"),
      capacitor: series.get("capacitor", "E12"),
      inductor: series.get("inductor", "E12"),
    },
  };
}

/** Whether values are shown beside lines. */
export function showsValues(): boolean {
  return vscode.workspace.getConfiguration(`${SECTION}.values`).get("show", true);
}
