import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { isBuiltin } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

/**
 * An extension is read anew in every window; beyond this its loading is felt. The budget was 400 kB before tables, shares of
 * builds and the handbook's functions; what counts, the time to the first values, is in the bench.
 */
const LARGEST_EXTENSION_BYTES = 600_000;

const DIST = join(__dirname, "../dist");

/** The part of esbuild's metafile that is looked at. */
interface Metafile {
  readonly outputs: Readonly<Record<string, Output>>;
}

interface Output {
  readonly imports: readonly { readonly path: string }[];
  readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>>;
}

describe("the bundles", () => {
  before(() => assert.ok(existsSync(join(DIST, "cli.js")), "There are no bundles: run “npm run build” first."));

  for (const name of ["extension", "browser"]) {
    it(`keep ${name}.js within ${LARGEST_EXTENSION_BYTES / 1000} kB`, () => {
      const { size } = statSync(join(DIST, `${name}.js`));
      assert.ok(size <= LARGEST_EXTENSION_BYTES, `${name}.js has ${size} bytes.`);
    });
  }

  it("leave only the editor's API outside the browser extension", () => {
    assert.deepEqual(importsOf("browser"), ["vscode"]);
  });

  it("leave only the editor's API and Node's own modules outside the Node extension", () => {
    const others = importsOf("extension").filter((path) => path !== "vscode" && !isBuiltin(path));
    assert.deepEqual(others, []);
  });

  it("have the chapters of the handbook beside them, and none inside", () => {
    const written = readdirSync(join(__dirname, "../src/handbook"));
    const shipped = readdirSync(join(DIST, "handbook"));
    assert.ok(shipped.includes("led.calcs.md"));
    assert.deepEqual(
      shipped.filter((file) => !written.includes(file) || !file.endsWith(".calcs.md")),
      [],
    );
    for (const name of ["extension", "browser", "cli"])
      assert.deepEqual(
        Object.keys(metafile(name).outputs[`dist/${name}.js`].inputs).filter((path) => path.endsWith(".calcs.md")),
        [],
      );
    assert.match(readFileSync(join(__dirname, "../.vscodeignore"), "utf8"), /^!dist\/handbook\/\*\.calcs\.md$/m);
  });

  it("take from mathjs its unit algebra without its matrices", () => {
    const sizes = Object.entries(metafile("extension").outputs["dist/extension.js"].inputs);
    const bytesOf = (part: string): number =>
      sizes.filter(([path]) => path.includes(part)).reduce((sum, [, { bytesInOutput }]) => sum + bytesInOutput, 0);
    assert.ok(bytesOf("mathjs/lib/esm/type/unit/") > 0);
    assert.equal(bytesOf("mathjs/lib/esm/type/matrix/"), 0);
  });

  it("run the command line with nothing around it", () => {
    const folder = mkdtempSync(join(tmpdir(), "copperbook-cli-"));
    try {
      const program = join(folder, "copperbook.js");
      copyFileSync(join(DIST, "cli.js"), program);
      const { status, stdout, stderr } = spawnSync(program, ["--version"], { encoding: "utf8", cwd: folder });
      const { version } = JSON.parse(readFileSync(join(__dirname, "../package.json"), "utf8")) as { version: string };
      assert.deepEqual({ status, stderr }, { status: 0, stderr: "" });
      assert.ok(stdout.includes(version), `It says “${stdout.trim()}”, not ${version}.`);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

function metafile(name: string): Metafile {
  return JSON.parse(readFileSync(join(DIST, `${name}.meta.json`), "utf8")) as Metafile;
}

/** What a bundle still imports when it runs, each once. */
function importsOf(name: string): string[] {
  const imports = metafile(name).outputs[`dist/${name}.js`].imports.map(({ path }) => path);
  return [...new Set(imports)].sort();
}
