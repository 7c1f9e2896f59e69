/**
 * The coherent units that values are shown in, with the name of their quantity (ISO 80000 terms where it has one).
 * The first row that has a dimension names it. Rows may use the rows above them.
 *
 * Not here on purpose: `Hz`, because a factor 2π may be missing where 1/s comes out of a calculation; `Bq`, `Gy`, `Sv`,
 * `kat`, which say more than a dimension can; `N·m`, which no dimension tells from `J`. They are shown where they are asked for.
 */
export interface Quantity {
  /** Symbols to exponents, in the order they are shown. */
  readonly powers: Readonly<Record<string, number>>;
  readonly name: string;
}

export const BASE_QUANTITIES: readonly Quantity[] = [
  { powers: { kg: 1 }, name: "mass" },
  { powers: { m: 1 }, name: "length" },
  { powers: { s: 1 }, name: "time" },
  { powers: { A: 1 }, name: "current" },
  { powers: { K: 1 }, name: "temperature difference" },
  { powers: { cd: 1 }, name: "luminous intensity" },
  { powers: { mol: 1 }, name: "amount of substance" },
  { powers: { bit: 1 }, name: "amount of data" },
  { powers: { sr: 1 }, name: "solid angle" },
];

/** Units with a name of their own, and what they are in the units above. In the order in which a compound unit tries them. */
export const NAMED_UNITS: readonly {
  readonly symbol: string;
  readonly name: string;
  readonly of: Quantity["powers"];
}[] = [
  { symbol: "N", name: "force", of: { kg: 1, m: 1, s: -2 } },
  { symbol: "Pa", name: "pressure", of: { N: 1, m: -2 } },
  { symbol: "J", name: "energy", of: { N: 1, m: 1 } },
  { symbol: "W", name: "power", of: { J: 1, s: -1 } },
  { symbol: "C", name: "charge", of: { A: 1, s: 1 } },
  { symbol: "V", name: "voltage", of: { W: 1, A: -1 } },
  { symbol: "Ω", name: "resistance", of: { V: 1, A: -1 } },
  { symbol: "S", name: "conductance", of: { A: 1, V: -1 } },
  { symbol: "F", name: "capacitance", of: { C: 1, V: -1 } },
  { symbol: "Wb", name: "magnetic flux", of: { V: 1, s: 1 } },
  { symbol: "T", name: "magnetic flux density", of: { Wb: 1, m: -2 } },
  { symbol: "H", name: "inductance", of: { Wb: 1, A: -1 } },
  { symbol: "lm", name: "luminous flux", of: { cd: 1, sr: 1 } },
  { symbol: "lx", name: "illuminance", of: { lm: 1, m: -2 } },
];

export const COMPOUND_QUANTITIES: readonly Quantity[] = [
  { powers: { s: -1 }, name: "frequency" },
  { powers: { m: 2 }, name: "area" },
  { powers: { m: 3 }, name: "volume" },
  { powers: { m: 1, s: -1 }, name: "speed" },
  { powers: { m: 1, s: -2 }, name: "acceleration" },
  { powers: { m: 3, s: -1 }, name: "volume flow rate" },
  { powers: { kg: 1, m: -1 }, name: "mass per length" },
  { powers: { kg: 1, m: -2 }, name: "mass per area" },
  { powers: { kg: 1, m: -3 }, name: "density" },
  { powers: { kg: 1, s: -1 }, name: "mass flow rate" },
  { powers: { N: 1, m: -1 }, name: "stiffness" },
  { powers: { Pa: 1, s: 1 }, name: "dynamic viscosity" },
  { powers: { K: -1 }, name: "temperature coefficient" },
  { powers: { K: 1, W: -1 }, name: "thermal resistance" },
  { powers: { W: 1, K: -1 }, name: "thermal conductance" },
  { powers: { W: 1, m: -1, K: -1 }, name: "thermal conductivity" },
  { powers: { W: 1, m: -2, K: -1 }, name: "heat transfer coefficient" },
  { powers: { W: 1, m: -2 }, name: "power per area" },
  { powers: { W: 1, m: -1 }, name: "power per length" },
  { powers: { W: 1, sr: -1 }, name: "radiant intensity" },
  { powers: { J: 1, K: -1 }, name: "heat capacity" },
  { powers: { J: 1, kg: -1, K: -1 }, name: "specific heat capacity" },
  { powers: { V: 1, m: -1 }, name: "electric field strength" },
  { powers: { V: 1, s: -1 }, name: "slew rate" },
  { powers: { V: 1, Hz: -0.5 }, name: "voltage noise density" },
  { powers: { A: 1, Hz: -0.5 }, name: "current noise density" },
  { powers: { A: 1, m: -1 }, name: "magnetic field strength" },
  { powers: { A: 1, m: -2 }, name: "current density" },
  { powers: { A: 2, s: 1 }, name: "melting integral" },
  { powers: { Ω: 1, m: 1 }, name: "resistivity" },
  { powers: { Ω: 1, m: -1 }, name: "resistance per length" },
  { powers: { S: 1, m: -1 }, name: "conductivity" },
  { powers: { F: 1, m: -1 }, name: "permittivity" },
  { powers: { H: 1, m: -1 }, name: "permeability" },
  { powers: { lm: 1, m: -1 }, name: "luminous flux per length" },
  { powers: { lm: 1, W: -1 }, name: "luminous efficacy" },
  { powers: { cd: 1, m: -2 }, name: "luminance" },
  { powers: { bit: 1, s: -1 }, name: "data rate" },
];
