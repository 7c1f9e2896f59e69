import { createRequire } from "node:module";
import type { ExtensionContext } from "vscode";
import { activateWith, type AnswersFile } from "../activate";

export function activate(context: ExtensionContext): Promise<void> {
  const require = createRequire(__filename);
  return activateWith(context, () => Promise.resolve(require("./extension.answers.js") as AnswersFile));
}
