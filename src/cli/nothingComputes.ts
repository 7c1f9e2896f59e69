import type { Service } from "../service";

const NOTHING_COMPUTES =
  "Nothing in this note computes: calculation lines are set in by four columns, with a blank line or a heading above them.";

/** A sentence for a note without a single calculation; empty where it has one, and where a finding says already why not. */
export function nothingComputesText(service: Service, path: string): string {
  const isSilent = service.snapshot(path)?.rows.length === 0 && service.findings(path).length === 0;
  return isSilent ? NOTHING_COMPUTES : "";
}
