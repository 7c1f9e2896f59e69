#!/usr/bin/env node
// An executable file, because @vscode/test-electron starts the editor as a program.
require("tsx/cjs");
void require("./launchEditor.ts").launchEditor(process.argv.slice(2));
