import fc from "fast-check";

/** Ways to begin or end a construct, to be mixed freely: what matters is how they meet. */
const INDENTS = [
  " ",
  "  ",
  "   ",
  "    ",
  "     ",
  "      ",
  "       ",
  "        ",
  "         ",
  "\t",
  " \t",
  "  \t",
  "\t\t",
  "   \t ",
];
const MARKERS = [
  "- ",
  "* ",
  "+ ",
  "-",
  "*",
  "1. ",
  "1) ",
  "2. ",
  "10. ",
  "123456789. ",
  "1234567890. ",
  "-\t",
  "- \t",
  "-     ",
  "> ",
  ">",
  ">\t",
  "> > ",
  ">- ",
  "- > ",
  "- - ",
  "1. - ",
  "1.",
  "+   ",
];
const CONTENTS = [
  "a = 2 V",
  "must a <= 3 V",
  "text",
  "words and more",
  "",
  " ",
  "# heading",
  "## heading ##",
  "#",
  "#no",
  "####### seven",
  "===",
  "=",
  "---",
  "-",
  "--- x",
  "***",
  "_ _ _",
  "- - -",
  "* * * x",
  "```",
  "```text",
  "````",
  "``` a`b",
  "~~~",
  "~~~~ ~",
  "<!-- comment",
  "-->",
  "<!-- one line -->",
  "<?php",
  "?>",
  "<!DOCTYPE x",
  ">",
  "<![CDATA[",
  "]]>",
  "<pre>",
  "</pre>",
  "<script>x</script>",
  "<div>",
  "</div>",
  "<div",
  '<span class="a">',
  "</span>",
  "<a href='x'> and",
  "| a | b |",
  "a | b",
  "|---|---|",
  ":-- | --:",
  "--|--",
  "| a",
  "-|",
  "|-",
  "| `x` | y \\| `z|` |",
  "[foo]: /url",
  "[foo]:",
  "/url",
  '"title"',
  '"title',
  'title"',
  "'title'",
  "(title",
  '[foo]: /url "title"',
  '[foo]: /url "title" x',
  "[foo]: <a b>",
  "[foo",
  "bar]: /url",
  "[]: /url",
  "[foo]: javascript:x",
  '"" x',
  '""',
  "[ ] open",
  "[x] must: done `name`",
  "[ ]",
  "[X]  should : more",
  "`code`",
  "`` a`b ``",
  "`open",
  "close`",
  "\\`not` code`",
  "`a` ``b` `c`",
  '<b title="`">`',
  "<http://x`y>`z`",
  "[a](b`c) `d`",
  '![`alt`](u) [`l`](u "`")',
  "` `",
  "`  a  `",
  "\u00a0x",
  "\f",
  "\u0000",
  "\ud800",
  "2. two",
  "1. one",
  "- item",
  "-\titem",
  "* ",
  "$",
];
/** Constructs of several lines, whole: single lines drawn at random seldom make one. */
const CONSTRUCTS = [
  ["| a | b |", "|---|:-:|", "| `x` | y |", "z | `\\|` | w"],
  ["a | b", "--|--", "1"],
  ["text", "a | `b`", "-- | --"],
  ["Heading", "==="],
  ["Two", "lines", "---"],
  ["# Heading `x` #", "    a = 2"],
  ["```", "    a = 2", "", "```"],
  ["~~~~", "~~~", "    a = 2"],
  ["<!-- hidden", "", "    a = 2", "-->", "    b = 3"],
  ["<div>", "    a = 2", "", "    b = 3"],
  ["<pre>", "", "    a = 2", "</pre> x"],
  ["<b>", "    a = 2"],
  ["[foo]:", "  /url", "  'a", "  title'", "    a = 2"],
  ["[foo]: /url", "'open", "===", "text", "===", "more"],
  ["[foo", "===", "bar]: /url", "    a = 2"],
  ["[foo]: /url", "    a = 2"],
  ["[foo]: <u>", '"t" x', "    a = 2"],
  ["text", "    a = 2", "    b = 3"],
  ["text", "", "    a = 2", "", "", "    b = 3", "\tc = 4"],
  ["- [ ] must: look at `a`", "  for long", "- [x] done"],
  ["- item", "", "    a = 2", "", "      b = 3"],
  ["1. item", "   - deeper", "     a = 2", "", "    b = 3"],
  ["-", "", "  text", "    a = 2"],
  ["-", "  [ ] task", "", "", "- x"],
  ["- a", "  - b", "    - c", "   - d", " - e"],
  ["10000000. a", "          - c", "      - b"],
  ["10. a", "    b", "   # c", "     # d"],
  ["> quote", "    a = 2", "", "    b = 3"],
  ["> > deep", "      # lazy", "> - x", "    > y"],
  ["> ```", "> x", "    a = 2"],
  ["`a", "  b`", "    `c`"],
];
const BREAKS = ["\n", "\n", "\n", "\n", "\r\n", "\r"];

