/**
 * Drives the real workbench as a person would and reads what it draws. One rig serves many tests: starting it takes most of the time of a test
 * run, and a test that opens its own file disturbs no other.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { startBrowser, VIEWPORT } from "./host/browser";
import { artifactsFolder, projectFolder } from "./host/machine";
import { prepareHost } from "./host/prepareHost";
import { EditorServer } from "./host/server";
import { type DrawnLine, drawnLines, middleOf, paste, type Point, type Squiggle, squiggles } from "./inPage";

export type Theme = "light" | "dark" | "highContrast" | "highContrastLight";
export type Settings = Readonly<Record<string, unknown>>;

export interface RigOptions {
  /** The folder whose copy becomes the workspace, so that tests may edit it; without one the workspace is empty. */
  readonly folder?: string;
  /** The folder of the extension under test; this project's own by default. */
  readonly extension?: string;
  /** `web` runs the browser bundle in a web worker, `workspace` the Node bundle in the extension host (the default). */
  readonly kind?: "web" | "workspace";
  readonly settings?: Settings;
  readonly theme?: Theme;
  /** Opens the workspace untrusted, in the editor's restricted mode. */
  readonly restricted?: boolean;
}

/** The editor's own themes: their names in the settings, and the files that the workbench names as a class when they are in force. */
const THEMES: Readonly<Record<Theme, { readonly name: string; readonly file: string }>> = {
  light: { name: "Default Light Modern", file: "light_modern" },
  dark: { name: "Default Dark Modern", file: "dark_modern" },
  highContrast: { name: "Default High Contrast", file: "hc_black" },
  highContrastLight: { name: "Default High Contrast Light", file: "hc_light" },
};

const QUIET_SETTINGS: Settings = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "files.autoSave": "off",
  "extensions.ignoreRecommendations": true,
  "editor.hover.delay": 100,
  "security.workspace.trust.startupPrompt": "never",
};

/** The host lacks its native modules and its own service worker; it says so, and nothing that is tested needs them. */
const HOST_NOISE =
  /spdlog|watchdog|Failed to load resource|[Ss]ervice ?[Ww]orker|when fetching the script|Please consult the log/;

const EDITOR = ".editor-group-container.active .editor-container .monaco-editor";

/** A loaded machine may need many seconds for the first activation; a value that comes later than this will not come. */
const PATIENCE_MS = 30_000;
/** An answer of the workbench that did not come by now will only come if it is asked for again. */
const RETRY_AFTER_MS = 2_000;

export class Rig {
  static async start(options: RigOptions = {}): Promise<Rig> {
    const host = prepareHost();
    const folder = join(mkdtempSync(join(tmpdir(), "copperbook-workspace-")), basename(options.folder ?? "notes"));
    mkdirSync(folder);
    if (options.folder) cpSync(options.folder, folder, { recursive: true });
    const { kind = "workspace", theme = "light", restricted = false } = options;
    const extension = options.extension ?? installed(dirname(folder));
    const settings = {
      ...QUIET_SETTINGS,
      "workbench.colorTheme": THEMES[theme].name,
      "remote.extensionKind": { [identifier(extension)]: [kind] },
      ...options.settings,
    };
    const server = await EditorServer.start(host, { settings, restricted });
    const browser = await startBrowser(host);
    const page = await browser.newPage({ viewport: VIEWPORT });
    // The TypeScript loader names functions through this helper, also those that are sent to the page.
    await page.addInitScript("globalThis.__name = (named) => named;");
    const rig = new Rig(page, folder, browser, server);
    page.on("console", (message) => {
      if (message.type() === "error" && !HOST_NOISE.test(message.text())) rig.errors.push(message.text());
    });
    await page.goto(server.address({ folder, extension }));
    await page.locator(".monaco-workbench .part.statusbar").waitFor({ timeout: PATIENCE_MS });
    await rig.themeIs(theme);
    return rig;
  }

  /** What the workbench and the extension wrote to the console as errors, without the noise of the host itself. */
  readonly errors: string[] = [];

  private changedSettings: Settings = {};

  private constructor(
    /** The page with the workbench, for what the rig does not offer. */
    readonly page: Page,
    /** The workspace: a copy that goes when the rig closes. */
    readonly folder: string,
    private readonly browser: Browser,
    private readonly server: EditorServer,
  ) {}

  async close(): Promise<void> {
    await this.browser.close();
    await this.server.stop();
    rmSync(dirname(this.folder), { recursive: true, force: true });
  }

  // Files

  /** Opens a file of the workspace, by its path in it, and waits until its text is drawn. The full path spares the editor a search. */
  async openFile(path: string): Promise<void> {
    await this.retry(`open ${path}`, async () => {
      await this.quickInput("Control+P", join(this.folder, path));
      await this.quickInputRow(basename(path)).first().click({ timeout: RETRY_AFTER_MS });
      await this.tab(basename(path)).waitFor({ timeout: RETRY_AFTER_MS });
      await this.page.locator(`${EDITOR} .view-line`).first().waitFor({ timeout: RETRY_AFTER_MS });
    });
  }

