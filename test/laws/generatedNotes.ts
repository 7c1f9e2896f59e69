import fc from "fast-check";

/** Few names, so that lines meet: definitions double, rest on each other in circles, and change what they are. */
export const NAMES = ["a", "b", "c", "V_f", "burden", "burdn", "Burden", "x", "LED", "f", "other"] as const;

const name = fc.constantFrom(...NAMES);

const literal = fc.constantFrom(
  ...["2", "0", "3 V", "3.0 V", "3000 mV", "5 V ± 5 %", "5.0 V ± 5 %", "5 V ± 0.25 V", "2.8 .. 3.0 .. 3.2 V"],
  ...[".. 3 V", "1 .. 2", "1 .. 2.0", "12 LED", "12 LED/board", "4k7", "4k7J", "20 °C", "2 K", "0.12 EUR/LED", "3 Vx"],
  ...["10 V/burden", "readings [1, 2] V", "[1 V, 2 V]", "[1, 2, 3]"],
);

const leaf = fc.oneof(
  { weight: 3, arbitrary: name },
  { weight: 2, arbitrary: literal },
  fc.tuple(fc.constantFrom("other", "far", "x"), name).map(([alias, member]) => `${alias}.${member}`),
  fc.constantFrom(
    "t.a",
    "t.b",
    "t.x",
    "sum(t.a)",
    "t.one.a",
    't["two"].b',
    "t.one",
    "t.a.a",
    "x.a",
    "c.b",
    "other.t.a",
    "size(t.x)",
    "sum(filter(t.a, t.b > 1 V))",
    "max(sorted(t.a, t.b))",
    "rollup(t.a)",
  ),
);

/** Expressions as an author writes them, right and wrong. */
export const expression: fc.Arbitrary<string> = fc.oneof(
  { weight: 2, arbitrary: leaf },
  fc
    .tuple(leaf, fc.constantFrom(" + ", " - ", " * ", " / ", " || ", "^"), leaf)
    .map(([left, sign, right]) => `${left}${sign}${right}`),
  fc.tuple(leaf, leaf, leaf, leaf).map(([a, b, c, d]) => `if ${a} < ${b} then ${c} else ${d}`),
  fc.tuple(fc.constantFrom("f", "other.f", "sqrt", "max", "g"), leaf, leaf).map(([f, a, b]) => `${f}(${a}, ${b})`),
  fc.tuple(fc.constantFrom("f", "abs", "floor", "nominal", "lowest", "highest"), leaf).map(([f, a]) => `${f}(${a})`),
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        fc.constantFrom(
          ...["another @", "total(3, another @)", "a - another f(@)", "total(2, @)", "total(12 LED, @)", "total(a, @)"],
          ...["total(3, f(@))", "total(2, @ + total(3, @))"],
        ),
        leaf,
      )
      .map(([form, a]) => form.replaceAll("@", a)),
  },
  fc.tuple(leaf, fc.constantFrom("LED", "board")).map(([a, item]) => `${a} without ${item}`),
  fc.tuple(leaf, leaf).map(([a, b]) => `(${a} - ${a}) * ${b}`),
  fc.tuple(leaf, leaf).map(([a, b]) => `sum(k * ${a} for k = 1 .. ${b})`),
  fc.tuple(leaf, leaf).map(([a, b]) => `if ${a} = "x" then ${a} else ${b}`),
  fc.tuple(leaf, leaf, leaf).map(([a, b, c]) => `lookup(${a}, [1 V, 2 V, ${b}], ${c})`),
  fc.tuple(leaf, leaf).map(([a, b]) => `interpolate(${a}, [1, ${b}], c) + nearest("E12", ${a})`),
  fc.constantFrom("f", "other.f").map((f) => `${f}("x")`),
);

const comment = fc.constantFrom("", "", "", " # why", ' from "sheet"', " each", " each LED");

