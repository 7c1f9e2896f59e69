import { checkFindings } from "../notation";
import { tells } from "./told";

describe("choices", () => {
  it("give what is chosen, whatever is wanted", () => {
    tells([
      ["wanted = 3 V / 20 mA", "150 Ω"],
      ["R = wanted choose 150 Ω ± 1 % from E24", "148.5 .. 150 .. 151.5 Ω"],
      ["S = wanted choose 160 Ω", "160 Ω"],
      ["choose n = 7", "7"],
      ["T [kΩ] = wanted choose 150 Ω from E12", "0.15 kΩ"],
      ["sum_of = R + S + T", ""],
    ]);
  });

  it("are off where the series or the list has no such member", () => {
    checkFindings(`
    a = 149 Ω choose 145 Ω from E24
                     ~~~~~ choice.off
    b = 149 Ω choose 150 Ω from E24
    c = 12 V choose 11 V from [5 V, 12 V, 24 V]
                    ~~~~ choice.off
    d = 11 V choose 12 V from [5 V, 12 V, 24 V]
    list = [5 V, 12 V, 24 V]
    e = 11 V choose 12 V from list
    f = 11 V choose 12 V from one
                              ~~~ choice.series
    one = 24 V
    `);
  });

  it("are overtaken where another member fits the nominal want better", () => {
    checkFindings(`
    a = 170 Ω choose 150 Ω from E24
              ~~~~~~~~~~~~~~~~~~~~~ choice.overtaken
    b = 155 Ω choose 150 Ω from E24
    c = 155 Ω choose 160 Ω from E24
    d = 20 V choose 12 V from [5 V, 12 V, 24 V]
             ~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~ choice.overtaken
    `);
  });

  it("at least and at most are judged over the whole range, and may be safer than needed", () => {
    checkFindings(
      `
    given x = 100 Ω ± 10 %
    a = x choose at least 110 Ω from E24
    b = x choose at least 110 Ω ± 1 % from E24
          ~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~ choice.short
    c = x choose at least 120 Ω ± 1 % from E24
    d = x choose at least 470 Ω from E24
    e = x choose at most 91 Ω from E24
          ~~~~~~~~~~~~~~~~~~~~~~~~~~~~ choice.short
    f = x choose at most 82 Ω from E24
    `,
    );
  });
});
