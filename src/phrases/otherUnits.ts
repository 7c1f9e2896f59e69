/** A unit that the table has not, as a number of one that it has. */
interface OtherUnit {
  readonly value: string;
  readonly names: readonly string[];
}

/** Factors from memory of NIST SP 811, appendix B; those that are exact have all their digits. */
const OTHER_UNITS: readonly OtherUnit[] = [
  { value: "101.325 kPa", names: ["atm"] },
  { value: "133.322 Pa", names: ["mmHg", "torr", "Torr"] },
  { value: "4.184 J", names: ["cal"] },
  { value: "4.184 kJ", names: ["kcal"] },
  { value: "1055.06 J", names: ["BTU", "Btu"] },
  { value: "745.7 W", names: ["hp"] },
  { value: "735.499 W", names: ["PS"] },
  { value: "9.80665 N", names: ["kgf", "kp"] },
  { value: "10.7639 lx", names: ["fc"] },
  { value: "0.1 mT", names: ["gauss", "Gauss"] },
];

/** What one of a unit is that the table has not; undefined where it is not known here either. */
export function otherUnit(name: string): string | undefined {
  return OTHER_UNITS.find(({ names }) => names.includes(name))?.value;
}
