import { RATIO } from "../quantity/dimension";
import { isBuiltInUnit } from "../quantity/unit";
import { Kind, type Node } from "../syntax/tree";
import { chapterEntry, meansChapter, unknownHolder } from "./chapterMember";
import type { Compiler } from "./compile";
import { kindOf, type Entry } from "./entry";
import { CONSTANTS, LATER_FUNCTIONS, NATIVES } from "./natives";
import { quantity, seenAt, truth, type Operand } from "./operand";
import { OF_TURN } from "./turns";

/** The value of a name: a parameter, an entry of the note, or a constant. */
export function compileName(compiler: Compiler, node: Node): Operand | undefined {
  const name = compiler.tree.text(node);
  const bound = compiler.bound(name);
  if (bound) return seenAt(bound, node);
  const entry = compiler.find(name);
  if (entry) return use(compiler, entry, name, node);
  const constant = CONSTANTS.get(name);
  if (constant !== undefined) return quantity(node, RATIO, [compiler.constant(constant)], { constant, unit: OF_TURN });
  if (NATIVES.has(name) || LATER_FUNCTIONS.has(name))
    return compiler.wrongKind(node, name, "native function", "quantity");
  const suggestion = compiler.suggest(name, "quantity");
  return compiler.fail(node, {
    code: "name.unknown",
    name,
    isUnit: isBuiltInUnit(name),
    ...(suggestion === undefined ? {} : { suggestion }),
  });
}

/** The value of `alias.member`. */
export function compileMember(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const object = tree.first(node);
  const member = tree.next(object);
  if (tree.kind(object) !== Kind.Name) return compiler.fail(node, { code: "later.notComputed", what: "table" });
  const alias = tree.text(object);
  if (meansChapter(compiler, alias)) {
    const entry = chapterEntry(compiler, node, "quantity");
    return entry && use(compiler, entry, `${alias}.${tree.text(member)}`, node);
  }
  const found = compiler.find(alias);
  if (!found) return unknownHolder(compiler, object);
  if (found.statement.kind === "fab")
    return compiler.fail(node, { code: "later.notComputed", what: "fabrication files" });
  if (found.statement.kind !== "use") return compiler.wrongKind(object, alias, kindOf(found), "note");
  const entry = compiler.findMember(alias, tree.text(member));
  if (entry) return use(compiler, entry, `${alias}.${tree.text(member)}`, node);
  if (found.type.kind === "none") return compiler.block(alias);
  return compiler.fail(member, { code: "name.unknown", name: `${alias}.${tree.text(member)}`, isUnit: false });
}

/** The value of another entry. */
function use(compiler: Compiler, entry: Entry, name: string, node: Node): Operand | undefined {
  const { type, results } = entry;
  switch (type.kind) {
    case "quantity":
    case "truth": {
      const at = [results.from];
      for (let i = 1; i < (type.length ?? 1); i++) at.push(results.from + i);
      const isList = type.length !== undefined;
      if (type.kind === "truth") return truth(node, at, isList);
      return quantity(node, type.dimension, at, { point: type.point, isList, unit: entry.unit });
    }
    case "none":
      return compiler.block(name);
    case "later":
      return compiler.block(name);
    default:
      return compiler.wrongKind(node, name, kindOf(entry), "quantity");
  }
}
