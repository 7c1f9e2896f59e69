/** The Chromium that shows the workbench, without a window. */
import { type Browser, chromium } from "playwright-core";
import type { Host } from "./prepareHost";

const ARGUMENTS = [
  "--no-sandbox", // As root, in a container, Chromium does not start with its sandbox.
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-quic",
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", // The page reaches nothing but this machine.
];

export function startBrowser(host: Host): Promise<Browser> {
  return chromium.launch({ executablePath: host.browser, args: ["--headless=new", ...ARGUMENTS] });
}

/** The size of every page, so that screenshots compare. */
export const VIEWPORT = { width: 1280, height: 800 };
