import assert from "node:assert/strict";
import { holding, marked } from "./notes";

const PATH = "n.calcs.md";
const NOTE = `
    v = bar.N2.voltage

| bar:    | from | to  | R     | V    | I     |
| ------- | ---- | --- | ----- | ---- | ----- |
| adapter | 0V   | N0  |       | 24 V |       |
| J1      | N0   | N1  | 10 mΩ |      |       |
| J2      | N1   | N2  | 10 mΩ |      |       |
| B1      | N1   | 0V  |       |      | 1 A   |
| B2      | N2   | 0V  |       |      | 1 A   |
`;

const at = (text: string, within: number) => {
  const place = NOTE.indexOf(text);
  assert.ok(place >= 0, text);
  return place + within;
};
const hover = (offset: number) => holding({ [PATH]: NOTE }).hover(PATH, offset)?.markdown;

describe("a network in the editor", () => {
  it("has the current and the drop beside each branch", () => {
    const beside = holding({ [PATH]: NOTE }).results(PATH);
    assert.deepEqual(
      beside.map(({ line, text }) => [line, text]),
      [
        [1, "23.97 V"],
        [5, "current 2 A · drop -24 V"],
        [6, "current 2 A · drop 20 mV"],
        [7, "current 1 A · drop 10 mV"],
        [8, "current 1 A · drop 23.98 V"],
        [9, "current 1 A · drop 23.97 V"],
      ],
    );
  });

  it("tells in hover a node, a branch, the table and what it comes to", () => {
    assert.equal(
      hover(at("| J2      | N1", 13)),
      "**`N1`** is a node at 23.98 V\n\n- `J1` brings 2 A\n- `J2` takes 1 A\n- `B1` takes 1 A",
    );
    assert.match(hover(at("| adapter | 0V", 13)) ?? "", /^\*\*`0V`\*\* is the reference/);
    assert.equal(
      hover(at("voltage", 2)),
      "**`bar.N2.voltage`** 23.97 V\n\nThe voltage of each node against the reference, worked out from the network.",
    );
    assert.match(hover(at("bar:", 1)) ?? "", /- `supply` total 47\.95 V, from 23\.97 V in B2 to 23\.98 V in B1/);
    assert.match(hover(at("| J1 ", 3)) ?? "", /`current` 2 A, `drop` 20 mV/);
  });

  it("completes what it comes to, its nodes, and what each of these has", () => {
    const labels = (line: string) => {
      const { text, offset } = marked(NOTE.replace("v = bar.N2.voltage", `v = ${line}`));
      return holding({ [PATH]: text })
        .completions(PATH, offset)
        .map(({ label }) => label);
    };
    const all = labels("bar.¦");
    for (const name of ["voltage", "supply", "current", "drop", "power", "loss", "J1", "N2"])
      assert.ok(all.includes(name), name);
    assert.deepEqual(labels("bar.N2.¦"), ["voltage"]);
    assert.ok(labels("bar.B1.¦").includes("supply"));
    assert.ok(!labels("bar.J1.¦").includes("supply"));
  });

  it("tells in hover for how long a load draws its current while something is open", () => {
    const { text, offset } = marked(NOTE.replace("v = bar.N2.voltage", "v = min(with_¦open(bar.B2.supply))"));
    const said = holding({ [PATH]: text }).hover(PATH, offset)?.markdown ?? "";
    assert.match(said, /a load draws its current, or feeds it, as long as a source of voltage is in a loop with it/);
  });

  it("does not rename what nobody wrote", () => {
    assert.equal(holding({ [PATH]: NOTE }).renameSpan(PATH, at("voltage", 2)), undefined);
  });
});
