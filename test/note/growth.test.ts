import assert from "node:assert/strict";
import { join } from "node:path";
import { GROWTH, growthOfWork, TOLERATED } from "../counting/growth";
import { texts } from "./hardTexts";

describe("the work of scanning", () => {
  let growth: Readonly<Record<string, number>> = {};
  before(
    () => (growth = growthOfWork(join(__dirname, "hardTexts.ts"), "scan", join(__dirname, "../../src/note/scan.ts"))),
  );

  for (const title of Object.keys(texts)) {
    it(`grows in step with ${title}`, () =>
      assert.ok(growth[title] < TOLERATED, `It takes ${growth[title]} times the work for ${GROWTH} times the text.`));
  }

  it("would be seen to grow with the square", () => {
    const careless = growthOfWork(join(__dirname, "hardTexts.ts"), "careless", join(__dirname, "careless.ts"));
    assert.ok(careless["calculation lines"] > 3 * TOLERATED, `${careless["calculation lines"]} times`);
  });
});
