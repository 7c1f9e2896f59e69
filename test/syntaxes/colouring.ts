import { readFileSync } from "node:fs";
import { join } from "node:path";
import * as oniguruma from "vscode-oniguruma";
import { INITIAL, parseRawGrammar, Registry, type IGrammar } from "vscode-textmate";

export interface ColouredToken {
  readonly text: string;
  /** From the outermost scope to the innermost, without the root. */
  readonly scopes: readonly string[];
}

const COPPERBOOK = "text.html.markdown.copperbook";

/** The grammar that ships, over a stand-in for the Markdown grammar that every editor brings. */
export async function noteGrammar(): Promise<IGrammar> {
  await loadRegularExpressions();
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async (scopeName) => {
      const path = GRAMMARS[scopeName];
      return path === undefined ? null : parseRawGrammar(readFileSync(path, "utf8"), path);
    },
  });
  const grammar = await registry.loadGrammar(COPPERBOOK);
  if (grammar === null) throw new Error(`No grammar for ${COPPERBOOK}.`);
  return grammar;
}

/** Every line of the text as its tokens. */
export function colour(grammar: IGrammar, text: string): ColouredToken[][] {
  let stack = INITIAL;
  return text.split("\n").map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens.map(({ startIndex, endIndex, scopes }) => ({
      text: line.slice(startIndex, endIndex),
      scopes: scopes.slice(1),
    }));
  });
}

const GRAMMARS: Readonly<Record<string, string>> = {
  [COPPERBOOK]: join(__dirname, "../../syntaxes/copperbook.tmLanguage.json"),
  "text.html.markdown": join(__dirname, "markdown.stand-in.json"),
};

let loaded: Promise<void> | undefined;

/** The engine accepts its program once in a process. */
function loadRegularExpressions(): Promise<void> {
  loaded ??= oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));
  return loaded;
}