  /** The text of a workspace file on disk. */
  readFile(path: string): string {
    return readFileSync(join(this.folder, path), "utf8");
  }

  /** Writes a workspace file behind the editor's back. */
  writeFile(path: string, text: string): void {
    mkdirSync(dirname(join(this.folder, path)), { recursive: true });
    writeFileSync(join(this.folder, path), text);
  }

  /** Saves the active file and waits until it is on disk. */
  async save(): Promise<void> {
    await this.page.keyboard.press("Control+S");
    await this.page.locator(".editor-group-container.active .tab.active.dirty").waitFor({ state: "detached" });
  }

  // Reading the active editor

  /** The lines on the screen; lines that are scrolled out are not among them. */
  lines(): Promise<DrawnLine[]> {
    return this.page.evaluate(drawnLines, EDITOR);
  }

  /** The text of a line, counted from 1, scrolled into view if need be. */
  async text(line: number): Promise<string> {
    return (await this.line(line)).text;
  }

  /** Waits until the text of a line, without its indent, is this. */
  async waitForText(line: number, expected: string): Promise<void> {
    let text = "";
    await this.waitUntil(
      async () => (text = (await this.text(line)).trim()) === expected,
      () => `line ${line} is “${text}”, not “${expected}”`,
    );
  }

  /** What decorations put beside a line, from left to right. */
  async beside(line: number): Promise<string[]> {
    return (await this.line(line)).beside.map((attachment) => attachment.text);
  }

  /** Waits until what stands beside a line matches, and gives it, several pieces joined by a space. */
  async waitForBeside(line: number, expected: string | RegExp): Promise<string> {
    let shown = "";
    await this.waitUntil(
      async () => matches((shown = (await this.beside(line)).join(" ").trim()), expected),
      () => `beside line ${line} stands “${shown}”, not ${expected}`,
    );
    return shown;
  }

  /** The line with its decorations and their look. */
  async line(line: number): Promise<DrawnLine> {
    const drawn = (await this.lines()).find((one) => one.line === line);
    if (drawn !== undefined) return drawn;
    await this.goTo(line);
    const revealed = (await this.lines()).find((one) => one.line === line);
    if (revealed === undefined) throw new Error(`Line ${line} is not drawn.`);
    return revealed;
  }

  /** The underlines on the screen. */
  squiggles(): Promise<Squiggle[]> {
    return this.page.evaluate(squiggles, EDITOR);
  }

  /** Waits until the underlines are as many as this on a line. */
  async waitForSquiggles(line: number, count: number): Promise<void> {
    let found: Squiggle[] = [];
    await this.waitUntil(
      async () => (found = (await this.squiggles()).filter((one) => one.line === line)).length === count,
      () => `line ${line} has ${found.length} underlines, not ${count}`,
    );
  }

  // Acting in the active editor

  /** Puts the caret at a line and column, both counted from 1. */
  async goTo(line: number, column = 1): Promise<void> {
    await this.retry(`go to line ${line}`, async () => {
      await this.quickInput("Control+G", `:${line}:${column}`);
      await this.page.keyboard.press("Enter");
      await this.page.locator(".quick-input-widget").waitFor({ state: "hidden", timeout: RETRY_AFTER_MS });
      await this.waitUntil(
        async () => (await this.lines()).some((one) => one.line === line),
        () => `line ${line} does not come into view`,
        RETRY_AFTER_MS,
      );
      await this.page.locator(`${EDITOR}.focused`).waitFor({ timeout: RETRY_AFTER_MS });
      await this.waitUntil(
        async () => (await this.statusBar()).some((text) => text.startsWith(`Ln ${line}, `)),
        () => `the caret does not come to line ${line}`,
        RETRY_AFTER_MS,
      );
    });
  }

  /** Puts the caret behind the last character of a line. */
  async goToEnd(line: number): Promise<void> {
    await this.goTo(line);
    await this.page.keyboard.press("End");
  }

  /** Replaces the whole text of the active editor, as by pasting, which leaves the indent alone, and waits until it is drawn. */
  async setText(text: string): Promise<void> {
    await this.retry("set the text", async () => {
      await this.goTo(1);
      await this.page.keyboard.press("Control+A");
      await this.page.evaluate(paste, text);
      const lines = text.split("\n").map((line) => line.trimEnd());
      await this.waitUntil(
        async () =>
          (await this.lines()).filter((one, index) => one.text.trimEnd() === lines[index]).length === lines.length,
        () => "the text is not drawn",
        RETRY_AFTER_MS,
      );
    });
  }

