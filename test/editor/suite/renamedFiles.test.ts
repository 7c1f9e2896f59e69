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

  it("keeps paths right when several files and a folder move in one step", async () => {
    await vscode.workspace.fs.writeFile(at("lamp/cell.calcs.md"), bytes("    V_cell = 3 V\n"));
    await vscode.workspace.fs.writeFile(
      at("lamp/lamp.calcs.md"),
      bytes('    use "cell.calcs.md" as cell\n    twice = 2 * cell.V_cell\n'),
    );
    const use = (...paths: string[]): string =>
      paths.map((path, i) => `    use "${path}" as note${i}\n`).join("") + "    twice = 2 * note0.V_cell\n";
    await vscode.workspace.fs.writeFile(at("shelf.calcs.md"), bytes(use("lamp/cell.calcs.md", "lamp/lamp.calcs.md")));
    const shelf = await vscode.workspace.openTextDocument(at("shelf.calcs.md"));
    await vscode.window.showTextDocument(shelf);

    const files = new vscode.WorkspaceEdit();
    files.renameFile(at("lamp/cell.calcs.md"), at("store/coin.calcs.md"));
    files.renameFile(at("lamp/lamp.calcs.md"), at("store/torch.calcs.md"));
    assert.ok(await vscode.workspace.applyEdit(files));
    assert.equal(shelf.getText(), use("store/coin.calcs.md", "store/torch.calcs.md"));

    const folder = new vscode.WorkspaceEdit();
    folder.renameFile(at("store"), at("shop"));
    assert.ok(await vscode.workspace.applyEdit(folder));
    assert.equal(shelf.getText(), use("shop/coin.calcs.md", "shop/torch.calcs.md"));
    const torch = await vscode.workspace.openTextDocument(at("shop/torch.calcs.md"));
    assert.equal(torch.getText(), '    use "coin.calcs.md" as cell\n    twice = 2 * cell.V_cell\n');
  });
});
