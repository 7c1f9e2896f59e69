import assert from "node:assert/strict";
import * as vscode from "vscode";

describe("the extension in its host", () => {
  it("knows a note by its name, and wakes up", async () => {
    const [note] = await vscode.workspace.findFiles("**/*.calcs.md", undefined, 1);
    const document = await vscode.workspace.openTextDocument(note);
    assert.equal(document.languageId, "copperbook");
    await vscode.window.showTextDocument(document);
    const extension = vscode.extensions.getExtension("copperbook.copperbook");
    await extension!.activate();
    assert.ok((await vscode.commands.getCommands(true)).includes("copperbook.checkAll"));
  });
});
