import fc from "fast-check";

/** Voltages with few names, so that pieces, copies of copies and correlations meet; nearly every line has a value. */
const name = fc.constantFrom("a", "b", "c", "x", "burden", "V_f");

const literal = fc.constantFrom(
  ...["5 V ± 5 %", "5 V ± 0.2 V", "2 V ± 10 %", "1 .. 2 .. 4 V", "3.0(1) V", "readings [4, 5] V", "3 V"],
);

const formula = fc
  .tuple(
    fc.constantFrom(
      ...["@ + #", "2 * @", "@ - another #", "another @", "total(3, @)", "total(2, @ + total(2, #))", "@ - nominal(#)"],
      ...[
        "highest(@) - #",
        "lowest(@ * # / 1 V)",
        "f(@)",
        "total(2, f(#))",
        "ceil(@, 1 V) + #",
        "total(2, ceil(@, 1 V))",
      ],
      ...["if another @ < # then @ else #", "f(@) - f(#)", "f(another @)"],
    ),
    name,
    name,
  )
  .map(([form, one, other]) => form.replaceAll("@", one).replaceAll("#", other));

const statement = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .tuple(fc.constantFrom("given", "assume"), name, literal, fc.constantFrom("", " each"))
      .map(([word, n, value, each]) => `${word} ${n} = ${value}${each}`),
  },
  { weight: 5, arbitrary: fc.tuple(name, formula).map(([n, value]) => `${n} = ${value}`) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(name, name, fc.constantFrom("1", "-1", "0.5"))
      .map(([one, other, r]) => `correlation ${one}, ${other} = ${r}`),
  },
  fc.tuple(name, formula).map(([n, value]) => `must ${n} < ${value}`),
  name.map((n) => `measured ${n} = 2.8 .. 3.1 V instead`),
  fc.constantFrom("f(x) = x - another x", "f(x) = total(2, x)", "f(x) = x + a", "f(x) = x - lowest(b)"),
);

export const pieceLine: fc.Arbitrary<string> = statement.map((text) => `    ${text}`);

/** A note of some lines. The first is blank, so that they compute. */
export const pieceNote: fc.Arbitrary<string> = fc
  .array(pieceLine, { minLength: 4, maxLength: 14 })
  .map((lines) => ["", ...lines].join("\n"));
