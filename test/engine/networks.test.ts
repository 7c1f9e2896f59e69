import assert from "node:assert/strict";
import { rulePhrase } from "../../src/phrases/rule";
import { checkFindings, openNotes } from "../notation";

/** A note in which every rule must hold and nothing else is to be said. */
function holds(rules: readonly string[], table: string): void {
  const note = `${rules.map((rule) => `    must ${rule}\n`).join("")}\n${table.trim().replace(/^ +/gm, "")}\n`;
  checkFindings(note);
  const states = openNotes(note)
    .snapshot()
    .rows.flatMap(({ outcome }) => (outcome.kind === "rule" ? [outcome.state] : []));
  assert.deepEqual(
    states,
    rules.map(() => "holds"),
  );
}

describe("circuits solved by hand", () => {
  // The first three: standard circuit theory, closed form.
  it("a loaded divider: 5 V over 10 kΩ and 15 kΩ, loaded by 30 kΩ", () =>
    holds(
      ["net.tap.voltage = 2.5 V", "net.upper.current = 0.25 mA", "net.supply.current = 0.25 mA"],
      `| net:   | from | to  | R     | V   |
       | ------ | ---- | --- | ----- | --- |
       | supply | 0V   | top |       | 5 V |
       | upper  | top  | tap | 10 kΩ |     |
       | lower  | tap  | 0V  | 15 kΩ |     |
       | loaded | tap  | 0V  | 30 kΩ |     |`,
    ));

  it("1 A into 1 kΩ, 2 kΩ and 3 kΩ in parallel", () =>
    holds(
      ["net.a.voltage = 6000/11 V", "net.r2.current = 3/11 A"],
      `| net: | from | to | R    | I   |
       | ---- | ---- | -- | ---- | --- |
       | in   | GND  | a  |      | 1 A |
       | r1   | a    | GND | 1 kΩ |    |
       | r2   | a    | GND | 2 kΩ |    |
       | r3   | a    | GND | 3 kΩ |    |`,
    ));

  it("a delta of 30 Ω, 60 Ω and 90 Ω is a star with 10 Ω at the corner of the first two", () =>
    holds(
      ["net.r2.drop = 10 V", "net.a.voltage = 25 V"],
      `| net: | from | to | resistance | load |
       | ---- | ---- | -- | ---------- | ---- |
       | in   | 0    | a  |            | 1 A  |
       | r1   | a    | 0  | 30 Ω       |      |
       | r2   | a    | c  | 60 Ω       |      |
       | r3   | c    | 0  | 90 Ω       |      |`,
    ));

  it("a bridge out of balance: 10 − A + B − A = A/2 and (10 − B)/2 + A − B = B", () =>
    holds(
      ["net.A.voltage = 40/7 V", "net.B.voltage = 30/7 V", "net.meter.current = 10/7 mA", "sum(net.power) = 0 W"],
      `| net:  | from | to  | R    | V    |
       | ----- | ---- | --- | ---- | ---- |
       | cell  | 0V   | top |      | 10 V |
       | r1    | top  | A   | 1 kΩ |      |
       | r2    | A    | 0V  | 2 kΩ |      |
       | r3    | top  | B   | 2 kΩ |      |
       | r4    | B    | 0V  | 1 kΩ |      |
       | meter | A    | B   | 1 kΩ |      |`,
    ));

  it("a bridge in balance, whatever the source: no current but the noise of rounding", () =>
    holds(
      ["-1 fA < net.meter.current < 1 fA", "net.meter.drop <= 1 pV"],
      `| net:  | from | to  | R      | V         |
       | ----- | ---- | --- | ------ | --------- |
       | cell  | 0V   | top | 3 Ω    | 8 .. 12 V |
       | r1    | top  | A   | 1.1 kΩ |           |
       | r2    | A    | 0V  | 3.3 kΩ |           |
       | r3    | top  | B   | 0.7 kΩ |           |
       | r4    | B    | 0V  | 2.1 kΩ |           |
       | meter | A    | B   | 1 kΩ   |           |`,
    ));

  it("two batteries on one load: (12/1 + 9/1.5) / (1 + 1/1.5 + 1/6)", () =>
    holds(
      [
        "net.n.voltage = 108/11 V",
        "net.one.current = 24/11 A",
        "net.two.current = -6/11 A",
        "net.two.drop = -108/11 V",
      ],
      `| net: | from | to | R     | V    |
       | ---- | ---- | -- | ----- | ---- |
       | one  | 0    | n  | 1 Ω   | 12 V |
       | two  | 0    | n  | 1.5 Ω | 9 V  |
       | lamp | n    | 0  | 6 Ω   |      |`,
    ));

  it("a source between two nodes that are not the reference", () =>
    holds(
      ["net.a.voltage = -1 V", "net.b.voltage = 1 V", "net.cell.current = 1 A", "net.cell.power = -2 W"],
      `| net: | from | to | R   | V   |
       | ---- | ---- | -- | --- | --- |
       | cell | a    | b  |     | 2 V |
       | r1   | a    | 0  | 1 Ω |     |
       | r2   | b    | 0  | 1 Ω |     |`,
    ));

  it("sources in a chain, and what flows through each", () =>
    holds(
      ["net.b.voltage = 5 V", "net.one.current = 4.5 A", "net.two.current = 2.5 A"],
      `| net: | from | to | R   | V   | I   |
       | ---- | ---- | -- | --- | --- | --- |
       | one  | 0    | a  |     | 2 V |     |
       | two  | a    | b  |     | 3 V |     |
       | r1   | a    | 0  | 1 Ω |     |     |
       | r2   | b    | 0  | 2 Ω |     |     |`,
    ));

  it("boards along a bar: each joint carries what is drawn behind it", () =>
    holds(
      [
        "bar.J1.current = 1.2 A",
        "bar.J3.current = 0.4 A",
        "bar.N3.voltage = 24 V - (1.2 + 0.8 + 0.4) * 10 mV",
        "bar.B3.supply = bar.N3.voltage",
        "sum(bar.loss) = (1.44 + 0.64 + 0.16) * 10 mW",
        "min(bar.supply) = bar.B3.supply",
      ],
      `| bar:    | from | to | R     | V    | I     |
       | ------- | ---- | -- | ----- | ---- | ----- |
       | adapter | 0V   | N0 |       | 24 V |       |
       | J1      | N0   | N1 | 10 mΩ |      |       |
       | J2      | N1   | N2 | 10 mΩ |      |       |
       | J3      | N2   | N3 | 10 mΩ |      |       |
       | B1      | N1   | 0V |       |      | 0.4 A |
       | B2      | N2   | 0V |       |      | 0.4 A |
       | B3      | N3   | 0V |       |      | 0.4 A |`,
    ));
});

