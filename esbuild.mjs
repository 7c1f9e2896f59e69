/**
 * Bundles the two faces of the extension and the command line into `dist/`, and puts the handbook beside them: its
 * chapters are read when a note mentions them, so that one that nobody uses costs nothing.
 *
 *     node esbuild.mjs [--production] [--watch] [NAME…]
 */
import { chmod, cp, mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { build, context } from "esbuild";

const SHEBANG = "#!/usr/bin/env node";

/** What each bundle is: where it starts, what it runs on, and what that provides. */
const BUNDLES = {
  extension: { entry: "src/extension/node/main.ts", platform: "node", external: ["vscode"] },
  browser: { entry: "src/extension/browser/main.ts", platform: "browser", external: ["vscode"] },
  cli: { entry: "src/cli/main.ts", platform: "node", external: [], executable: true },
};

const flags = new Set(process.argv.slice(2).filter((argument) => argument.startsWith("--")));
const names = process.argv.slice(2).filter((argument) => !argument.startsWith("--"));
const production = flags.has("--production");
const watch = flags.has("--watch");

for (const flag of flags) if (flag !== "--production" && flag !== "--watch") fail(`There is no option ${flag}.`);
for (const name of names)
  if (!(name in BUNDLES)) fail(`There is no bundle ${name}: ${Object.keys(BUNDLES).join(", ")}.`);

if (names.length === 0) await rm("dist", { recursive: true, force: true });
await mkdir("dist", { recursive: true });
await cp("src/handbook", "dist/handbook", { recursive: true, filter: (path) => !path.endsWith(".ts") });
for (const name of names.length > 0 ? names : Object.keys(BUNDLES)) await bundle(name, BUNDLES[name]);

async function bundle(name, { entry, platform, external, executable }) {
  const outfile = `dist/${name}.js`;
  const options = {
    entryPoints: [entry],
    outfile,
    platform,
    external,
    bundle: true,
    format: "cjs", // Both extension hosts and plain Node load CommonJS.
    target: "es2022",
    define: { "process.env.NODE_ENV": production ? '"production"' : '"development"' },
    banner: executable && !(await startsWithShebang(entry)) ? { js: SHEBANG } : {},
    minify: production,
    legalComments: "none",
    sourcemap: production ? false : "linked",
    metafile: true,
    logLevel: "warning",
    plugins: [{ name: "finish", setup: (build) => build.onEnd((result) => finish(name, outfile, executable, result)) }],
  };
  try {
    if (watch) await (await context(options)).watch();
    else await build(options);
  } catch {
    fail(`${entry} could not be bundled.`); // esbuild has printed why.
  }
}

async function startsWithShebang(entry) {
  return (await readFile(entry, "utf8").catch(() => "")).startsWith("#!");
}

/** Keeps the list of what went into the bundle beside it, makes a program executable and says how large the result is. */
async function finish(name, outfile, executable, result) {
  if (result.errors.length > 0) return;
  await writeFile(`dist/${name}.meta.json`, JSON.stringify(result.metafile));
  if (executable) await chmod(outfile, 0o755);
  console.log(`${outfile}  ${(result.metafile.outputs[outfile].bytes / 1000).toFixed(0)} kB`);
}

function fail(message) {
  console.error(message);
  process.exit(1);
}
