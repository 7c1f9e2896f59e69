/** What a level becomes by the handbook's chapter on decibels: a plain ratio, a power or a voltage. */
const FUNCTIONS: ReadonlyMap<string, readonly string[]> = new Map([
  ["dB", ["db.power_ratio", "db.field_ratio"]],
  ["dBm", ["db.power_of_dBm"]],
  ["dBV", ["db.voltage_of_dBV"]],
  ["dBu", ["db.voltage_of_dBu"]],
]);

/**
 * What may be written in the place of a level.
 * @param level its number, where that stands alone.
 */
export function decibelsMeant(unit: string, level: string | undefined): readonly string[] {
  return level === undefined ? [] : (FUNCTIONS.get(unit)?.map((name) => `${name}(${level})`) ?? []);
}

/** The way out for a level with its unit; it begins with a space. */
export function decibelText(unit: string, level: string | undefined): string {
  if (unit === "B") return " A byte is written `byte`.";
  const meant = decibelsMeant(unit, level ?? "level");
  if (meant.length > 0) return ` Write ${meant.map((text) => `\`${text}\``).join(" or ")}.`;
  return ` Write the level as a plain number${level === undefined ? "" : `, \`${level}\``}, and what it is in its name or comment.`;
}