  /** Types as a person does, key by key: the editor indents, closes brackets and offers completions. */
  async type(text: string): Promise<void> {
    await this.page.keyboard.type(text, { delay: 15 });
  }

  /** Puts a text in at the caret in one edit, without the help that typing gets. */
  async insert(text: string): Promise<void> {
    await this.page.keyboard.insertText(text);
  }

  /** Presses a key or a chord, such as `Control+Z`. */
  async press(key: string): Promise<void> {
    await this.page.keyboard.press(key);
  }

  /** Hovers over a text, on the given line or where it is drawn first, until the hover contains what is expected; gives all of it. */
  async hover(text: string, expected: string | RegExp, line?: number): Promise<string> {
    const content = this.page.locator(".monaco-hover:not(.hidden) .hover-contents");
    let shown = "";
    await this.retry(`hover over ${text}`, async () => {
      const point = await this.pointOf(text, line);
      await this.page.mouse.move(point.x - 30, point.y + 60);
      await this.page.mouse.move(point.x, point.y, { steps: 5 });
      // The first frame says “Loading…”.
      await this.waitUntil(
        async () => matches((shown = (await content.allInnerTexts()).join("\n").replace(/\u00a0/g, " ")), expected),
        () => `the hover over “${text}” says “${shown}”, not ${expected}`,
        RETRY_AFTER_MS,
      );
    });
    return shown;
  }

  /** Takes the mouse off the text, so that the hover goes. */
  async leaveHover(): Promise<void> {
    await this.page.mouse.move(VIEWPORT.width - 5, VIEWPORT.height - 60);
    await this.page.keyboard.press("Escape");
    await this.page.locator(".monaco-hover:not(.hidden) .hover-contents").first().waitFor({ state: "hidden" });
  }

  /** The titles that the quick-fix key offers at a text, once one of them contains what is expected. The menu stays open. */
  async quickFixes(text: string, expected: string, line?: number): Promise<string[]> {
    const rows = this.page.locator(".action-widget .monaco-list-row.action");
    await this.retry(`quick fix at ${text}`, async () => {
      await this.page.keyboard.press("Escape");
      const point = await this.pointOf(text, line);
      await this.page.mouse.click(point.x, point.y);
      // Right after the caret has moved the answer can still be “No code actions available”, hence the retry.
      await this.page.keyboard.press("Control+.");
      await rows.filter({ hasText: expected }).first().waitFor({ timeout: RETRY_AFTER_MS });
    });
    return (await rows.allInnerTexts()).map((title) => title.replace(/\u00a0/g, " ").trim());
  }

  /** Applies the quick fix whose title contains this. */
  async applyQuickFix(text: string, title: string, line?: number): Promise<void> {
    const offered = await this.quickFixes(text, title, line);
    // The keyboard, because the menu lies under a layer that catches the mouse.
    const focused = this.page.locator(".action-widget .monaco-list-row.action.focused", { hasText: title });
    for (let step = 0; step < offered.length && !(await focused.isVisible()); step++) await this.press("ArrowDown");
    await this.press("Enter");
    await this.page.locator(".action-widget").waitFor({ state: "hidden" });
  }

  /** The labels that completion offers at the caret, once one of them starts with what is expected. The list stays open. */
  async completions(expected: string): Promise<string[]> {
    const labels = this.page.locator(".suggest-widget.visible .monaco-list-row .label-name");
    await this.retry(`completion of ${expected}`, async () => {
      if ((await labels.count()) === 0) await this.page.keyboard.press("Control+Space");
      await labels.filter({ hasText: expected }).first().waitFor({ timeout: RETRY_AFTER_MS });
    });
    return labels.allInnerTexts();
  }

  // The workbench around the editor

  /** Runs a command by its title, as the command palette shows it. */
  async runCommand(title: string): Promise<void> {
    await this.retry(`command ${title}`, async () => {
      await this.quickInput("F1", `>${title}`);
      await this.quickInputRow(title).first().click({ timeout: RETRY_AFTER_MS });
    });
  }

  /** What stands in the status bar, from left to right. */
  async statusBar(): Promise<string[]> {
    const items = await this.page.locator(".part.statusbar .statusbar-item").allInnerTexts();
    return items.map((text) => text.replace(/\s+/g, " ").trim()).filter((text) => text !== "");
  }

  /** Waits until an entry of the status bar matches, and gives it. */
  async waitForStatus(expected: string | RegExp): Promise<string> {
    let found: string | undefined;
    let all: string[] = [];
    await this.waitUntil(
      async () => (found = (all = await this.statusBar()).find((text) => matches(text, expected))) !== undefined,
      () => `the status bar shows ${all.join(" | ")}, not ${expected}`,
    );
    return found!;
  }

