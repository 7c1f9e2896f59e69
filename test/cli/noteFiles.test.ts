import assert from "node:assert/strict";
import { chmodSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { findNote, findNotes, isInside, ReadingError } from "../../src/cli/noteFiles";
import { Workspace } from "./workspace";

describe("finding notes", () => {
  let workspace: Workspace;
  beforeEach(() => (workspace = new Workspace()));
  afterEach(() => workspace.remove());

  const find = (named: readonly string[], from = ".") => findNotes(named, join(workspace.folder, from));
  const shown = async (named: readonly string[], from?: string) =>
    (await find(named, from)).notes.map(({ shownPath }) => shownPath);
  const refuses = (work: Promise<unknown>, message: string | RegExp) =>
    assert.rejects(work, (error) => {
      assert.ok(error instanceof ReadingError, String(error));
      if (typeof message === "string") assert.equal(error.message, message);
      else assert.match(error.message, message);
      return true;
    });

  it("searches the current folder to its depth where nothing is named, sorted", async () => {
    workspace.write("b.calcs.md", "").write("a/z/c.calcs.md", "").write("a/a.calcs.md", "").write("readme.md", "");
    assert.deepEqual(await shown([]), ["a/a.calcs.md", "a/z/c.calcs.md", "b.calcs.md"]);
  });

  it("leaves out node_modules and hidden folders, but not what is named", async () => {
    workspace.write("node_modules/p/a.calcs.md", "").write(".git/a.calcs.md", "").write("a.calcs.md", "");
    assert.deepEqual(await shown(["."]), ["a.calcs.md"]);
    assert.deepEqual(await shown(["node_modules/p"]), ["node_modules/p/a.calcs.md"]);
  });

  it("takes a note named twice, by whatever way, once", async () => {
    workspace.write("a/b.calcs.md", "");
    symlinkSync("a/b.calcs.md", join(workspace.folder, "link.calcs.md"));
    assert.deepEqual(await shown(["a", "a/../a/b.calcs.md", "link.calcs.md"]), ["a/b.calcs.md"]);
  });

  it("does not follow links on its way, neither in circles nor out", async () => {
    workspace.write("in/a.calcs.md", "").write("out/b.calcs.md", "");
    symlinkSync("..", join(workspace.folder, "in/circle"));
    symlinkSync("../out", join(workspace.folder, "in/out"));
    symlinkSync("../out/b.calcs.md", join(workspace.folder, "in/b.calcs.md"));
    assert.deepEqual(await shown(["in"]), ["in/a.calcs.md"]);
  });

  it("takes the current folder as root where it holds everything, else the innermost folder that does", async () => {
    workspace.write("a/x.calcs.md", "").write("a/b/y.calcs.md", "").write("c/z.calcs.md", "");
    const rootOf = async (named: readonly string[], from?: string) =>
      (await find(named, from)).root.slice(workspace.folder.length);
    assert.equal(await rootOf(["a/x.calcs.md"]), "");
    assert.equal(await rootOf(["../a/x.calcs.md"], "c"), "/a");
    assert.equal(await rootOf(["../a/b"], "c"), "/a/b");
    assert.equal(await rootOf(["../a/b", "../a/x.calcs.md"], "c"), "/a");
    assert.equal(await rootOf(["../a/b", "z.calcs.md"], "c"), "");
    const { notes } = await find(["../a/b/y.calcs.md"], "c");
    assert.deepEqual(notes, [{ path: "y.calcs.md", shownPath: "../a/b/y.calcs.md" }]);
  });

  it("refuses what is not there, is no note, or holds none", async () => {
    workspace.write("a.md", "").write("empty/readme.txt", "").write("a.calcs.md/inner.txt", "");
    await refuses(find(["gone"]), "gone cannot be read: there is no such file or folder.");
    await refuses(find(["a.md/b.calcs.md"]), "a.md/b.calcs.md cannot be read: a part of its path is no folder.");
    await refuses(
      find(["a.md"]),
      /^a\.md is no note: the name of a note ends in \.calcs\.md\. Rename the file to a\.calcs\.md, or/,
    );
    await refuses(
      find(["empty"]),
      "There is no note in empty: a note is a Markdown file with a name that ends in .calcs.md.",
    );
    await refuses(
      find(["a.calcs.md"]),
      "There is no note in a.calcs.md: a note is a Markdown file with a name that ends in .calcs.md.",
    );
    await refuses(find(["a\0b"]), "a\0b cannot be read: its name has a character that no name can have.");
  });

  it("names what is there by nearly the name that was typed", async () => {
    workspace.write("boards/lamp.calcs.md", "").write("boards/lamp.md", "").write("boards/mains.calcs.md", "");
    symlinkSync("gone.calcs.md", join(workspace.folder, "boards/link.calcs.md"));
    const missing = "cannot be read: there is no such file or folder.";
    const tries: readonly [named: string, meant: string][] = [
      ["boards/lamp", " Did you mean boards/lamp.calcs.md?"],
      ["boards/Lamp.calcs.md", " Did you mean boards/lamp.calcs.md?"],
      ["boards/lamp.calc.md", " Did you mean boards/lamp.calcs.md?"],
      ["boards/lamp.calcs.md:3", " Did you mean boards/lamp.calcs.md?"],
      ["borads", " Did you mean boards?"],
      ["boards/*.calcs.md", " Name the folder: all notes in it are found."],
      ["boards/link.calcs.md", " It is a link, and what it leads to is gone."],
      ["boards/other.calcs.md", ""],
      ["nowhere/lamp.calcs.md", ""],
    ];
    for (const [named, meant] of tries) await refuses(find([named]), `${named} ${missing}${meant}`);
  });

  it("tells of a folder without notes, and searches the others", async () => {
    workspace.write("a/x.calcs.md", "").write("empty/readme.txt", "").write("bare/readme.txt", "");
    const { notes, troubles } = await find(["empty", "a", "bare"]);
    assert.deepEqual(
      notes.map(({ path }) => path),
      ["a/x.calcs.md"],
    );
    assert.deepEqual(troubles, [
      "There is no note in empty: a note is a Markdown file with a name that ends in .calcs.md.",
      "There is no note in bare: a note is a Markdown file with a name that ends in .calcs.md.",
    ]);
    await refuses(find(["empty", "bare"]), troubles.join(" "));
  });

  it("refuses links that go in circles", async () => {
    symlinkSync("b.calcs.md", join(workspace.folder, "a.calcs.md"));
    symlinkSync("a.calcs.md", join(workspace.folder, "b.calcs.md"));
    await refuses(find(["a.calcs.md"]), "a.calcs.md cannot be read: its symbolic links go in circles.");
  });

  it("says which folder it could not search, and goes on", async () => {
    workspace.write("a.calcs.md", "").write("locked/b.calcs.md", "");
    const locked = join(workspace.folder, "locked");
    chmodSync(workspace.folder, 0o755);
    chmodSync(locked, 0);
    const { notes, troubles } = await asNobody(() => find([])).finally(() => chmodSync(locked, 0o700));
    assert.deepEqual(troubles, [`The folder ${locked} cannot be read: permission is denied.`]);
    assert.deepEqual(notes, [{ path: "a.calcs.md", shownPath: "a.calcs.md" }]);
  });

  it("finds one note, and refuses a folder in its place", async () => {
    workspace.write("a/b.calcs.md", "");
    const { notes } = await findNote("a/b.calcs.md", workspace.folder);
    assert.deepEqual(notes, [{ path: "a/b.calcs.md", shownPath: "a/b.calcs.md" }]);
    await refuses(findNote("a", workspace.folder), "a is a folder: name one of the notes in it.");
  });
});

describe("being inside a folder", () => {
  const cases: readonly [folder: string, path: string, isIn: boolean][] = [
    ["/a", "/a", true],
    ["/a", "/a/b", true],
    ["/a", "/a/..b", true],
    ["/a", "/ab", false],
    ["/a", "/", false],
    ["/a/b", "/a/c", false],
    ["/", "/a", true],
  ];
  for (const [folder, path, isIn] of cases)
    it(`is ${isIn} for ${path} and ${folder}`, () => assert.equal(isInside(folder, path), isIn));
});

/** Works without the rights of root, for whom no folder is locked. */
async function asNobody<T>(work: () => Promise<T>): Promise<T> {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid!(65534);
  try {
    return await work();
  } finally {
    if (isRoot) process.seteuid!(0);
  }
}
