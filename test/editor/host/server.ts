/** The editor's server: serves the workbench on this machine only and runs the extension host. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Host } from "./prepareHost";

/** Empty addresses keep the editor from asking any gallery. */
const NO_GALLERY = JSON.stringify({
  serviceUrl: "",
  itemUrl: "",
  resourceUrlTemplate: "",
  controlUrl: "",
  recommendationsUrl: "",
});

/** A cold start takes a few seconds; ten times that means that it hangs. */
const START_LIMIT_MS = 60_000;
/** How long the server may take to close its children before they are ended. */
const STOP_LIMIT_MS = 4_000;

export interface ServerOptions {
  /** 0 lets the system choose. */
  readonly port?: number;
  /** The user settings. */
  readonly settings?: Readonly<Record<string, unknown>>;
  readonly env?: NodeJS.ProcessEnv;
  /** Leaves workspaces untrusted: what is opened is in restricted mode. */
  readonly restricted?: boolean;
}

/** What the page is to open. */
export interface WorkbenchAddress {
  /** The folder that is the workspace; none opens an empty window. */
  readonly folder?: string;
  /** The folder of the extension that is being developed. */
  readonly extension?: string;
  /** The file that is open at the start, as `path:line`. */
  readonly place?: string;
  /** The module that the extension host runs as a test suite. */
  readonly suite?: string;
}

export class EditorServer {
  static async start(host: Host, options: ServerOptions = {}): Promise<EditorServer> {
    const home = mkdtempSync(join(tmpdir(), "copperbook-editor-"));
    const server = new EditorServer(home, spawnServer(host, home, options));
    try {
      await server.listening;
    } catch (error) {
      await server.stop();
      throw error;
    }
    return server;
  }

  port = 0;
  private output = "";
  private readonly listening: Promise<void>;

  private constructor(
    private readonly home: string,
    private readonly process: ChildProcess,
  ) {
    this.listening = new Promise((listens, fails) => {
      const read = (data: Buffer): void => {
        this.output += data.toString();
        const port = /agent listening on (\d+)/.exec(this.output);
        if (port === null) return;
        this.port = Number(port[1]);
        listens();
      };
      this.process.stdout!.on("data", read);
      this.process.stderr!.on("data", read);
      this.process.on("exit", (code) => fails(new Error(`The editor's server ended with ${code}.\n${this.output}`)));
      setTimeout(
        () => fails(new Error(`The editor's server does not listen.\n${this.output}`)),
        START_LIMIT_MS,
      ).unref();
    });
  }

  /** What the server has written so far. */
  get log(): string {
    return this.output;
  }

  onExit(listener: () => void): void {
    this.process.on("exit", listener);
  }

  /** The address of a workbench: the query that the editor's own integration tests use. */
  address(what: WorkbenchAddress): string {
    const url = new URL(`http://127.0.0.1:${this.port}/`);
    if (what.folder) url.searchParams.set("folder", resolve(what.folder));
    else url.searchParams.set("ew", "true");
    const payload: [string, string][] = [
      ["skipWelcome", "true"],
      ["skipReleaseNotes", "true"],
    ];
    if (what.extension) payload.push(["extensionDevelopmentPath", this.remote(what.extension)]);
    if (what.place) payload.push(["openFile", this.remote(what.place)], ["gotoLineMode", "true"]);
    if (what.suite) payload.push(["extensionTestsPath", this.remote(what.suite)]);
    url.searchParams.set("payload", JSON.stringify(payload));
    return url.toString();
  }

  async stop(): Promise<void> {
    const running = this.process.exitCode === null && this.process.signalCode === null;
    const ended = running ? new Promise((done) => this.process.once("exit", done)) : undefined;
    this.signal("SIGTERM");
    const patience = setTimeout(() => this.signal("SIGKILL"), STOP_LIMIT_MS);
    await ended;
    clearTimeout(patience);
    this.signal("SIGKILL");
    rmSync(this.home, { recursive: true, force: true, maxRetries: 5 });
  }

  private remote(path: string): string {
    return `vscode-remote://127.0.0.1:${this.port}${encodeURI(resolve(path))}`;
  }

  /** Reaches the whole process group: server, extension host and file watchers. */
  private signal(name: NodeJS.Signals): void {
    try {
      process.kill(-this.process.pid!, name);
    } catch {
      // The group is gone already, which is what was wanted.
    }
  }
}

function spawnServer(host: Host, home: string, options: ServerOptions): ChildProcess {
  const folders = { server: join(home, "server"), user: join(home, "user"), extensions: join(home, "extensions") };
  for (const folder of [folders.server, join(folders.user, "User"), folders.extensions]) {
    mkdirSync(folder, { recursive: true });
  }
  writeFileSync(join(folders.user, "User/settings.json"), JSON.stringify(options.settings ?? {}, null, 2));
  const args = [
    ...["--require", join(__dirname, "leaveWithParent.cjs"), join(host.editor, "out/server-main.js")],
    ...["--host", "127.0.0.1", "--port", String(options.port ?? 0), "--without-connection-token"],
    ...["--server-data-dir", folders.server, "--user-data-dir", folders.user, "--extensions-dir", folders.extensions],
    ...["--accept-server-license-terms", "--disable-telemetry", "--telemetry-level", "off"],
    ...["--force-disable-user-env", "--enable-smoke-test-driver"],
    ...(options.restricted ? [] : ["--disable-workspace-trust"]),
  ];
  return spawn(process.execPath, args, {
    stdio: ["ignore", "pipe", "pipe"],
    detached: true,
    env: { EXTENSIONS_GALLERY: NO_GALLERY, ...process.env, ...options.env },
  });
}
