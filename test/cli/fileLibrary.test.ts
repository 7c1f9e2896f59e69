import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdirSync, symlinkSync, truncateSync } from "node:fs";
import { join } from "node:path";
import { FileLibrary, LARGEST_NOTE_BYTES } from "../../src/cli/fileLibrary";
import { Workspace } from "./workspace";

describe("the library on the file system", () => {
  let workspace: Workspace;
  let library: FileLibrary;
  beforeEach(() => {
    workspace = new Workspace().write("root/a.calcs.md", "\u00B5").write("outside.calcs.md", "secret");
    library = new FileLibrary(join(workspace.folder, "root"));
  });
  afterEach(() => workspace.remove());

  const trouble = async (path: string) => {
    const result = await library.read(path);
    return "text" in result ? `read: ${result.text}` : result.trouble;
  };

  it("reads a text", async () => assert.deepEqual(await library.read("a.calcs.md"), { text: "\u00B5" }));

  it("leaves out the mark of byte order", async () => {
    workspace.write("root/b.calcs.md", "\uFEFFx");
    assert.deepEqual(await library.read("b.calcs.md"), { text: "x" });
  });

  it("reads what is not UTF-8 with a mark where its bytes make no sense", async () => {
    workspace.write("root/b.calcs.md", Uint8Array.of(0x61, 0xb5, 0x62));
    assert.deepEqual(await library.read("b.calcs.md"), { text: "a\uFFFDb" });
  });

  it("reads nothing outside its folder", async () => {
    symlinkSync("../outside.calcs.md", join(workspace.folder, "root/link.calcs.md"));
    symlinkSync("..", join(workspace.folder, "root/up"));
    symlinkSync("a.calcs.md", join(workspace.folder, "root/inner.calcs.md"));
    assert.equal(await trouble("../outside.calcs.md"), "outside");
    assert.equal(await trouble("link.calcs.md"), "outside");
    assert.equal(await trouble("up/outside.calcs.md"), "outside");
    assert.equal(await trouble("inner.calcs.md"), "read: \u00B5");
  });

  it("does not take a folder with its own name as a beginning for itself", async () => {
    workspace.write("root-2/a.calcs.md", "secret");
    assert.equal(await trouble("../root-2/a.calcs.md"), "outside");
  });

  it("tells what is missing from what cannot be read", async () => {
    mkdirSync(join(workspace.folder, "root/folder.calcs.md"));
    assert.equal(await trouble("gone.calcs.md"), "missing");
    assert.equal(await trouble("a.calcs.md/b.calcs.md"), "missing");
    assert.equal(await trouble("folder.calcs.md"), "unreadable");
    assert.equal(await trouble("a\0.calcs.md"), "unreadable");
  });

  it("does not wait at a pipe", async () => {
    const { status } = spawnSync("mkfifo", [join(workspace.folder, "root/pipe.calcs.md")]);
    assert.equal(status, 0);
    assert.equal(await trouble("pipe.calcs.md"), "unreadable");
  });

  it("reads up to the size that a note can have", async () => {
    workspace.write("root/large.calcs.md", "");
    const file = join(workspace.folder, "root/large.calcs.md");
    truncateSync(file, LARGEST_NOTE_BYTES);
    const result = await library.read("large.calcs.md");
    assert.equal("text" in result && result.text.length, LARGEST_NOTE_BYTES);
    truncateSync(file, LARGEST_NOTE_BYTES + 1);
    assert.deepEqual(await library.read("large.calcs.md"), {
      trouble: "unreadable",
      detail: "it is larger than 16 MiB, which no note is",
    });
  });
});
