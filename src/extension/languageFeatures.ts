import * as vscode from "vscode";
import type { LineIndex, Service } from "../service";
import type { AskedNotes } from "./askedNotes";
import { toCompletion, toFolding, toHover, toSignatureHelp, toSymbol } from "./converters";
import { Refusal, type Guard } from "./guard";
import { LANGUAGE } from "./notes";
import { toRange, toSpan } from "./places";
import { whileWaitedFor } from "./slices";

/** Characters after which completion opens by itself: a member, the name of a note or a unit. */
const TRIGGERS = [".", '"', "["];

/** A note that a person asks about. */
interface Asked {
  readonly service: Service;
  readonly path: string;
  readonly lines: LineIndex;
}

/** Registers what the editor asks of a note: each answer is the service's, in the editor's types. */
export function registerLanguageFeatures(notes: AskedNotes, guard: Guard): vscode.Disposable {
  const asked = (document: vscode.TextDocument): Asked | undefined => {
    const path = notes.pathOf(document);
    const snapshot = path === undefined ? undefined : notes.service.snapshot(path);
    return path !== undefined && snapshot ? { service: notes.service, path, lines: snapshot.lines } : undefined;
  };
  const { languages } = vscode;
  return vscode.Disposable.from(
    registerWritingHelp(asked, guard),
    languages.registerHoverProvider(LANGUAGE, {
      provideHover: guard.wrap(
        "Hover",
        undefined,
        async (document: vscode.TextDocument, at: vscode.Position, token: vscode.CancellationToken) => {
          const path = notes.pathOf(document);
          if (path !== undefined) await notes.lookInto(path, document.offsetAt(at), token);
          const note = token.isCancellationRequested ? undefined : asked(document);
          return note && hoverAt(note, notes, document.offsetAt(at));
        },
      ),
    }),
    languages.registerDocumentSymbolProvider(LANGUAGE, {
      provideDocumentSymbols: guard.wrap("Symbols", [], (document: vscode.TextDocument) => {
        const note = asked(document);
        return (note?.service.symbols(note.path) ?? []).map((symbol) => toSymbol(note!.lines, symbol));
      }),
    }),
    languages.registerFoldingRangeProvider(LANGUAGE, {
      provideFoldingRanges: guard.wrap("Folding", [], (document: vscode.TextDocument) => {
        const note = asked(document);
        return (note?.service.foldings(note.path) ?? []).map(toFolding);
      }),
    }),
    languages.registerDefinitionProvider(LANGUAGE, {
      provideDefinition: guard.wrap("Definition", undefined, (document: vscode.TextDocument, at: vscode.Position) => {
        const note = asked(document);
        const found = note?.service.definition(note.path, document.offsetAt(at));
        return found && notes.location(found.path, found.span);
      }),
    }),
    languages.registerReferenceProvider(LANGUAGE, {
      provideReferences: guard.wrap(
        "References",
        [],
        async (document: vscode.TextDocument, at: vscode.Position, context: vscode.ReferenceContext) => {
          await notes.holdAll();
          const note = asked(document);
          if (note === undefined) return [];
          const offset = document.offsetAt(at);
          const declared = note.service.definition(note.path, offset);
          return note.service
            .references(note.path, offset)
            .filter((one) => context.includeDeclaration || !isSamePlace(one, declared))
            .flatMap(({ path, span }) => notes.location(path, span) ?? []);
        },
      ),
    }),
    languages.registerRenameProvider(LANGUAGE, {
      prepareRename: guard.wrap("Rename", undefined, (document: vscode.TextDocument, at: vscode.Position) => {
        const note = asked(document);
        const span = note?.service.renameSpan(note.path, document.offsetAt(at));
        if (span === undefined) throw new Refusal("There is no name here to rename.");
        return note && toRange(note.lines, span);
      }),
      provideRenameEdits: guard.wrap(
        "Rename",
        undefined,
        async (document: vscode.TextDocument, at: vscode.Position, name: string) => {
          await notes.holdAll();
          const note = asked(document);
          const answer = note?.service.rename(note.path, document.offsetAt(at), name);
          if (answer === undefined) return undefined;
          if ("refusal" in answer) throw new Refusal(answer.refusal);
          return notes.workspaceEdit(answer.edits);
        },
      ),
    }),
    languages.registerCodeActionsProvider(
      LANGUAGE,
      {
        provideCodeActions: guard.wrap(
          "Quick fixes",
          [],
          async (
            document: vscode.TextDocument,
            range: vscode.Range,
            context: vscode.CodeActionContext,
            token: vscode.CancellationToken,
          ) => {
            const note = asked(document);
            return note === undefined ? [] : quickFixes(note, notes, { document, range, context, token });
          },
        ),
      },
      { providedCodeActionKinds: [vscode.CodeActionKind.QuickFix] },
    ),
  );
}

