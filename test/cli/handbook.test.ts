import assert from "node:assert/strict";
import { CHAPTERS } from "../../src/engine/handbook";
import { ExitCode } from "../../src/cli/exitCode";
import { runIn } from "./workspace";

const look = (...words: readonly string[]) => runIn(__dirname, ["handbook", ...words]);

describe("copperbook handbook", () => {
  it("lists the chapters and what each is about", async () => {
    const { code, output, errors } = await look();
    assert.deepEqual([code, errors], [ExitCode.Good, ""]);
    for (const chapter of CHAPTERS.keys()) assert.match(output, new RegExp(`^ {2}${chapter} `, "m"));
    for (const line of output.split("\n")) assert.ok(line.length <= 100, line);
  });

  it("prints a chapter: what it is for, its functions and constants", async () => {
    const { code, output } = await look("resistor");
    assert.equal(code, ExitCode.Good);
    assert.match(output, /^Resistors\n\nDividers and equivalent sources/);
    assert.match(
      output,
      /^ {2}resistor\.divider\(U \[V\], R_1 \[Ω\], R_2 \[Ω\]\) \[V\]\n {6}voltage across the lower resistor/m,
    );
    assert.match(output, /^ {2}resistor\.k_B = 1\.380649e-23 J\/K$/m);
  });

  it("prints a function by its full name: formula, source and examples", async () => {
    const { code, output } = await look("led.burden");
    assert.equal(code, ExitCode.Good);
    assert.equal(
      output,
      [
        "led.burden(supply [V], n, V_f [V]) [V]",
        "  gives     voltage that the resistor bears, n LEDs of V_f in series",
        "  formula   supply - n * V_f",
        "  source    Kirchhoff's voltage law; not below a fifth of the supply, common practice.",
        "  example   must burden(24 V, 7, 3 V) inside 3 V ± 0.001 %",
        "",
      ].join("\n"),
    );
  });

  it("finds a function or a constant in whatever chapter", async () => {
    assert.match((await look("star_arm")).output, /^resistor\.star_arm\(R_a \[Ω\], R_b \[Ω\], R_c \[Ω\]\) \[Ω\]\n/);
    assert.match((await look("k_B")).output, /value {5}1\.380649e-23 J\/K\n {2}is {8}Boltzmann's constant\n {2}source/);
  });

  it("says what may be meant by a word that it does not have", async () => {
    assert.deepEqual(await look("resister"), {
      code: ExitCode.Trouble,
      output: "",
      errors:
        "copperbook: The handbook has no chapter and no function “resister”. Did you mean resistor?\nSee copperbook --help.\n",
    });
    assert.match((await look("led.burdn")).errors, /Did you mean led\.burden\?/);
    assert.match(
      (await look("led.resistor")).errors,
      /“led\.resistor”\. Near it: led\.series_resistor, led\.resistor_power\./,
    );
    assert.match((await look("ntc")).errors, /Near it: sense\.thermistor, sense\.thermistor_temperature\./);
    assert.match((await look("zzz")).errors, /“zzz”\. “copperbook handbook” lists the chapters\./);
  });
});
