import * as vscode from "vscode";
import { chapterPath, type Service } from "../service";
import type { Guard } from "./guard";
import { chapterPathOf, chapterUri, HANDBOOK, type HandbookFiles } from "./handbookFiles";
import { indexText, type IndexText } from "./handbookIndex";

/** The tab's title is the last part of the path. */
const INDEX = vscode.Uri.from({ scheme: HANDBOOK, path: "/Handbook.md" });
export const OPEN_HANDBOOK = "copperbook.openHandbook";

/**
 * Shows the chapters and the index as pages that can be read and not written, and registers the command that opens them.
 * @param read a service that holds all chapters.
 */
export function registerHandbook(files: HandbookFiles, read: () => Promise<Service>, guard: Guard): vscode.Disposable {
  const { commands, languages, workspace } = vscode;
  let index: IndexText = { text: "", links: [] };
  return vscode.Disposable.from(
    workspace.registerTextDocumentContentProvider(HANDBOOK, {
      provideTextDocumentContent: guard.wrap("Pages of the handbook", "", async (uri: vscode.Uri) => {
        if (uri.path === INDEX.path) return (index = indexText((await read()).handbook())).text;
        const path = chapterPathOf(uri);
        const result = path === undefined ? undefined : await files.read(path);
        if (result && "text" in result) return result.text;
        return `# There is no such chapter\n\n${result ? result.detail : uri.path}\n`;
      }),
    }),
    languages.registerDocumentLinkProvider(
      { scheme: HANDBOOK, pattern: INDEX.path },
      { provideDocumentLinks: guard.wrap("Links of the handbook", [], () => index.links.map(toLink)) },
    ),
    commands.registerCommand(
      OPEN_HANDBOOK,
      guard.wrap("Open the handbook", undefined, async (chapter?: string, name?: string) => {
        const line = chapter === undefined || name === undefined ? undefined : lineOf(await read(), chapter, name);
        await show(chapter === undefined ? INDEX : chapterUri(chapter), line ?? 0);
      }),
    ),
  );
}

function toLink({ at, chapter, line }: IndexText["links"][number]): vscode.DocumentLink {
  const range = new vscode.Range(at.line, at.start, at.line, at.end);
  const link = new vscode.DocumentLink(range, chapterUri(chapter).with({ fragment: `L${line}` }));
  link.tooltip = `Open the chapter ${chapter}`;
  return link;
}

/** The line of the page on which a function or a constant is defined, from 0. */
function lineOf(service: Service, chapter: string, name: string): number | undefined {
  const snapshot = service.snapshot(chapterPath(chapter));
  const row = snapshot?.find(name);
  return row && snapshot?.lines.lineAt(row.start);
}

async function show(uri: vscode.Uri, line: number): Promise<void> {
  const document = await vscode.workspace.openTextDocument(uri);
  const selection = new vscode.Range(line, 0, line, 0);
  await vscode.window.showTextDocument(document, { preview: true, selection });
}