const rounded = (x: number | string) => (typeof x === "number" ? Number(x.toPrecision(12)) : x);

/** All rules of a note hold, and there are so many. */
function allHold(note: string, count: number): void {
  const rules = openNotes(note)
    .snapshot()
    .rows.flatMap(({ outcome, statement }) => (outcome.kind === "rule" ? [[statement.text, outcome.state]] : []));
  for (const [text, state] of rules) assert.equal(state, "holds", text);
  assert.equal(rules.length, count);
}

/** Three boards fed from both ends; what joins them is open in turn. */
const RING = `
| bar:    | from | to | R     | V    | I     |
| ------- | ---- | -- | ----- | ---- | ----- |
| adapter | 0V   | S  |       | 24 V |       |
| J1      | S    | N1 | 10 mΩ |      |       |
| J2      | N1   | N2 | 10 mΩ |      |       |
| J3      | N2   | N3 | 10 mΩ |      |       |
| J4      | N3   | S  | 10 mΩ |      |       |
| B1      | N1   | 0V |       |      | 1 A   |
| B2      | N2   | 0V |       |      | 1 A   |
| B3      | N3   | 0V |       |      | 1 A   |
`;

describe("a network with one resistance open after the other", () => {
  it("has a value for each: of a ring two chains, worked by hand", () => {
    // J1 open: 3 A, 2 A, 1 A on the way to N1, of 10 mΩ each. J2 open: 1 A to N1; 2 A and 1 A to N2.
    const note = `
    v = with_open(bar.B1.supply)
    must v = [24 V - 60 mV, 24 V - 10 mV, 24 V - 20 mV, 24 V - 30 mV]
    w = with_open(min(bar.supply))
    must min(w) = 24 V - 60 mV
    i = with_open(bar.adapter.current)
    must i = [3 A, 3 A, 3 A, 3 A]
    must with_open(bar.J3.current) = [-2 A, -1 A, 0 A, 1 A]
    must with_open(bar.J1.drop) = [60 mV, 10 mV, 20 mV, 30 mV]
    must with_open(bar.N3.voltage) = [24 V - 30 mV, 24 V - 20 mV, 24 V - 10 mV, 24 V - 60 mV]
    must with_open(sum(bar.loss)) = [140 mW, 60 mW, 60 mW, 140 mW]
    must with_open(bar.B1.power) = with_open(bar.B1.supply) * 1 A
${RING}`;
    checkFindings(note);
    allHold(note, 8);
  });

  it("names the branch to blame", () => {
    const note = `    must with_open(min(bar.supply)) >= 23.96 V\n${RING}`;
    const rule = openNotes(note).snapshot().rows[0].outcome;
    assert.ok(rule.kind === "rule");
    assert.match(rulePhrase(rule), /^fails, J1 and J4, /);
  });

  it("has no voltage where the last source is lost, and what hangs there draws nothing", () => {
    const note = `
    must with_open(bar.B2.supply) = [0 V, 0 V, 22 V]
    must with_open(bar.S.voltage) = [24 V, 24 V, 24 V]
    must with_open(bar.J1.current) = [0 A, 1 A, 1 A]
    must with_open(bar.B3.current) = [0 A, 1 A, 0 A]
    must with_open(bar.B3.power) = [0 W, 22 W, 0 W]

| bar:    | from | to | R     | V    | I     |
| ------- | ---- | -- | ----- | ---- | ----- |
| adapter | 0V   | S  |       | 24 V |       |
| J1      | S    | N1 | 1 Ω   |      |       |
| J2      | N1   | N2 | 1 Ω   |      |       |
| J3      | N1   | N3 | 1 Ω   |      |       |
| B2      | N2   | 0V |       |      | 1 A   |
| B3      | N3   | 0V |       |      | 1 A   |
`;
    checkFindings(note);
  });

  it("gives a load nothing whose way back is open", () => {
    const note = `
    must with_open(bar.B1.supply) = [0 V, 0 V]
    must with_open(bar.B1.current) = [0 A, 0 A]
    must with_open(bar.B2.supply) = [23 V, 0 V]

| bar:    | from | to | R     | V    | I     |
| ------- | ---- | -- | ----- | ---- | ----- |
| adapter | 0V   | S  |       | 24 V |       |
| K1      | M1   | M2 | 1 Ω   |      |       |
| K2      | M2   | 0V | 1 Ω   |      |       |
| B1      | S    | M1 |       |      | 1 A   |
| B2      | S    | M2 |       |      | 1 A   |
`;
    checkFindings(note);
  });

  it("leaves a load on whose way back remains, and none where it is cut off", () => {
    const note = `
    must with_open(bar.B1.current) = [0 A, 0 A, 1 A]
    must with_open(bar.B1.supply) = [0 V, 0 V, 22 V]
    must with_open(bar.G1.voltage) = [0 V, 24 V, 1 V]

| bar:    | from | to | R     | V    | I     |
| ------- | ---- | -- | ----- | ---- | ----- |
| adapter | 0V   | N0 |       | 24 V |       |
| J       | N0   | N1 | 1 Ω   |      |       |
| Rg      | G1   | 0V | 1 Ω   |      |       |
| Rb      | N1   | G1 | 10 kΩ |      |       |
| B1      | N1   | G1 |       |      | 1 A   |
`;
    checkFindings(note);
    allHold(note, 3);
  });

  it("leaves the loads of a return that is cut off without current, whatever lies beside them", () => {
    const note = `
    must with_open(bar.B1.supply) = [23 V, 0 V, 23 V, 22 V]
    must with_open(bar.B2.supply) = [0 V, 0 V, 0 V, 20 V]
    must with_open(bar.B2.current) = [0 A, 0 A, 0 A, 1 A]

| bar:    | from | to | R     | V    | I     |
| ------- | ---- | -- | ----- | ---- | ----- |
| adapter | 0V   | N1 |       | 24 V |       |
| J       | N1   | N2 | 1 Ω   |      |       |
| K1      | G1   | 0V | 1 Ω   |      |       |
| K2      | G2   | G1 | 1 Ω   |      |       |
| lamp    | N2   | G2 | 100 Ω |      |       |
| B1      | N1   | G1 |       |      | 1 A   |
| B2      | N2   | G2 |       |      | 1 A   |
`;
    checkFindings(note);
    allHold(note, 3);
  });

  it("takes a current that feeds a node as a load: without a source of voltage at all it goes on", () => {
    const note = `
    must with_open(up.a.voltage) = [0 V, 6 V]
    must with_open(alone.a.voltage) = [2 V, 1 V]

| up:    | from | to | R    | V   | I    |
| ------ | ---- | -- | ---- | --- | ---- |
| supply | GND  | p  |      | 5 V |      |
| pull   | p    | a  | 1 kΩ |     |      |
| down   | a    | GND | 1 kΩ |     |      |
| sensor | GND  | a  |      |     | 1 mA |

| alone: | from | to  | R    | I    |
| ------ | ---- | --- | ---- | ---- |
| one    | a    | GND | 1 kΩ |      |
| two    | a    | GND | 2 kΩ |      |
| sensor | GND  | a   |      | 1 mA |
`;
    allHold(note, 2);
  });

  it("is worked out anew where a branch is moved, though all else stays as it is", () => {
    const note = `    v = with_open(bar.B2.supply)\n${RING}`;
    const notes = openNotes(note);
    const start = note.indexOf("| J2      | N1   | N2") + "| J2      | N1   | ".length;
    notes.program.edit("note.calcs.md", { span: { start, end: start + 2 }, text: "N3" });
    notes.program.settle();
    const values = (of: ReturnType<typeof openNotes>) => {
      const outcome = of.snapshot().find("v")?.outcome;
      return outcome?.kind === "quantity" ? outcome.values.map(({ nominal }) => nominal) : [];
    };
    const fresh = openNotes(`${note.slice(0, start)}N3${note.slice(start + 2)}`);
    assert.deepEqual(values(notes), values(fresh));
    assert.notDeepEqual(values(notes), values(openNotes(note)));
  });

  it("shares what a ring draws exactly: what feeds it carries the sum, whatever the joints are", () => {
    const note = `
    a = bar.adapter.current
${RING.replace("| adapter | 0V   | S  |       |", "| adapter | 0V   | S  | 50 mΩ ± 20 % |").replaceAll("| 10 mΩ |", "| 5 .. 10 .. 20 mΩ |").replaceAll("1 A", "1 A ± 10 %")}`;
    const outcome = openNotes(note).snapshot().find("bar.current")?.outcome;
    assert.ok(outcome?.kind === "column");
    const [adapter] = outcome.values;
    assert.deepEqual([adapter.standing, adapter.low, adapter.high].map(rounded), ["attained", 2.7, 3.3]);
  });

  it("asks for one value of one network", () =>
    checkFindings(`
    a = with_open(3 V)
                  ~~~ function.arguments
    b = with_open(bar.supply)
                  ~~~~~~~~~~ function.arguments error
                  | \`with_open\` takes a single value, such as the \`min(…)\` of a list. It is \`with_open(x)\`.
    c = with_open(bar.B1.supply - two.b.supply)
                  ~~~~~~~~~~~~~~~~~~~~~~~~~~~~ function.arguments error
                  | \`with_open\` takes an expression of what one network comes to, such as \`min(bar.supply)\`. It is \`with_open(x)\`.
    d = with_open(two.b.supply)
                  ~~~~~~~~~~~~ function.arguments error
                  | \`with_open\` opens resistances, and the network has none. It is \`with_open(x)\`.
${RING}
| two: | from | to | V    | I     |
| ---- | ---- | -- | ---- | ----- |
| a    | 0V   | n  | 24 V |       |
| b    | n    | 0V |      | 0.4 A |
`));
});
