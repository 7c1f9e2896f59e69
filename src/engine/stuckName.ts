import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { EngineTrouble } from "./problem";

/** A word that is no unit may be a name that stuck to the number: `12 V/R`, `3x`. */
export function withStuckName(compiler: Compiler, node: Node, trouble: EngineTrouble): EngineTrouble {
  if (trouble.code !== "unit.unknown") return trouble;
  const { word } = trouble;
  const isName = compiler.bound(word) !== undefined || compiler.find(word) !== undefined;
  const text = compiler.text(node);
  const at = text.search(new RegExp(`[/*·]\\s*\\(?${escaped(word)}`));
  const rewritten =
    at > 0
      ? `${text.slice(0, at)} ${text[at]} ${text.slice(at + 1)}`
      : isName
        ? text.replace(new RegExp(`\\s*${escaped(word)}$`), ` * ${word}`)
        : undefined;
  return { ...trouble, isName, ...(isName && rewritten && rewritten !== text ? { rewritten } : {}) };
}

function escaped(word: string): string {
  return word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
}
