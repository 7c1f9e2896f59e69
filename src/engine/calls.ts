import { parametersOf } from "../syntax/signature";
import type { Parameter } from "../syntax/statement";
import { Kind, NONE, type Node } from "../syntax/tree";
import { chapterEntry, meansChapter, unknownHolder } from "./chapterMember";
import { fittingArgument, resultIn } from "./argumentUnits";
import type { Compiler } from "./compile";
import { kindOf, type Entry } from "./entry";
import { compileEnd } from "./ends";
import { argumentAt, type Binding } from "./frame";
import { compileNative } from "./nativeCall";
import { NATIVES } from "./natives";
import type { Operand } from "./operand";
import type { EngineProblem } from "./problem";
import { compileTotal } from "./total";

/** Compiles a call: of a function of compiler note or of a used one, or of a built-in one. */
export function compileCall(compiler: Compiler, node: Node): Operand | undefined {
  const { tree } = compiler;
  const callee = tree.first(node);
  const name = compiler.text(callee);
  const isName = tree.kind(callee) === Kind.Name;
  const found = isName ? compiler.find(tree.text(callee)) : memberFunction(compiler, callee);
  if (found === "reported") return undefined;
  if (found?.statement.kind === "function") return inline(compiler, node, found, name);
  const rule = isName ? NATIVES.get(tree.text(callee))?.rule : undefined;
  if (rule === "end") return compileEnd(compiler, node, name);
  if (rule === "open") {
    const { parts } = compiler.around;
    return parts ? parts.compileWithOpen(compiler, node) : compiler.block("with_open");
  }
  if (rule === "total") return compileTotal(compiler, node);
  if (rule !== undefined) return compileNative(compiler, node, tree.text(callee));
  if (found)
    return found.type.kind === "none"
      ? compiler.block(name)
      : compiler.wrongKind(callee, name, kindOf(found), "function");
  const suggestion = isName ? compiler.suggest(name, "function") : undefined;
  return compiler.fail(callee, {
    code: "name.unknown",
    name,
    isUnit: false,
    ...(suggestion === undefined ? {} : { suggestion }),
  });
}

function memberFunction(compiler: Compiler, callee: Node): Entry | "reported" | undefined {
  const { tree } = compiler;
  const object = tree.first(callee);
  const alias = tree.text(object);
  const isHolder = tree.kind(object) === Kind.Name;
  if (isHolder && meansChapter(compiler, alias)) return chapterEntry(compiler, callee, "function") ?? "reported";
  const note = isHolder ? compiler.find(alias) : undefined;
  if (isHolder && !note) return unknownHolder(compiler, object) ?? "reported";
  if (note?.statement.kind === "fab")
    return compiler.fail(callee, { code: "later.notComputed", what: "fabrication files" }) ?? "reported";
  if (note && note.statement.kind !== "use")
    return compiler.wrongKind(object, alias, kindOf(note), "note") ?? "reported";
  if (note?.type.kind === "none") return compiler.block(alias) ?? "reported";
  return note && compiler.findMember(alias, tree.text(tree.next(object)));
}

/** Compiles a function's body in place of the call, its parameters bound to the arguments. */
function inline(compiler: Compiler, node: Node, found: Entry, name: string): Operand | undefined {
  const { statement } = found;
  if (statement.kind !== "function" || !compiler.mayCall(found, node)) return undefined;
  const given = bindArguments(compiler, node, found, name);
  if (!given) return undefined;
  const origins = new Map([...given].map(([key, { node: argument }]) => [key, compiler.originOf(argument)]));
  const caller = compiler.callerAt(node);
  return compiler.inside(found, node, origins, (bound, span) => {
    // A default is of the note: it sees none of the parameters, so all are bound at once.
    const values = statement.parameters.map((parameter) => {
      const key = statement.tree.text(parameter.name);
      return [key, given.get(key) ?? defaultOf(compiler, found, name, parameter)] as const;
    });
    for (const [key, value] of values) {
      if (!value) return undefined;
      bound.set(key, value);
    }
    const { domain, unit } = statement;
    const value = compiler.expression(statement.value);
    const result = value && unit !== undefined ? resultIn(compiler, value, unit) : value;
    if (result && domain !== undefined)
      compiler.domains.check({ name, entry: found, domain, span, origins, ...(caller ? { caller } : {}) });
    return result;
  });
}

/** What a parameter is unless it is given; in the function that is open. */
function defaultOf(compiler: Compiler, found: Entry, name: string, parameter: Parameter): Binding | undefined {
  if (parameter.default === undefined) return undefined;
  // A default that is written out as a number is judged where it stands, once.
  const isTold = ({ code, span }: EngineProblem) =>
    code === "function.argumentUnit" && span.start === compiler.tree.start(parameter.default!);
  if (found.compileProblems.some(isTold)) return compiler.block(name);
  const value = argumentAt(compiler, parameter.default);
  return value && fittingArgument(compiler, found, name, compiler.tree.text(parameter.name), value);
}

function bindArguments(compiler: Compiler, node: Node, found: Entry, name: string): Map<string, Binding> | undefined {
  const { tree } = compiler;
  const { statement } = found;
  if (statement.kind !== "function") return undefined;
  const names = statement.parameters.map((parameter) => statement.tree.text(parameter.name));
  const signature = `${name}(${parametersOf(statement).join(", ")})`;
  const refuse = (at: Node, reason: string) =>
    compiler.fail(at, { code: "function.arguments", name, reason, signature });
  const given = new Map<string, Binding>();
  let isWhole = true;
  let position = 0;
  for (let child = tree.next(tree.first(node)); child !== NONE; child = tree.next(child)) {
    const isNamed = tree.kind(child) === Kind.Argument;
    const key = isNamed ? tree.text(child) : names[position++];
    if (key === undefined) return refuse(child, "has an argument too many");
    if (!names.includes(key)) return refuse(child, `has no parameter \`${key}\``);
    if (given.has(key)) return refuse(child, `gets \`${key}\` twice`);
    const value = argumentAt(compiler, isNamed ? tree.first(child) : child);
    const fitting = value && fittingArgument(compiler, found, name, key, value);
    if (fitting) given.set(key, fitting);
    else isWhole = false;
  }
  if (!isWhole) return undefined;
  const missing = statement.parameters.find((p, i) => p.default === undefined && !given.has(names[i]));
  if (missing) return refuse(node, `needs a value for \`${statement.tree.text(missing.name)}\``);
  return given;
}
