/** Between the plain data of the service and the editor's types. */
import * as vscode from "vscode";
import type {
  Completion,
  DocumentSymbol,
  Finding,
  Folding,
  Hover,
  LineIndex,
  Severity,
  Signature,
  Span,
} from "../service";
import { OPEN_HANDBOOK } from "./handbookDocuments";
import { toRange } from "./places";

const SEVERITIES: Readonly<Record<Severity, vscode.DiagnosticSeverity>> = {
  error: vscode.DiagnosticSeverity.Error,
  warning: vscode.DiagnosticSeverity.Warning,
  information: vscode.DiagnosticSeverity.Information,
  hint: vscode.DiagnosticSeverity.Hint,
};

/** What the editor fades beside the words. */
const TAGS: Readonly<Record<string, readonly vscode.DiagnosticTag[]>> = {
  "assumption.unused": [vscode.DiagnosticTag.Unnecessary],
};

/** Finds a place in another note, of which only the notes know the lines. */
export type Locate = (path: string, span: Span) => vscode.Location | undefined;

export function toDiagnostic(lines: LineIndex, finding: Finding, locate: Locate): vscode.Diagnostic {
  const range = toRange(lines, finding.span);
  const diagnostic = new vscode.Diagnostic(range, finding.message, SEVERITIES[finding.severity]);
  diagnostic.source = "Copperbook";
  diagnostic.code = finding.code;
  diagnostic.tags = [...(TAGS[finding.code] ?? [])];
  diagnostic.relatedInformation = (finding.related ?? []).flatMap(({ path, span, message }) => {
    const place = locate(path, span);
    return place ? [new vscode.DiagnosticRelatedInformation(place, message)] : [];
  });
  return diagnostic;
}

export function toHover(lines: LineIndex, { span, markdown, page }: Hover): vscode.Hover {
  const text = new vscode.MarkdownString(markdown);
  if (page) {
    const place = encodeURIComponent(
      JSON.stringify(page.name === undefined ? [page.chapter] : [page.chapter, page.name]),
    );
    text.appendMarkdown(`\n\n[The chapter ${page.chapter}](command:${OPEN_HANDBOOK}?${place})`);
    text.isTrusted = { enabledCommands: [OPEN_HANDBOOK] };
  }
  return new vscode.Hover(text, toRange(lines, span));
}

export function toSignatureHelp({ label, parameters, active, documentation }: Signature): vscode.SignatureHelp {
  const signature = new vscode.SignatureInformation(label, documentation);
  signature.parameters = parameters.map((parameter) => new vscode.ParameterInformation(parameter));
  const help = new vscode.SignatureHelp();
  help.signatures = [signature];
  help.activeParameter = active;
  return help;
}

const COMPLETION_KINDS: Readonly<Record<Completion["kind"], vscode.CompletionItemKind>> = {
  quantity: vscode.CompletionItemKind.Variable,
  assumption: vscode.CompletionItemKind.Field,
  function: vscode.CompletionItemKind.Function,
  unit: vscode.CompletionItemKind.Unit,
  "counted unit": vscode.CompletionItemKind.Unit,
  series: vscode.CompletionItemKind.EnumMember,
  note: vscode.CompletionItemKind.Module,
  chapter: vscode.CompletionItemKind.Module,
  statement: vscode.CompletionItemKind.Keyword,
  constant: vscode.CompletionItemKind.Constant,
  table: vscode.CompletionItemKind.Struct,
  column: vscode.CompletionItemKind.Field,
  row: vscode.CompletionItemKind.Value,
};

export function toCompletion(lines: LineIndex, completion: Completion): vscode.CompletionItem {
  const item = new vscode.CompletionItem(completion.label, COMPLETION_KINDS[completion.kind]);
  item.detail = completion.detail;
  if (completion.documentation !== undefined) item.documentation = new vscode.MarkdownString(completion.documentation);
  item.insertText = completion.insert;
  item.range = toRange(lines, completion.span);
  item.sortText = completion.rank;
  return item;
}

const SYMBOL_KINDS: Readonly<Record<DocumentSymbol["kind"], vscode.SymbolKind>> = {
  heading: vscode.SymbolKind.String,
  given: vscode.SymbolKind.Constant,
  assumption: vscode.SymbolKind.Field,
  quantity: vscode.SymbolKind.Variable,
  choice: vscode.SymbolKind.EnumMember,
  function: vscode.SymbolKind.Function,
  rule: vscode.SymbolKind.Boolean,
  items: vscode.SymbolKind.Enum,
  note: vscode.SymbolKind.Module,
  measurement: vscode.SymbolKind.Number,
  order: vscode.SymbolKind.Property,
  table: vscode.SymbolKind.Struct,
  column: vscode.SymbolKind.Field,
};

export function toSymbol(lines: LineIndex, symbol: DocumentSymbol): vscode.DocumentSymbol {
  const { name, detail, kind, span, nameSpan } = symbol;
  const range = toRange(lines, span);
  const result = new vscode.DocumentSymbol(name, detail, SYMBOL_KINDS[kind], range, toRange(lines, nameSpan));
  result.children = symbol.children.map((child) => toSymbol(lines, child));
  return result;
}

export function toFolding({ firstLine, lastLine }: Folding): vscode.FoldingRange {
  return new vscode.FoldingRange(firstLine, lastLine);
}
