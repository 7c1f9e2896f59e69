import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { applyEdits } from "../../src/text/edit";
import { codes, parse } from "./rendering";

/** A production of the Grammar section: its rules, and examples with the problems marked under them. */
interface Production {
  readonly title: string;
  readonly rules: string;
  readonly right: readonly string[];
  readonly wrong: readonly { readonly text: string; readonly marks: readonly string[] }[];
}

const MARK = /^( *)(~+) (syntax\.\w+)$/;

function productions(): Production[] {
  const page = readFileSync(join(__dirname, "../../DEVELOPERS.md"), "utf8");
  const section = /^## Grammar$(.*?)(?=^## |$(?![\s\S]))/ms.exec(page)?.[1] ?? "";
  return section.split(/^### /m).slice(1).map(production);
}

function production(text: string): Production {
  const block = (kind: string): string[] =>
    [...text.matchAll(new RegExp(`^\`\`\`${kind}\\n(.*?)^\`\`\`$`, "gms"))].flatMap((found) =>
      found[1].split("\n").slice(0, -1),
    );
  const wrong: { text: string; marks: string[] }[] = [];
  for (const line of block("wrong"))
    if (MARK.test(line)) wrong[wrong.length - 1].marks.push(line);
    else wrong.push({ text: line, marks: [] });
  return { title: text.split("\n")[0], rules: block("ebnf").join("\n"), right: block("right"), wrong };
}

/** The problems of a statement as they are marked under it. */
function marksOf(text: string): string[] {
  return parse(text).problems.map(
    ({ span, code }) => `${" ".repeat(span.start)}${"~".repeat(Math.max(1, span.end - span.start))} ${code}`,
  );
}

describe("the grammar in DEVELOPERS.md", () => {
  const all = productions();

  it("has all productions, each with its rules and with examples, right and wrong", () => {
    assert.ok(all.length >= 17, `only ${all.length} productions were found`);
    for (const { title, rules, right, wrong } of all) {
      assert.match(rules, /=/, title);
      assert.ok(right.length > 0 && wrong.length > 0, `${title} lacks examples`);
    }
  });

  for (const { title, right, wrong } of all) {
    it(`${title}: the right ones have no problem`, () => {
      for (const text of right) {
        assert.deepEqual(marksOf(text), [], text);
        assert.notEqual(parse(text).kind, "broken", text);
      }
    });

    it(`${title}: the wrong ones have the marked problem, in the marked place`, () => {
      for (const { text, marks } of wrong) {
        assert.ok(marks.length > 0, `no problem is marked under “${text}”`);
        assert.deepEqual(marksOf(text), marks, text);
      }
    });
  }

  it("offers no rewriting that leaves the problem there", () => {
    let tried = 0;
    for (const { text } of all.flatMap(({ wrong }) => wrong))
      for (const problem of parse(text).problems)
        for (const rewritten of "rewritten" in problem ? problem.rewritten : []) {
          const mended = applyEdits(text, [{ span: problem.span, text: rewritten }]);
          assert.ok(!codes(parse(mended)).includes(problem.code), `“${text}” became “${mended}”`);
          tried++;
        }
    assert.ok(tried >= 30, `only ${tried} rewritings were tried`);
  });
});
