/**
 * `npm run bench`: bundles the benchmark as the extension is bundled, whole mathjs for the reference with it, and runs it. What
 * is measured is what is shipped: modules that are loaded one by one call each other more slowly.
 */
import { execFileSync } from "node:child_process";
import { resolve } from "node:path";
import { build } from "esbuild";

const FOLDER = ".artifacts/bench";

await build({
  entryPoints: ["run", "coldNote", "coldMathjs"].map((name) => `test/bench/${name}.ts`),
  outdir: FOLDER,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "es2022",
  minify: true,
  logLevel: "warning",
});
execFileSync(process.execPath, [resolve(FOLDER, "run.js")], { stdio: "inherit" });
