import fc from "fast-check";

/** Few nodes and branches, so that lines meet: what one edit joins the next one parts. */
const node = fc.constantFrom("0V", "N1", "N1", "N2", "N2", "N3", "", "GND");
const branch = fc.constantFrom("r1", "r2", "r3", "b1", "s", "");
const ohms = fc.constantFrom("", "", "1 Ω", "2 Ω ± 10 %", "= R", "= 2 * R", "0 Ω", "-1 Ω", "1 V", "x");
const volts = fc.constantFrom("", "", "5 V", "5 V ± 5 %", "= U", "1 A");
const amperes = fc.constantFrom("", "", "", "0.1 A", "= I", "2 W");

const row = fc.tuple(branch, node, node, ohms, volts, amperes).map((cells) => `| ${cells.join(" | ")} |`);

const header = fc.constantFrom(
  "| net: | from | to | R | V | I |",
  "| net: | from | to | R | V | I |",
  "| net: | from | to | resistance | source | load |",
  "| net: | from | to | R [Ω] | V | current |",
  "| net: | from | to | R | x | twice = 2 * current |",
);

const table = fc
  .tuple(header, fc.array(row, { minLength: 1, maxLength: 6 }))
  .map(([head, rows]) => ["", head, "| - | - | - | - | - | - |", ...rows, ""].join("\n"));

const value = fc.constantFrom(
  ...[
    "net.N1.voltage",
    "net.N2.voltage",
    "net.r1.current",
    "net.b1.supply",
    "sum(net.power)",
    "net.s.loss",
    "net.r2.drop",
  ],
  ...["min(net.voltage)", "min(net.supply)", "max(net.current)", "min(with_open(net.N1.voltage))", "size(net.voltage)"],
  ...["sum(with_open(min(net.supply)))", "max(with_open(net.r1.current))", "R", "U", "net.r1.R", "with_open(3 V)"],
);

const statement = fc.oneof(
  fc.tuple(fc.constantFrom("a", "b", "I"), value).map(([name, of]) => `${name} = ${of}`),
  fc.constantFrom(
    "assume R = 1 .. 2 Ω",
    "R = 1 Ω",
    "assume U = 5 V ± 5 %",
    "U = 3 V",
    "I = 10 mA",
    "assume I = 1 .. 2 mA",
  ),
  value.map((of) => `must ${of} >= 1 V`),
  value.map((of) => `must with_open(${of}) > 0 V`),
);

/** A line of a note with a network: what computes, a branch, or a whole table. */
export const networkLine: fc.Arbitrary<string> = fc.oneof(
  { weight: 4, arbitrary: statement.map((text) => `    ${text}`) },
  { weight: 3, arbitrary: row },
  table,
  header,
);

export const networkNote: fc.Arbitrary<string> = fc
  .tuple(fc.array(statement, { minLength: 1, maxLength: 5 }), table)
  .map(([statements, net]) => `${statements.map((text) => `    ${text}\n`).join("")}${net}\n`);
