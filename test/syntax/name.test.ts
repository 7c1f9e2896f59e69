import assert from "node:assert/strict";
import { KEYWORDS, foldName, isName, lookAlikeKey } from "../../src/syntax/name";
import { readsAsStatement } from "../../src/syntax/parse";
import { parseUnit } from "../../src/syntax/unit";
import { codes, parse } from "./rendering";

describe("names", () => {
  it("are compared in one form", () => {
    assert.equal(foldName("µ"), "\u03bc");
    assert.equal(foldName("\u2126"), "\u03a9");
    assert.equal(foldName("\u212b"), "\u00c5");
    assert.equal(foldName("\u212a"), "K");
    assert.equal(foldName("e\u0301"), "\u00e9");
    assert.equal(foldName("V_f"), "V_f");
  });

  it("begin with a letter of any script or a low line", () => {
    for (const name of ["x", "V_f", "θ_ja", "R12", "R₁", "температура", "𝑥1", "_a", "__proto__", "e\u0301"])
      assert.ok(isName(name), name);
    for (const name of ["", "1a", "a b", "a-b", "₁", "a.b", "²", "°C", "a²", "\ud835"]) assert.ok(!isName(name), name);
  });

  it("look alike in Latin, Greek and Cyrillic", () => {
    assert.equal(lookAlikeKey("\u0420_\u0430"), lookAlikeKey("P_a"));
    assert.equal(lookAlikeKey("\u03a1"), lookAlikeKey("P"));
    assert.equal(lookAlikeKey("R₁"), lookAlikeKey("R1"));
    assert.notEqual(lookAlikeKey("P"), lookAlikeKey("p"));
    assert.notEqual(lookAlikeKey("θ"), lookAlikeKey("o"));
  });

  it("are never words of the language, except after a dot", () => {
    for (const word of KEYWORDS) {
      assert.deepEqual(codes(parse(`${word} = 3`)), ["syntax.reservedName"], word);
      assert.notDeepEqual(codes(parse(`x = 2 * ${word}`)), [], word);
      assert.deepEqual(codes(parse(`x = parts.${word}`)), [], word);
    }
  });
});

describe("units that stand alone", () => {
  it("are read as behind a number", () => {
    assert.deepEqual(parseUnit("W/(m·K)"), {
      powers: [
        { name: "W", exponent: 1 },
        { name: "m", exponent: -1 },
        { name: "K", exponent: -1 },
      ],
    });
    assert.deepEqual(parseUnit(" 1/s^2 "), { powers: [{ name: "s", exponent: -2 }] });
    assert.deepEqual(parseUnit("nV/√Hz")?.powers[1], { name: "Hz", exponent: -0.5 });
    assert.deepEqual(parseUnit("µm⁻¹"), { powers: [{ name: "μm", exponent: -1 }] });
    assert.deepEqual(parseUnit("%"), { powers: [{ name: "%", exponent: 1 }] });
  });

  it("or not at all", () => {
    for (const text of ["", " ", "3", "V / m", "W/m·K", "W/m/K", "V)", "1/", "m^", "m^x", "(m)", "V/(m", "V W"])
      assert.equal(parseUnit(text), undefined, text);
  });
});

describe("prose that reads as a statement", () => {
  it("is what parses and has a shape of its own", () => {
    for (const line of [
      "  a = 3 V",
      "I_total [A] = strings * I",
      "f(a) = 2 * a",
      "given supply = 24 V # brief",
      "must P_R <= 0.2 W",
      "must not burnt",
      'use "a.calcs.md" as a',
      "items LED, board",
      "choose R = 150 Ω",
    ])
      assert.ok(readsAsStatement(line), line);
  });

  it("is not prose that begins like one", () => {
    for (const line of [
      "choose wisely",
      "must be careful",
      "must try",
      "should work",
      "items",
      "items needed",
      "order early",
      "let us see",
      "given enough time, it works",
      "use care",
      "over and out",
      "plot twist",
      "a + b",
      "where a = the width",
      "a = b, c = d",
      "- must: look for beat",
      "R1",
      "",
      "x =",
    ])
      assert.ok(!readsAsStatement(line), line);
  });
});