/** What helps while a statement is being written: completion, and the parameters of the call that is open. */
function registerWritingHelp(
  asked: (document: vscode.TextDocument) => Asked | undefined,
  guard: Guard,
): vscode.Disposable {
  /** The note, and the chapter of the handbook that is being written of read. */
  const prepared = async (document: vscode.TextDocument, at: vscode.Position): Promise<Asked | undefined> => {
    const note = asked(document);
    await note?.service.loadFor(note.path, document.offsetAt(at));
    return asked(document);
  };
  const { languages } = vscode;
  return vscode.Disposable.from(
    languages.registerCompletionItemProvider(
      LANGUAGE,
      {
        provideCompletionItems: guard.wrap(
          "Completion",
          [],
          async (document: vscode.TextDocument, at: vscode.Position) => {
            const note = await prepared(document, at);
            const completions = note?.service.completions(note.path, document.offsetAt(at)) ?? [];
            return completions.map((completion) => toCompletion(note!.lines, completion));
          },
        ),
      },
      ...TRIGGERS,
    ),
    languages.registerSignatureHelpProvider(
      LANGUAGE,
      {
        provideSignatureHelp: guard.wrap(
          "Signatures",
          undefined,
          async (document: vscode.TextDocument, at: vscode.Position) => {
            const note = await prepared(document, at);
            const signature = note?.service.signatureAt(note.path, document.offsetAt(at));
            return signature && toSignatureHelp(signature);
          },
        ),
      },
      "(",
      ",",
    ),
  );
}

function hoverAt({ service, path, lines }: Asked, notes: AskedNotes, offset: number): vscode.Hover | undefined {
  const meant = service.definition(path, offset) ?? { path, span: { start: offset, end: offset } };
  notes.lookAt(meant.path, meant.span);
  const hover = service.hover(path, offset);
  return hover && toHover(lines, hover);
}

/** Where quick fixes are asked for, as the editor says it. */
interface AskedFixes {
  readonly document: vscode.TextDocument;
  readonly range: vscode.Range;
  readonly context: vscode.CodeActionContext;
  readonly token: vscode.CancellationToken;
}

async function quickFixes(
  { service, path, lines }: Asked,
  notes: AskedNotes,
  { document, range, context: { diagnostics, only }, token }: AskedFixes,
): Promise<vscode.CodeAction[]> {
  if (only && !only.contains(vscode.CodeActionKind.QuickFix)) return [];
  const { version } = document;
  const offered = await whileWaitedFor(service.fixesInSlices(path, toSpan(document, range)), token);
  notes.searchOn();
  if (document.version !== version) return [];
  return (offered ?? []).map(({ fix, finding }) => {
    const action = new vscode.CodeAction(fix.title, vscode.CodeActionKind.QuickFix);
    action.edit = notes.workspaceEdit([{ path, edits: fix.edits }]);
    action.isPreferred = fix.isPreferred ?? false;
    if (finding) {
      const place = toRange(lines, finding.span);
      action.diagnostics = diagnostics.filter((one) => one.code === finding.code && one.range.isEqual(place));
    }
    return action;
  });
}

interface Place {
  readonly path: string;
  readonly span: { readonly start: number; readonly end: number };
}

function isSamePlace(a: Place, b: Place | undefined): boolean {
  return b !== undefined && a.path === b.path && a.span.start === b.span.start;
}