const oneIn = (count: number): fc.Arbitrary<boolean> => fc.nat(count - 1).map((drawn) => drawn === 0);
const rarely = (values: readonly string[], count: number): fc.Arbitrary<string> =>
  fc.tuple(oneIn(count), fc.constantFrom(...values)).map(([isDrawn, value]) => (isDrawn ? value : ""));

const line = fc
  .tuple(
    rarely(INDENTS, 2),
    rarely(MARKERS, 3),
    rarely(MARKERS, 9),
    rarely(INDENTS, 6),
    fc.constantFrom(...CONTENTS),
    rarely([" ", "  ", "\t"], 6),
  )
  .map((parts) => parts.join(""));

/** The lines of a construct, in a container or not, now and then out of place. */
const construct = fc
  .tuple(
    fc.constantFrom(...CONSTRUCTS),
    rarely(MARKERS, 2),
    rarely(MARKERS, 5),
    fc.infiniteStream(fc.tuple(oneIn(12), oneIn(12), fc.constantFrom(...INDENTS), oneIn(20))),
  )
  .map(([lines, outer, inner, slips]) =>
    lines.flatMap((content, index) => {
      const [isLazy, isMoved, indent, isDoubled] = slips.next().value;
      const markers = outer + inner;
      const prefix = isLazy ? "" : index === 0 ? markers : markers.replace(/[^>\t]/g, " ");
      const placed = prefix + (isMoved ? indent : "") + content;
      return isDoubled ? [placed, placed] : [placed];
    }),
  );

/** Lines drawn from few contents, so that fences, comments and titles find their ends. */
const similarLines = fc.uniqueArray(fc.constantFrom(...CONTENTS), { minLength: 2, maxLength: 4 }).chain((contents) =>
  fc.array(
    fc.tuple(rarely(INDENTS, 2), rarely(MARKERS, 4), fc.constantFrom(...contents)).map((parts) => parts.join("")),
    { minLength: 2, maxLength: 10 },
  ),
);

const stretches = fc.oneof(
  fc.array(line, { maxLength: 6 }),
  similarLines,
  construct,
  construct,
  fc.constantFrom([""], ["", ""], ["   "], ["    a = 2"], ["    a = 2", "", "    b = 3"]),
);

/** Notes in which every construct of CommonMark block structure meets every other. */
export const documents: fc.Arbitrary<string> = fc
  .tuple(
    fc.array(stretches, { maxLength: 4 }),
    fc.constantFrom(...BREAKS),
    fc.infiniteStream(fc.tuple(oneIn(15), fc.constantFrom("\n", "\r\n", "\r", "\n\n"))),
    fc.boolean(),
  )
  .map(([parts, lineBreak, others, isClosed]) => {
    const lines = parts.flat();
    const breakBehind = () => {
      const [isOther, other] = others.next().value;
      return isOther ? other : lineBreak;
    };
    return lines.map((text, index) => (index + 1 < lines.length || isClosed ? text + breakBehind() : text)).join("");
  });
