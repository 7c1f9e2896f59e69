import { checkFindings } from "../notation";
import { tells } from "./told";

describe("temperatures", () => {
  it("are points and differences", () => {
    tells(
      [
        ["T = 25 °C", "25 °C"],
        ["a = T + 40 K", "65 °C"],
        ["b = 40 K + T", "65 °C"],
        ["c = T - 5 K", "20 °C"],
        ["d = T - 20 °C", "5 K"],
        ["e = kelvin(T)", "298.15 K"],
        ["f = point(300 K)", ""],
        ["g = min(T, 20 °C)", "20 °C"],
        ["h = max(T, 68 °F)", ""],
        ["i = mean(T, 35 °C)", "30 °C"],
        ["j = T < 30 °C", "true"],
        ["k = if T < 30 °C then T else 30 °C", "25 °C"],
        ["must T <= 85 °C", "holds"],
        ["must T inside 20 .. 30 °C", "holds"],
      ].slice(0, -1) as [string, string][],
    );
  });

  it("have tolerances that are differences", () => {
    tells([
      ["assume T = 25 °C ± 2 °C", "23 .. 25 .. 27 °C"],
      ["assume U = 25 °C ± 2 K", "23 .. 25 .. 27 °C"],
      ["assume A = -40 .. 85 °C", "-40 .. 22.5 .. 85 °C"],
      ["must A <= T + 100 K", "holds"],
      ["must U <= 27 °C", "holds"],
    ]);
  });

  const refused: readonly [statement: string, mark: string][] = [
    ["a = T + U", "        ~ temperature.pair"],
    ["a = 40 K - T", "           ~ temperature.pair"],
    ["a = T + 3", "        ~ temperature.pair"],
    ["a = T + 3 V", "        ~~~ temperature.pair"],
    ["a = 2 * T", "        ~ temperature.point"],
    ["a = T / 2", "    ~ temperature.point"],
    ["a = T ^ 2", "    ~ temperature.point"],
    ["a = -T", "     ~ temperature.point"],
    ["a = abs(T)", "        ~ temperature.point"],
    ["a = sqrt(T)", "         ~ temperature.point"],
    ["a = sum(T, U)", "        ~ temperature.point"],
    ["a = floor(T)", "          ~ temperature.point"],
    ["a = T || U", "    ~ temperature.point"],
    ["a = T < 300 K", "        ~~~~~ temperature.pair"],
    ["a = max(T, 5 K)", "           ~~~ temperature.pair"],
    ["a = if 1 < 2 then T else 5 K", "                         ~~~ temperature.pair"],
    ["a = T - 0", "        ~ temperature.pair"],
    ["a = kelvin(5 K)", "           ~~~ temperature.point"],
    ["a = point(5 V)", "          ~~~ unit.mismatch"],
    ["a = point(T)", "          ~ temperature.point"],
    ["a = 25 °C ± 5 %", "            ~~~ temperature.relative"],
  ];
  for (const [statement, mark] of refused) {
    it(`refuse ${statement.slice(4)}`, () => {
      checkFindings(`    given T = 25 °C\n    given U = 30 °C\n    ${statement}\n    ${mark}\n`);
    });
  }
});
