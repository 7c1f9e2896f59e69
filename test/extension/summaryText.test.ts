import assert from "node:assert/strict";
import { summaryText, type CheckedNote } from "../../src/extension/summaryText";
import { Service } from "../../src/service";

const SETTINGS = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

function checked(name: string, text: string): CheckedNote {
  const service = new Service({ read: async () => ({ trouble: "missing", detail: "there is none" }) }, SETTINGS);
  service.open(name, text);
  return { name, record: service.record(name), summary: service.summary(name), results: service.results(name) };
}

describe("the summary of all notes", () => {
  it("says what is wrong, place by place, the verdict first", () => {
    const bar = checked(
      "bar.calcs.md",
      "    assume a = 1 .. 3 V\n    must a <=\n        2 V\n    must a <= 4 V\n    b = 1 V + 2 s\n\n- [ ] must: look\n",
    );
    const { text } = summaryText([bar], [{ name: "old.calcs.md", why: "it is not UTF-8" }]);
    const lines = text.split("\n");
    assert.deepEqual(lines.slice(0, 6), [
      "# 1 must does not hold, 1 error, not everything could be read",
      "",
      "1 note: 1 fail · 1 hold · 1 guess · 1 open item",
      "",
      "## Rules that fail",
      "",
    ]);
    assert.match(lines[6], /^- bar\.calcs\.md:2 `must a <= 2 V` fails at the limits, .*/);
    assert.ok(
      text.includes("\n## Settle these first\n\n- bar.calcs.md:1 `a` 1 .. 2 .. 3 V, can decide `must a <= 2 V`\n"),
      text,
    );
    assert.ok(text.includes("\n## Open items\n\n- bar.calcs.md:7 must: look\n"), text);
    assert.match(text, /\n## Findings\n\n- bar\.calcs\.md:5 error: .+\n/);
    assert.ok(text.endsWith("\n## Not checked\n\n- old.calcs.md: it is not UTF-8\n"), text);
  });

  it("leads every place to its line", () => {
    const { text, links } = summaryText([checked("a.calcs.md", "\n    assume a = 1 .. 3 V\n    must a <= 2 V\n")], []);
    assert.ok(links.length >= 2);
    for (const { at, name, line } of links)
      assert.equal(text.split("\n")[at.line].slice(at.start, at.end), `${name}:${line}`);
    assert.deepEqual(
      links.map(({ line }) => line),
      [3, 2],
    );
  });

  it("says which of the musts that do not compute are open", () => {
    const open = (items: string) =>
      summaryText([checked("a.calcs.md", `    a = 1 V\n    must a <= 2 V\n\n${items}`)], []).verdict;
    assert.equal(open("- [ ] should: look\n- [x] must: look\n"), "Every must holds, and no note has an error");
    assert.equal(
      open("- [ ] must: look\n"),
      "Every must that computes holds, and no note has an error; 1 must is still open",
    );
    assert.match(open("- [ ] must: look\n- [ ] must: hear\n"), /; 2 must are still open$/);
  });

  it("tells an undecided must and the error in it once, on whichever of its lines that is", () => {
    const { verdict } = summaryText([checked("a.calcs.md", "    a = 1 V\n    must a <=\n      2 W\n")], []);
    assert.equal(verdict, "1 must does not hold");
  });

  it("says when all is well, and when there is nothing", () => {
    const good = checked("a.calcs.md", "    a = 1 V\n    must a <= 2 V\n");
    assert.match(summaryText([good], []).text, /^# Every must holds, and no note has an error\n\n1 note: 1 hold\n$/);
    assert.match(summaryText([], []).text, /^# There is no note in this workspace\n/);
  });
});
