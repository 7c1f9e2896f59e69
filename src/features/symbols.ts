import { declaredNames } from "../engine/entry";
import type { Snapshot } from "../engine/snapshot";
import type { DocumentSymbol } from "./feature";

/** The outline of a note. */
export function symbols(snapshot: Snapshot): readonly DocumentSymbol[] {
  return snapshot.rows.flatMap((row) =>
    declaredNames(row.statement).map(({ name, node }) => ({
      name,
      detail: "",
      kind: "quantity" as const,
      span: { start: row.start, end: row.start + row.statement.text.length },
      nameSpan: snapshot.spanOf(row, row.statement.tree.span(node)),
      children: [],
    })),
  );
}
