import assert from "node:assert/strict";
import { join } from "node:path";
import { projectFolder } from "./host/machine";
import { Rig } from "./rig";

describe("the extension in a page, without Node, in an untrusted workspace", () => {
  let rig: Rig;
  before(async () => {
    rig = await Rig.start({ folder: join(projectFolder, "samples/seedling-shelf"), kind: "web", restricted: true });
  });
  after(() => rig?.close());

  it("shows values, also those that rest on other notes", async () => {
    await rig.openFile("shelf.calcs.md");
    assert.equal(await rig.waitForBeside(16, "fails"), "fails, 22 % short");
    assert.equal(await rig.waitForBeside(30, "holds"), "holds, 36 % to spare");
    assert.deepEqual(rig.errors, []);
  });

  it("answers what lies in the second file of the extension", async () => {
    await rig.openFile("shelf.calcs.md");
    assert.match(await rig.waitForStatus("fail"), /\d fail · .* hold/);
    assert.deepEqual(rig.errors, []);
  });
});
