import assert from "node:assert/strict";
import * as vscode from "vscode";

/** Here and not in the workbench, which asks before it changes other files, and asks nobody while it is tested. */
describe("a file that is renamed", () => {
  const root = vscode.workspace.workspaceFolders![0].uri;
  const at = (path: string): vscode.Uri => vscode.Uri.joinPath(root, path);
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

  it("takes the paths of the notes that use it along, also in a note that is closed", async () => {
    await vscode.workspace.fs.writeFile(at("parts/cell.calcs.md"), bytes("    V_cell = 3 V\n"));
    const use = (path: string): string => `    use "${path}" as cell\n    twice = 2 * cell.V_cell\n`;
    await vscode.workspace.fs.writeFile(at("torch.calcs.md"), bytes(use("parts/cell.calcs.md")));
    await vscode.workspace.fs.writeFile(at("parts/lamp.calcs.md"), bytes(use("cell.calcs.md")));
    const torch = await vscode.workspace.openTextDocument(at("torch.calcs.md"));
    await vscode.window.showTextDocument(torch);
    const edit = new vscode.WorkspaceEdit();
    edit.renameFile(at("parts/cell.calcs.md"), at("parts/coin.calcs.md"));
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.equal(torch.getText(), use("parts/coin.calcs.md"));
    const lamp = await vscode.workspace.openTextDocument(at("parts/lamp.calcs.md"));
    assert.equal(lamp.getText(), use("coin.calcs.md"));
    const errors = vscode.languages.getDiagnostics(torch.uri);
    assert.deepEqual(errors, []);
  });
});
