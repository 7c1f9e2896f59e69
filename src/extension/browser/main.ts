import * as vscode from "vscode";
import { activateWith, type AnswersFile } from "../activate";

/**
 * The host in a page reads the one file that the manifest names and lets it require nothing but the editor's interface. So the
 * second file is read by way of the editor's file system, and run as the host ran the first.
 * @param modules what the first file shares with the second
 */
export function activate(context: vscode.ExtensionContext, modules: unknown): Promise<void> {
  return activateWith(context, async () => {
    const file = vscode.Uri.joinPath(context.extensionUri, "dist", "browser.answers.js");
    const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
    const own = { exports: {} };
    const run = new Function("module", "exports", "require", text);
    run(own, own.exports, (name: string) => (name === "vscode" ? vscode : { modules }));
    return own.exports as AnswersFile;
  });
}
