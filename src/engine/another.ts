import type { Node } from "../syntax/tree";
import type { Compiler } from "./compile";
import { seenAt, type Operand } from "./operand";
import { pieceAt } from "./piece";

/**
 * Compiles `another x`: a further piece. The `each` inputs of x are drawn anew, and all that lies between is computed
 * from them once more; all other inputs are shared.
 */
export function compileAnother(compiler: Compiler, node: Node): Operand | undefined {
  const { tree, frame, top } = compiler;
  compiler.isWatchful = true;
  const of = tree.first(node);
  const { operand, differs } = compiler.instances.drawnAnew(pieceAt(frame, node, top), of);
  if (operand && !differs && !frame.piece) {
    const whole = compiler.text(of);
    compiler.fail(node, { code: "piece.same", text: compiler.text(node), of: "another", whole });
  }
  return operand && seenAt(operand, node);
}