const statement: fc.Arbitrary<string> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(name, expression, comment).map(([n, e, c]) => `${n} = ${e}${c}`) },
  {
    weight: 4,
    arbitrary: fc
      .tuple(fc.constantFrom("given", "assume", "over"), name, literal, comment)
      .map(([word, n, value, c]) => `${word} ${n} = ${value}${c}`),
  },
  fc
    .tuple(name, fc.constantFrom("V", "mV", "LED", "°C", "Ω"), expression)
    .map(([n, unit, e]) => `${n} [${unit}] = ${e}`),
  fc
    .tuple(
      name,
      expression,
      fc.constantFrom("150", "3 V", "a", "b"),
      fc.constantFrom("", " from E24", " from [1, 2]", " from c"),
    )
    .map(([n, e, value, from]) => `${n} = ${e} choose ${value}${from}`),
  fc
    .tuple(name, expression, fc.constantFrom("least", "most"), literal)
    .map(([n, e, sense, value]) => `${n} = ${e} choose at ${sense} ${value} from E12`),
  fc.tuple(name, literal).map(([n, value]) => `choose ${n} = ${value}`),
  fc
    .tuple(name, fc.constantFrom("t.one", 't["two"]', "u.one", "other.t.one"))
    .map(([n, part]) => `choose ${n} = ${part}`),
  fc
    .tuple(
      fc.constantFrom("f", "g", "sqrt", "a"),
      fc.constantFrom("x", "x, y = 2", "x, b = a"),
      expression,
      fc.constantFrom("", "", " where x > 2", " where x < a and b = 2", " where x inside 1 .. 2 V or x = burden"),
    )
    .map(([f, parameters, e, domain]) => `${f}(${parameters}) = ${e}${domain}`),
  {
    weight: 2,
    arbitrary: fc
      .record({
        n: name,
        value: literal,
        at: fc.constantFrom("", "", " at a = 3 V", " at b = 2, c = 1 V"),
        on: fc.constantFrom("", " on 2026-01-02", " on 2026-03-04"),
        instead: fc.constantFrom("", " instead"),
      })
      .map(({ n, value, at, on, instead }) => `measured ${n} = ${value}${at}${on}${instead}`),
  },
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.constantFrom("must", "should"), expression, fc.constantFrom("<=", ">", "=", "<"), expression, comment)
      .map(([word, left, sign, right, c]) => `${word} ${left} ${sign} ${right}${c}`),
  },
  fc.tuple(fc.constantFrom("must", "should"), leaf).map(([word, x]) => `${word} ${x} inside 2.8 .. 3.2 V`),
  {
    weight: 2,
    arbitrary: fc
      .tuple(name, name, fc.constantFrom("0.5", "1", "-1", "-0.9"))
      .map(([a, b, r]) => `correlation ${a}, ${b} = ${r}`),
  },
  fc.constantFrom("items LED, board", "items LED", "items board, x", "items V"),
  fc
    .tuple(
      fc.constantFrom("b.calcs.md", "c.calcs.md", "a.calcs.md", "../up.calcs.md", "missing.calcs.md"),
      fc.constantFrom("other", "far", "x"),
    )
    .map(([path, alias]) => `use "${path}" as ${alias}`),
  fc.constantFrom(
    'accept rule.fails because "of it"',
    "order boards = 5",
    "let x in 1 .. 2 satisfy x = a",
    "let x in -40 .. 40 satisfy x + x^3 / 100 = a",
    "let b in -40 .. 40 satisfy exp(b / 20) + b = x + 1",
    "a = (3 +",
    "b = = 2",
    "must",
    "given",
    "((((",
    "V_f",
  ),
);

const cell = fc.oneof(
  { weight: 3, arbitrary: literal },
  { weight: 2, arbitrary: leaf.map((each) => `= ${each}`) },
  fc.constantFrom("", "", "-", "wire", '"wire"', "one", "two", "^^", "2 * 3"),
);

const tableRow = fc
  .tuple(fc.constantFrom("one", "two", "two", "M3", '"M3"', ""), fc.array(cell, { maxLength: 4 }))
  .map(([key, cells]) => `| ${[key, ...cells].join(" | ")} |`);

const header = fc.oneof(
  fc.constantFrom("a", "b", "x", "a [V]", "b [V]", "no name", "sum", "one", "part", "of", "qty"),
  fc.tuple(fc.constantFrom("a", "b", "x", "b [V]"), expression).map(([n, e]) => `${n} = ${e.replace(/\|/g, "\\|")}`),
);

/** A data table, with a blank line before it as prose has it. */
const table: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom("t", "t", "u", "a"),
    fc.array(header, { minLength: 1, maxLength: 3 }),
    fc.array(tableRow, { maxLength: 4 }),
  )
  .map(([n, headers, rows]) =>
    ["", `| ${[`${n}:`, ...headers].join(" | ")} |`, `|${" - |".repeat(headers.length + 1)}`, ...rows, ""].join("\n"),
  );

/** A line of a note: mostly one that computes. */
export const line: fc.Arbitrary<string> = fc.oneof(
  { weight: 8, arbitrary: statement.map((text) => `    ${text}`) },
  { weight: 2, arbitrary: table },
  tableRow,
  fc.constantFrom(
    "",
    "",
    "Some prose with `a` in it.",
    "# Heading",
    "- item",
    "- [ ] must: look",
    "        + 3 V",
    "```",
    "<!-- -->",
    "| x: | a |",
  ),
  fc.constantFrom(
    "    a = 1 V",
    "    a = 2 V",
    "    b = a * 2",
    "    a = b * 2",
    "    must a < 3 V",
    "    given a = 5 V ± 5 %",
  ),
);

/** A note of some lines. The first is blank, so that indented lines compute. */
export const note: fc.Arbitrary<string> = fc.array(line, { maxLength: 14 }).map((lines) => ["", ...lines].join("\n"));

const field = fc.constantFrom(
  ...["2", "3 V", "5 V ± 5 %", "12 LED", "12 LED/board", "+4", '"x, y"', '"open', "wire", "", "3,5", "a=b"],
);

/** A line of a file that is a table. */
export const fileLine: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom("one", "two", "two", '"M3"', ""), fc.array(field, { maxLength: 3 }))
  .map(([key, fields]) => [key, ...fields].join(","));

/** A file that is a table, mostly one with headers. */
export const file: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom("name,a,b", "name,a,b [V]", "part,of,qty,a", "name,a,b = a * 2", "name;a;b", ""),
    fc.array(fileLine, { maxLength: 5 }),
  )
  .map(([headers, lines]) => [headers, ...lines].join("\n"));
