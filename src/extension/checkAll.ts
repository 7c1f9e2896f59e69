import * as vscode from "vscode";
import type { Guard } from "./guard";
import type { AskedNotes, UnreadNote } from "./askedNotes";
import { toUri } from "./paths";
import type { Problems } from "./problems";
import { breath } from "./slices";
import { SummaryDocument } from "./summaryDocument";
import type { CheckedNote } from "./summaryText";

/** The command *Check all notes*: reads every note of the workspace, fills the problems list, opens the summary. */
export function registerCheckAll(notes: AskedNotes, problems: Problems, guard: Guard): vscode.Disposable {
  const summary = new SummaryDocument(guard);
  const options: vscode.ProgressOptions = {
    location: vscode.ProgressLocation.Notification,
    title: "Checking all notes",
    cancellable: true,
  };
  const command = vscode.commands.registerCommand(
    "copperbook.checkAll",
    guard.wrap("Check all notes", undefined, () =>
      vscode.window.withProgress(options, (progress, token) =>
        guard.run("Check all notes", undefined, async () => {
          const isDisturbed = await watchEdits(notes, () => checkAll(notes, problems, summary, progress, token));
          if (token.isCancellationRequested) return;
          if (isDisturbed) void offer(summary);
          else await summary.open();
        }),
      ),
    ),
  );
  return vscode.Disposable.from(summary, command);
}

type Progress = vscode.Progress<{ readonly message?: string; readonly increment?: number }>;

async function checkAll(
  notes: AskedNotes,
  problems: Problems,
  summary: SummaryDocument,
  progress: Progress,
  token: vscode.CancellationToken,
): Promise<void> {
  const unread = await notes.holdAll({
    token,
    report: (done, total) => progress.report({ message: `${done + 1} of ${total}`, increment: 100 / total }),
  });
  notes.retryStopped();
  await notes.settled(token);
  if (token.isCancellationRequested) return;
  await problems.showAll(unread, token);
  const checked = await recordsOf(notes, token);
  if (token.isCancellationRequested) return;
  const addresses = new Map(
    notes.service.paths().flatMap((path) => {
      const uri = toUri(path);
      return uri ? [[nameOf(path), uri] as const] : [];
    }),
  );
  summary.update(checked, unread.map(named), addresses);
}

/** Whether a person edited a note while a task ran: then nothing may come between their keys and their note. */
async function watchEdits(notes: AskedNotes, task: () => Promise<void>): Promise<boolean> {
  let isAny = false;
  const watch = vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
    isAny ||= contentChanges.length > 0 && notes.pathOf(document) !== undefined;
  });
  try {
    await task();
  } finally {
    watch.dispose();
  }
  return isAny;
}

async function offer(summary: SummaryDocument): Promise<void> {
  const open = "Open the summary";
  const answer = await vscode.window.showInformationMessage(`All notes are checked: ${summary.verdict}.`, open);
  if (answer === open) await summary.open();
}

async function recordsOf({ service }: AskedNotes, token: vscode.CancellationToken): Promise<CheckedNote[]> {
  const checked: CheckedNote[] = [];
  for (const path of [...service.paths()].sort()) {
    if (token.isCancellationRequested) break;
    checked.push({
      name: nameOf(path),
      record: service.record(path, "brief"),
      summary: service.summary(path),
      results: service.results(path),
    });
    await breath();
  }
  return checked;
}

function named({ path, why }: UnreadNote): { name: string; why: string } {
  return { name: nameOf(path), why };
}

function nameOf(path: string): string {
  const uri = toUri(path);
  return uri === undefined ? path : vscode.workspace.asRelativePath(uri);
}
