/** So many are named. */
const MOST_NEAR = 3;

/** Letters that two forms of a word share at least: `resistor` and `resistance`, and not `cost` and `count`. */
const STEM = 5;

/** Of the names in a chapter those that share a word with one that it has not: `series_resistor` for `resistor`. */
export function nearMembers(members: readonly string[], wanted: string): readonly string[] {
  const parts = wanted.toLowerCase().split("_");
  const shared = (member: string): number =>
    member.split("_").filter((word) => parts.some((part) => isSameWord(word, part))).length;
  return members
    .filter((member) => shared(member) > 0)
    .sort((a, b) => shared(b) - shared(a))
    .slice(0, MOST_NEAR);
}

function isSameWord(a: string, b: string): boolean {
  return (a === b && a.length > 1) || (a.length >= STEM && b.length >= STEM && a.slice(0, STEM) === b.slice(0, STEM));
}
