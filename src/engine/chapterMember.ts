import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import type { Entry } from "./entry";
import { chapterMeant, CHAPTERS } from "./handbook";
import { nearestName } from "./suggest";

/** Whether a name before a dot is that of a chapter here: whatever has members in the note itself comes before it. */
export function meansChapter(compiler: Compiler, name: string): boolean {
  return chapterMeant(name, compiler.find(name)?.statement) !== undefined;
}

/** The entry that `chapter.member` means; undefined where there is none, and then reported or waited for. */
export function chapterEntry(compiler: Compiler, node: Node, wanted: "quantity" | "function"): Entry | undefined {
  const { tree } = compiler;
  const object = tree.first(node);
  const member = tree.next(object);
  const chapter = tree.text(object);
  const held = compiler.chapter(chapter);
  if (!held) return compiler.block(chapter);
  if ("trouble" in held) return compiler.fail(object, { code: "handbook.unreadable", chapter, detail: held.trouble });
  const name = tree.text(member);
  const entry = held.note.declared.get(name)?.[0];
  if (entry) return entry;
  const fitting = [...held.note.declared].filter(
    ([, [{ statement }]]) => (statement.kind === "function") === (wanted === "function"),
  );
  const suggestion = nearestName(
    fitting.map(([each]) => each),
    name,
  );
  return compiler.fail(member, {
    code: "name.unknown",
    name: `${chapter}.${name}`,
    isUnit: false,
    ...(suggestion === undefined ? {} : { suggestion }),
  });
}

/** Reports a name before a dot that nothing bears: it may be meant as a name of the note, or else as a chapter. */
export function unknownHolder(compiler: Compiler, object: Node): undefined {
  const name = compiler.tree.text(object);
  const suggestion = compiler.suggest(name, "quantity") ?? nearestName([...CHAPTERS.keys()], name);
  return compiler.fail(object, {
    code: "name.unknown",
    name,
    isUnit: false,
    isHolder: true,
    ...(suggestion === undefined ? {} : { suggestion }),
  });
}
