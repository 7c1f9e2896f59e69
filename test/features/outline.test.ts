import assert from "node:assert/strict";
import type { DocumentSymbol } from "../../src/features/feature";
import { holding, note } from "./notes";

const TEXT = `---
title: x
---

# Bar

${note(`items LED, board
given supply = 24 V ± 5 %
x = supply +
    supply
f(a) = a`)}

## Rules

${note('must x <= 60 V   # reason\nmeasured x = 48 V\nuse "b.calcs.md" as b')}

- [x] must: done
- [ ] must: light it
- [ ] look

### Deep

\`\`\`
    fenced = 1
\`\`\`

# End

${note("order boards = 5")}
`;

describe("the outline", () => {
  it("is a tree of headings with what is defined and ruled under each", () => {
    const drawn: string[] = [];
    const draw = (symbols: readonly DocumentSymbol[], depth: number) => {
      for (const { name, detail, kind, children } of symbols) {
        drawn.push(`${"  ".repeat(depth)}${kind} ${name}${detail === "" ? "" : ` | ${detail}`}`);
        draw(children, depth + 1);
      }
    };
    draw(holding({ n: TEXT }).symbols("n"), 0);
    assert.deepEqual(drawn, [
      "heading Bar",
      "  items LED, board",
      "  given supply | 22.8 .. 24 .. 25.2 V",
      "  quantity x | 45.6 .. 48 .. 50.4 V",
      "  function f",
      "  heading Rules",
      "    rule must x <= 60 V | holds, 16 % to spare",
      "    measurement measured x | 48 V",
      "    note b",
      "    heading Deep",
      "heading End",
      "  order boards | 5",
    ]);
  });
  it("has spans that hold those of what is inside, and the names", () => {
    const check = ({ span, nameSpan, children }: DocumentSymbol) => {
      assert.ok(span.start <= nameSpan.start && nameSpan.end <= span.end);
      for (const child of children) {
        assert.ok(span.start <= child.span.start && child.span.end <= span.end);
        check(child);
      }
    };
    const symbols = holding({ n: TEXT }).symbols("n");
    assert.equal(symbols.length, 2);
    symbols.forEach(check);
    const [bar] = symbols;
    assert.deepEqual(
      bar.children.slice(0, 3).map(({ nameSpan }) => TEXT.slice(nameSpan.start, nameSpan.end)),
      ["LED", "supply", "x"],
    );
  });
  it("stands without headings, too", () =>
    assert.deepEqual(
      holding({ n: note("x = 1") })
        .symbols("n")
        .map(({ name }) => name),
      ["x"],
    ));
});

describe("folding", () => {
  const folded = (text: string) => {
    const lines = text.split(/\r?\n/);
    return holding({ n: text })
      .foldings("n")
      .map(({ firstLine, lastLine }) => `${lines[firstLine].trim()} … ${lines[lastLine].trim()}`);
  };
  it("folds sections, calculations, statements, fences and front matter", () =>
    assert.deepEqual(folded(TEXT), [
      "--- … ---",
      "# Bar … ```",
      "items LED, board … f(a) = a",
      "x = supply + … supply",
      "## Rules … ```",
      'must x <= 60 V   # reason … use "b.calcs.md" as b',
      "### Deep … ```",
      "``` … ```",
      "# End … order boards = 5",
    ]));
  it("leaves single lines alone", () => assert.deepEqual(folded(note("x = 1") + "\n\ntext\n"), []));
  it("folds at a line what is the longest there", () =>
    assert.deepEqual(folded(note("x = 1 +\n    2\ny = 2")), ["x = 1 + … y = 2"]));
  it("counts lines with CRLF", () =>
    assert.deepEqual(folded(note("x = 1\ny = 2").replaceAll("\n", "\r\n") + "\r\n\r\n"), ["x = 1 … y = 2"]));
});

describe("open items", () => {
  it("are those without a tick", () => {
    const { openItems } = holding({ n: TEXT }).record("n");
    assert.deepEqual(openItems, [
      { line: 20, word: "must", text: "light it" },
      { line: 21, text: "look" },
    ]);
  });
});
