import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { isBuiltin } from "node:module";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";

/** An extension is read anew in every window; beyond this its loading is felt. */
const LARGEST_FIRST_FILE_BYTES = 400_000;
/** Read once the first values are shown; a limit all the same, so that growth is noticed. */
const LARGEST_SECOND_FILE_BYTES = 360_000;

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

  const limits = { "": LARGEST_FIRST_FILE_BYTES, ".answers": LARGEST_SECOND_FILE_BYTES };
  for (const name of ["extension", "browser"]) {
    for (const [part, limit] of Object.entries(limits)) {
      it(`keep ${name}${part}.js within ${limit / 1000} kB`, () => {
        const { size } = statSync(join(DIST, `${name}${part}.js`));
        assert.ok(size <= limit, `${name}${part}.js has ${size} bytes.`);
      });
    }
  }

  it("leave what is only said or asked out of the first file of the extension", () => {
    for (const name of ["extension", "browser"]) {
      const first = sourcesOf(name, `${name}.js`, `${name}.modules.js`);
      assert.ok(first.some((path) => path === "src/features/results.ts"));
      assert.deepEqual(
        first.filter((path) => /^src\/(findings\/|service\.ts|engine\/network(Elimination|Solution)\.ts)/.test(path)),
        [],
      );
    }
  });

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
        sourcesOf(name).filter((path) => path.endsWith(".calcs.md")),
        [],
      );
    assert.match(readFileSync(join(__dirname, "../.vscodeignore"), "utf8"), /^!dist\/handbook\/\*\.calcs\.md$/m);
  });

  it("take from mathjs its unit algebra without its matrices", () => {
    const sizes = Object.values(metafile("extension").outputs).flatMap(({ inputs }) => Object.entries(inputs));
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

/** What went into some files of a bundle, or into all of it. */
function sourcesOf(name: string, ...files: readonly string[]): string[] {
  const outputs = Object.entries(metafile(name).outputs).filter(
    ([path]) => files.length === 0 || files.includes(basename(path)),
  );
  return outputs.flatMap(([, { inputs }]) => Object.keys(inputs));
}

/** What a bundle still imports from elsewhere when it runs, each once. */
function importsOf(name: string): string[] {
  const { outputs } = metafile(name);
  const imports = Object.values(outputs).flatMap((output) => output.imports.map(({ path }) => path));
  return [...new Set(imports.filter((path) => !(path in outputs)))].sort();
}