  /**
   * The rows of the problems list, opened if need be: files and their problems, top to bottom. Of one file where it is
   * named, since only rows in view are there.
   */
  async problems(expected: string | RegExp, file = ""): Promise<string[]> {
    const list = this.page.locator(".markers-panel-container");
    if (!(await list.isVisible())) await this.page.keyboard.press("Control+Shift+M");
    await this.page.getByPlaceholder(/^Filter \(e\.g\./).fill(file);
    let rows: string[] = [];
    await this.waitUntil(
      async () => {
        const texts = await list.locator(".monaco-list-row").allInnerTexts();
        rows = texts.map((text) => text.replace(/[\s\u00a0]+/g, " ").trim());
        return rows.some((row) => matches(row, expected));
      },
      () => `the problems list shows ${rows.join(" | ")}, not ${expected}`,
    );
    return rows;
  }

  /** Waits for a notification that contains this, and gives its text. */
  async notification(expected: string): Promise<string> {
    const message = this.page.locator(".notification-list-item-message", { hasText: expected }).first();
    await message.waitFor({ timeout: PATIENCE_MS });
    return message.innerText();
  }

  /** Changes settings while the workbench runs: those of the workspace, since this host reads those of the user only at its start. */
  setSettings(changes: Settings): void {
    this.changedSettings = { ...this.changedSettings, ...changes };
    this.writeFile(".vscode/settings.json", JSON.stringify(this.changedSettings, null, 2));
  }

  async setTheme(theme: Theme): Promise<void> {
    this.setSettings({ "workbench.colorTheme": THEMES[theme].name });
    await this.themeIs(theme);
  }

  /** Keeps a picture of the workbench as `.artifacts/editor/NAME.png` and gives its path. */
  async screenshot(name: string): Promise<string> {
    const path = join(artifactsFolder, "editor", `${name}.png`);
    mkdirSync(dirname(path), { recursive: true });
    await this.page.screenshot({ path });
    return path;
  }

  /** Waits until a condition holds; the complaint says what was found instead. */
  async waitUntil(holds: () => Promise<boolean>, complaint: () => string, patience = PATIENCE_MS): Promise<void> {
    const end = Date.now() + patience;
    while (!(await holds())) {
      if (Date.now() > end) throw new Error(`After ${patience} ms ${complaint()}.`);
      await this.page.waitForTimeout(50);
    }
  }

  private async themeIs(theme: Theme): Promise<void> {
    const inForce = this.page.locator(`.monaco-workbench[class*="-themes-${THEMES[theme].file}-json"]`);
    await inForce.waitFor({ timeout: PATIENCE_MS });
  }

  private async pointOf(text: string, line?: number): Promise<Point> {
    if (line !== undefined) await this.line(line);
    const point = await this.page.evaluate(middleOf, [EDITOR, text, line] as [string, string, number | undefined]);
    if (point === undefined) throw new Error(`“${text}” is not drawn${line === undefined ? "" : ` on line ${line}`}.`);
    return point;
  }

  /** Tries until it succeeds: the workbench drops a key now and then while it loads. */
  private async retry(what: string, attempt: () => Promise<void>): Promise<void> {
    const end = Date.now() + PATIENCE_MS;
    for (;;) {
      try {
        return await attempt();
      } catch (error) {
        if (Date.now() > end) {
          await this.screenshot(`failed ${what.replace(/[^\w.]+/g, " ")}`);
          throw new Error(`Could not ${what}: ${(error as Error).message}`, { cause: error });
        }
      }
    }
  }

  /** Opens one of the boxes at the top of the workbench and fills it in. */
  private async quickInput(key: string, text: string): Promise<void> {
    const input = this.page.locator(".quick-input-widget input[type=text]").first();
    await this.page.keyboard.press(key);
    await input.fill(text, { timeout: RETRY_AFTER_MS });
  }

  private quickInputRow(text: string): Locator {
    return this.page.locator(".quick-input-list .monaco-list-row", { hasText: text });
  }

  private tab(name: string): Locator {
    return this.page.locator(".editor-group-container.active .tab.active", { hasText: name });
  }
}

/**
 * This project's extension, as it would be installed: what is shipped of it, in a folder of its own. The project's folder itself will
 * not do, since the editor that lies inside would take its own extensions for ones that are being developed.
 */
function installed(place: string): string {
  const folder = join(place, "extension");
  for (const part of ["package.json", "dist", "syntaxes", "media"])
    cpSync(join(projectFolder, part), join(folder, part), { recursive: true });
  return folder;
}

/** The identifier of the extension in a folder, which settings know it by. */
function identifier(extension: string): string {
  const { publisher, name } = JSON.parse(readFileSync(join(extension, "package.json"), "utf8"));
  return `${publisher}.${name}`;
}

function matches(text: string, expected: string | RegExp): boolean {
  return typeof expected === "string" ? text.includes(expected) : expected.test(text);
}
