/**
 * Whether two pieces of plain data are equal. Dimensions, units, statements and entries are the same only as the same
 * object: the first two are interned, and a statement that was parsed again is another one.
 */
export function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (isSingleton(a) || isSingleton(b)) return false;
  if (Array.isArray(a))
    return Array.isArray(b) && a.length === b.length && a.every((member, i) => sameData(member, b[i]));
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) => key in b && sameData((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}

function isSingleton(value: object): boolean {
  return "tree" in value || "exponents" in value || "powers" in value || "dependents" in value;
}
