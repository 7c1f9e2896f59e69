import { NATIVES } from "../engine/natives";
import { noteUsedAs, type Notes } from "../engine/referent";
import type { Snapshot } from "../engine/snapshot";
import { writingAt } from "../engine/writing";
import { parametersOf } from "../syntax/signature";
import type { FunctionDefinition } from "../syntax/statement";

/** The function that is being called at a place, and which of its arguments is being written. */
export interface Signature {
  /** `led.burden(supply, n, V_f)`. */
  readonly label: string;
  /** What of the label each parameter is. */
  readonly parameters: readonly string[];
  /** The parameter that is being written; as many as there are parameters where it is one too many. */
  readonly active: number;
  readonly documentation: string;
}

/** The innermost call that is open at a place; undefined where none is, or one of nothing that is known. */
export function signatureAt(snapshot: Snapshot, offset: number, notes: Notes): Signature | undefined {
  const writing = writingAt(snapshot, offset);
  const call = writing?.inside === "comment" ? undefined : writing && openCall(writing.before);
  if (!call) return undefined;
  const definition = definitionOf(snapshot, call, notes);
  if (definition) {
    const parameters = parametersOf(definition);
    const names = definition.parameters.map(({ name }) => definition.tree.text(name));
    const at = call.argumentName === undefined ? call.position : names.indexOf(call.argumentName);
    const label = `${call.callee}(${parameters.join(", ")})`;
    return { label, parameters, active: at < 0 ? call.position : at, documentation: definition.comment };
  }
  const native = NATIVES.get(call.callee);
  if (!native) return undefined;
  const parameters = /\((.*)\)/.exec(native.signature)![1].split(/,\s*/);
  return { label: native.signature, parameters, active: call.position, documentation: native.does };
}

interface OpenCall {
  readonly callee: string;
  /** Commas before the place. */
  readonly position: number;
  /** Where the argument is written by name. */
  readonly argumentName?: string;
}

const CALLEE = /(?:[\p{L}_][\p{L}\p{M}\p{N}_]*\.)?[\p{L}_][\p{L}\p{M}\p{N}_]*$/u;

/** The innermost bracket that a name stands before and that is still open. */
function openCall(text: string): OpenCall | undefined {
  let depth = 0;
  let commas = 0;
  let argument = "";
  for (let at = text.length - 1; at >= 0; at--) {
    const sign = text[at];
    if (sign === ")" || sign === "]") depth++;
    else if (sign === "," && depth === 0) commas++;
    else if (sign === "(" || sign === "[") {
      if (depth-- > 0) continue;
      const callee = sign === "(" ? CALLEE.exec(text.slice(0, at))?.[0] : undefined;
      if (callee === undefined) return undefined;
      const named = /^\s*([\p{L}_][\p{L}\p{M}\p{N}_]*)\s*=(?!=)/u.exec(argument)?.[1];
      return { callee, position: commas, ...(named === undefined ? {} : { argumentName: named }) };
    }
    if (commas === 0) argument = sign + argument;
  }
  return undefined;
}

function definitionOf(snapshot: Snapshot, { callee }: OpenCall, notes: Notes): FunctionDefinition | undefined {
  const dot = callee.indexOf(".");
  const home = dot < 0 ? snapshot : noteUsedAs(snapshot, callee.slice(0, dot), notes);
  const statement = home?.find(callee.slice(dot + 1))?.statement;
  return statement?.kind === "function" ? statement : undefined;
}
