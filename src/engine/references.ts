import { RATIO } from "../quantity/dimension";
import { isBuiltInUnit } from "../quantity/unit";
import { Kind, type Node } from "../syntax/tree";
import { chapterEntry, meansChapter, unknownHolder } from "./chapterMember";
import type { Compiler } from "./compile";
import { kindOf, type Entry } from "./entry";
import { CONSTANTS, NATIVES } from "./natives";
import { compilePath } from "./members";
import { quantity, seenAt, truth, type Operand } from "./operand";
import { pathOf, type Path } from "./paths";
import { OF_TURN } from "./turns";

/** The value of a name: a parameter, a cell of the row at hand, an entry of the note, or a constant. */
export function compileName(compiler: Compiler, node: Node): Operand | undefined {
  const name = compiler.tree.text(node);
  const bound = compiler.bound(name);
  if (bound) return seenAt(bound, node);
  const cell = compiler.cellOf(name, node);
  if (cell !== "unnamed") return cell;
  const entry = compiler.find(name);
  if (entry) return use(compiler, entry, name, node);
  const constant = CONSTANTS.get(name);
  if (constant !== undefined) return quantity(node, RATIO, [compiler.constant(constant)], { constant, unit: OF_TURN });
  if (NATIVES.has(name)) return compiler.wrongKind(node, name, "native function", "quantity");
  const suggestion = compiler.suggest(name, "quantity");
  return compiler.fail(node, {
    code: "name.unknown",
    name,
    isUnit: isBuiltInUnit(name),
    ...(suggestion === undefined ? {} : { suggestion }),
  });
}

/** The value of `alias.member`, of a column or a cell of a table, of a part. */
export function compileMember(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const path = pathOf(tree, node, compiler.statementText);
  if (!path) return ofValue(compiler, node);
  const alias = tree.text(path.base);
  if (meansChapter(compiler, alias)) return ofChapter(compiler, node, path);
  const found = compiler.find(alias);
  if (!found) return unknownHolder(compiler, path.base);
  if (found.statement.kind === "fab")
    return compiler.fail(node, { code: "later.notComputed", what: "fabrication files" });
  return compilePath(compiler, node, found, path, (entry, name) => use(compiler, entry, name, node));
}

/** A quantity of a chapter, or what of a table in it. */
function ofChapter(compiler: Compiler, node: Node, { base, steps }: Path): Operand | undefined {
  const [first, ...others] = steps;
  const holder = innermost(compiler, node);
  const entry = first.isKey ? undefined : chapterEntry(compiler, holder, "quantity");
  const left: Path = { base: first.node, steps: others };
  const written = compiler.tree.text(base);
  return (
    entry && compilePath(compiler, node, entry, left, (found, name) => use(compiler, found, `${written}.${name}`, node))
  );
}

/** The first member of a path: its name and what stands behind the first dot. */
function innermost(compiler: Compiler, node: Node): Node {
  const { tree } = compiler;
  let at = node;
  while (tree.kind(tree.first(at)) !== Kind.Name) at = tree.first(at);
  return at;
}

/** `(a + b).x`, `f(3).x`: a value has no members. */
function ofValue(compiler: Compiler, node: Node): undefined {
  const { tree } = compiler;
  let owner = node;
  while (tree.kind(owner) === Kind.Member || tree.kind(owner) === Kind.Index) owner = tree.first(owner);
  return compiler.wrongKind(owner, compiler.text(owner), "quantity", "note");
}

/** The value of another entry. */
function use(compiler: Compiler, entry: Entry, name: string, node: Node): Operand | undefined {
  const { type, results } = entry;
  switch (type.kind) {
    case "quantity":
    case "truth": {
      const copy = compiler.frame.piece && compiler.instances.of(entry, node);
      if (copy) return copy;
      const at = [results.from];
      for (let i = 1; i < (type.length ?? 1); i++) at.push(results.from + i);
      const isList = type.length !== undefined;
      if (type.kind === "truth") return truth(node, at, isList);
      return quantity(node, type.dimension, at, {
        point: type.point,
        isList,
        unit: entry.unit,
        step: entry.step,
      });
    }
    case "none":
      return compiler.block(name);
    case "later":
      return compiler.block(name);
    default:
      return compiler.wrongKind(node, name, kindOf(entry), "quantity");
  }
}
