/**
 * Bundles the two faces of the extension and the command line into `dist/`, and puts the handbook beside them: its
 * chapters are read when a note mentions them, so that one that nobody uses costs nothing.
 *
 * Each face of the extension is two files. The first has all that values beside lines need and is read at activation; the
 * second, `NAME.answers.js`, has all else that is said and asked, and is read once the first values are shown. What both need
 * stands in the first, which hands it to the second as `modules`. esbuild splits code for ES modules only, which the host
 * in a page does not run; so it is split as such and then bundled once more, as CommonJS.
 *
 *     node esbuild.mjs [--production] [--watch] [NAME…]
 */
import { chmod, cp, mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { basename } from "node:path";
import { build, context } from "esbuild";

const SHEBANG = "#!/usr/bin/env node";
const ANSWERS = "src/extension/answers.ts";

/** What each bundle is: where it starts, what it runs on, and what that provides. */
const BUNDLES = {
  extension: { entry: "src/extension/node/main.ts", answers: ANSWERS, platform: "node", external: ["vscode"] },
  browser: { entry: "src/extension/browser/main.ts", answers: ANSWERS, platform: "browser", external: ["vscode"] },
  cli: { entry: "src/cli/main.ts", platform: "node", external: [], executable: true },
};

const flags = new Set(process.argv.slice(2).filter((argument) => argument.startsWith("--")));
const names = process.argv.slice(2).filter((argument) => !argument.startsWith("--"));
const production = flags.has("--production");
const watch = flags.has("--watch");

for (const flag of flags) if (flag !== "--production" && flag !== "--watch") fail(`There is no option ${flag}.`);
for (const name of names)
  if (!(name in BUNDLES)) fail(`There is no bundle ${name}: ${Object.keys(BUNDLES).join(", ")}.`);

const COMMON = {
  bundle: true,
  target: "es2022",
  charset: "utf8", // Escapes would be longer, and every host reads UTF-8.
  define: { "process.env.NODE_ENV": production ? '"production"' : '"development"' },
  minify: production,
  legalComments: "none",
  logLevel: "warning",
};

if (names.length === 0) await rm("dist", { recursive: true, force: true });
await mkdir("dist", { recursive: true });
await cp("src/handbook", "dist/handbook", { recursive: true, filter: (path) => !path.endsWith(".ts") });
for (const name of names.length > 0 ? names : Object.keys(BUNDLES)) await bundle(name, BUNDLES[name]);

async function bundle(name, about) {
  const { entry, platform, external } = about;
  const finish = (result) => (result.errors.length > 0 ? undefined : finishBundle(name, about, result));
  const options = {
    ...COMMON,
    ...(about.answers ? splitting(name, about) : whole(name, about)),
    platform,
    external,
    metafile: true,
    plugins: [{ name: "finish", setup: (build) => build.onEnd(finish) }],
  };
  try {
    if (watch) await (await context(options)).watch();
    else await build(options);
  } catch {
    fail(`${entry} could not be bundled.`); // esbuild has printed why.
  }
}

/** One file of CommonJS, as plain Node loads it. */
function whole(name, { entry }) {
  return {
    entryPoints: [entry],
    outfile: `dist/${name}.js`,
    format: "cjs",
    sourcemap: production ? false : "linked",
  };
}

/** ES modules, in memory: what only the one or the other file needs, and what both do. */
function splitting(name, { entry, answers }) {
  return {
    entryPoints: { [name]: entry, [`${name}.answers`]: answers },
    outdir: "dist",
    chunkNames: `${name}.modules`,
    format: "esm",
    splitting: true,
    write: false,
    sourcemap: production ? false : "inline",
  };
}

/** Keeps the list of what went into the bundle beside it, makes a program executable and says how large the files are. */
async function finishBundle(name, { answers, external, platform, executable }, { outputFiles, metafile }) {
  if (answers) await joinModules(name, { external, platform }, outputFiles);
  await writeFile(`dist/${name}.meta.json`, JSON.stringify(metafile));
  if (executable) await makeExecutable(`dist/${name}.js`);
  for (const file of answers ? [`${name}.js`, `${name}.answers.js`] : [`${name}.js`])
    console.log(`dist/${file}  ${((await readFile(`dist/${file}`)).length / 1000).toFixed(0)} kB`);
}

/** Writes the two files: the modules that both need go into the first, and are taken from there in the second. */
async function joinModules(name, { external, platform }, outputFiles) {
  const texts = new Map(outputFiles.map(({ path, text }) => [basename(path), text]));
  const modules = `${name}.modules.js`;
  const write = (file, text, plugins) =>
    build({
      ...COMMON,
      stdin: { contents: text, resolveDir: ".", sourcefile: file },
      outfile: `dist/${file}`,
      format: "cjs",
      platform,
      external: [...external, `./${name}.js`],
      sourcemap: production ? false : "linked",
      plugins,
    });
  const first = `import * as modules from "./${modules}"; import { activate as activateWith } from "./${name}.parts.js";
    export { modules }; export const activate = (context) => activateWith(context, modules);`;
  texts.set(`${name}.parts.js`, texts.get(`${name}.js`));
  await write(`${name}.js`, first, [inMemory(texts)]);
  const handed = new Map([[modules, `module.exports = require("./${name}.js").modules;`]]);
  await write(`${name}.answers.js`, texts.get(`${name}.answers.js`), [inMemory(handed)]);
}

/** Modules by their file names, out of memory. */
function inMemory(texts) {
  return {
    name: "in memory",
    setup(build) {
      build.onResolve({ filter: /^\.\// }, ({ path }) =>
        texts.has(basename(path)) ? { path: basename(path), namespace: "memory" } : undefined,
      );
      build.onLoad({ filter: /.*/, namespace: "memory" }, ({ path }) => ({
        contents: texts.get(path),
        resolveDir: ".",
      }));
    },
  };
}

async function makeExecutable(file) {
  const text = await readFile(file, "utf8");
  if (!text.startsWith("#!")) await writeFile(file, `${SHEBANG}\n${text}`);
  await chmod(file, 0o755);
}

function fail(message) {
  console.error(message);
  process.exit(1);
}
