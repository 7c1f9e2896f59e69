import * as vscode from "vscode";
import type * as answers from "./answers";
import { BesideLines } from "./besideLines";
import { Guard } from "./guard";
import { HandbookFiles } from "./handbookFiles";
import { Notes } from "./notes";
import { breath } from "./slices";

/** The extension's second file; see {@link activateWith}. */
export type AnswersFile = typeof answers;

/**
 * Both faces of the extension, in a Node host and in a page, start here. The first file of the bundle has what values beside lines
 * need. Once they are shown, the second is read, with all that is said and asked besides. The extension counts as active when both
 * have been, so that no command comes too early.
 */
export async function activateWith(
  context: vscode.ExtensionContext,
  readAnswers: () => Promise<AnswersFile>,
): Promise<void> {
  const guard = new Guard();
  const handbook = new HandbookFiles(vscode.Uri.joinPath(context.extensionUri, "dist", "handbook"));
  let reading: Promise<AnswersFile> | undefined;
  const second = () => (reading ??= readAnswers());
  const notes = new Notes(guard, handbook, async () => (await second()).WHOLE_PARTS);
  context.subscriptions.push(guard, notes, new BesideLines(notes, guard));
  await breath();
  const { registerAnswers, WHOLE_PARTS } = await second();
  notes.takeParts(WHOLE_PARTS);
  context.subscriptions.push(registerAnswers(notes, handbook, guard));
}
