import assert from "node:assert/strict";
import * as vscode from "vscode";

describe("the extension in its host", () => {
  let note: vscode.TextDocument;
  before(async () => {
    const [found] = await vscode.workspace.findFiles("**/bar.calcs.md", undefined, 1);
    note = await vscode.workspace.openTextDocument(found);
    await vscode.window.showTextDocument(note);
    await vscode.extensions.getExtension("copperbook.copperbook")!.activate();
  });

  it("knows a note by its name", () => assert.equal(note.languageId, "copperbook"));

  it("offers its command", async () => {
    assert.ok((await vscode.commands.getCommands(true)).includes("copperbook.checkAll"));
  });

  it("works untrusted, in a page, and on files that are elsewhere", () => {
    const { capabilities, browser } = vscode.extensions.getExtension("copperbook.copperbook")!.packageJSON as {
      capabilities: unknown;
      browser: string;
    };
    assert.deepEqual(capabilities, { untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    assert.equal(browser, "./dist/browser.js");
  });

  it("answers what the editor asks of a language", async () => {
    const at = note.positionAt(note.getText().indexOf("T_bar = ") + 1);
    const ask = <T>(command: string, ...rest: unknown[]): Thenable<T> =>
      vscode.commands.executeCommand<T>(`vscode.execute${command}`, note.uri, ...rest);
    const symbols = await ask<vscode.DocumentSymbol[]>("DocumentSymbolProvider");
    assert.ok(
      symbols.some(({ name }) => name.includes("Light bar")),
      symbols.map(({ name }) => name).join(),
    );
    const [hover] = await ask<vscode.Hover[]>("HoverProvider", at);
    assert.match((hover.contents[0] as vscode.MarkdownString).value, /26\.1 \.\. 39\.7 \.\. 56\.5 °C/);
    const references = await ask<vscode.Location[]>("ReferenceProvider", at);
    assert.deepEqual(
      references.map(({ range }) => range.start.line + 1),
      [63, 65],
    );
    assert.ok((await ask<vscode.FoldingRange[]>("FoldingRangeProvider")).length > 0);
  });
});
