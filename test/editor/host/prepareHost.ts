/**
 * Prepares a real editor for a machine without a desktop build of it: the open-source server build of the editor, as the npm package
 * `code-server` carries it, and a Chromium that shows its workbench.
 *
 * Everything comes from the npm registry and, where Chromium or ripgrep is missing, from Debian. Nothing of what is downloaded runs an install
 * script, so no compiler is needed; the price is a host without terminals, which no note needs.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { hostFolder, onPath, run } from "./machine";

/** The last version that runs on Node 20; its editor is 1.100, the oldest that the manifest admits. */
const EDITOR = {
  package: "code-server",
  version: "4.100.3",
  integrity: "sha512-q/Fh2DOxCRNhC/WiG/6sAhSKnj7ZACTVBaeeZ+rWjol//0FCbl/qg1ln5ecZ99jYcfqMxZZAyWcN+YBIo0DgpA==",
};

const BROWSERS = ["chromium", "chromium-browser", "google-chrome"];

/** What a test needs to open the workbench. */
export interface Host {
  /** The folder with the editor's `out/server-main.js`. */
  readonly editor: string;
  /** The Chromium executable. */
  readonly browser: string;
}

/** Makes the host ready and says where it is; a second or less when it is there already. */
export function prepareHost(): Host {
  installDebianPackages();
  const editor = join(hostFolder, `editor-${EDITOR.version}`);
  if (!existsSync(editor)) {
    const partial = `${editor}.partial-${process.pid}`;
    try {
      unpackEditor(partial);
      installEditorDependencies(partial);
      renameSync(partial, editor);
    } finally {
      rmSync(partial, { recursive: true, force: true });
    }
  }
  return { editor, browser: findBrowser()! };
}

function findBrowser(): string | undefined {
  return process.env.COPPERBOOK_CHROMIUM ?? BROWSERS.map(onPath).find((path) => path !== undefined);
}

function installDebianPackages(): void {
  const missing: string[] = [];
  if (findBrowser() === undefined) missing.push("chromium");
  if (onPath("rg") === undefined) missing.push("ripgrep");
  if (missing.length === 0) return;
  if (onPath("apt-get") === undefined || process.getuid?.() !== 0) {
    throw new Error(`The editor host needs ${missing.join(" and ")}: install it, or run this as root on Debian.`);
  }
  console.log(`Installing ${missing.join(" and ")} …`);
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  run("apt-get", ["update", "-qq"], { env });
  run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", ...missing], { env, quiet: true });
}

/** Only the editor inside the package is wanted: its own server around it would build native modules. */
function unpackEditor(folder: string): void {
  console.log(`Fetching the editor (${EDITOR.package} ${EDITOR.version}) …`);
  mkdirSync(folder, { recursive: true });
  run("npm", ["pack", "--silent", `${EDITOR.package}@${EDITOR.version}`, "--pack-destination", folder], {
    quiet: true,
  });
  const archive = join(folder, `${EDITOR.package}-${EDITOR.version}.tgz`);
  const integrity = `sha512-${createHash("sha512").update(readFileSync(archive)).digest("base64")}`;
  if (integrity !== EDITOR.integrity)
    throw new Error(`${archive} is not the expected file: its integrity is ${integrity}.`);
  run("tar", ["-xzf", archive, "-C", folder, "--strip-components=3", "--exclude=*.map", "package/lib/vscode"]);
  rmSync(archive);
}

function installEditorDependencies(folder: string): void {
  console.log("Installing the editor's own dependencies …");
  // The editor's lock file lacks one peer (tslib), which a plain `npm ci` refuses.
  const options = ["--legacy-peer-deps", "--ignore-scripts", "--omit=dev", "--no-audit", "--no-fund"];
  run("npm", ["ci", "--silent", ...options], { cwd: folder, quiet: true });
  // The editor looks for files with the ripgrep of a package whose install script would download it.
  const bin = join(folder, "node_modules/@vscode/ripgrep/bin");
  mkdirSync(bin, { recursive: true });
  rmSync(join(bin, "rg"), { force: true });
  symlinkSync(onPath("rg")!, join(bin, "rg"));
  writeFileSync(join(folder, ".gitignore"), "*\n");
}

if (require.main === module) {
  const host = prepareHost();
  console.log(`The editor host is ready: ${host.editor}, shown by ${host.browser}.`);
}
