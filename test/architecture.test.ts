import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { preProcessFile } from "typescript";

interface Room {
  /** The rooms above it that it may import. */
  readonly rooms: readonly string[];
  /** The packages that it may import; a pattern ends in `*`. */
  readonly packages?: readonly string[];
  /** Where siblings do not import each other: the files that all of them may import, and those that collect them. */
  readonly siblings?: { readonly shared: readonly string[]; readonly collectors: readonly string[] };
}

const UP_TO_ENGINE = ["text", "note", "syntax", "quantity", "engine"];
const UP_TO_PHRASES = [...UP_TO_ENGINE, "phrases"];
const UP_TO_FEATURES = [...UP_TO_PHRASES, "handbook", "fabrication", "findings", "features"];

/** The house, from the ground up. A room that is a single file is named without its ending. */
const HOUSE: Readonly<Record<string, Room>> = {
  text: { rooms: [] },
  note: { rooms: ["text"], packages: ["papaparse"] },
  syntax: { rooms: ["text"] },
  quantity: { rooms: [], packages: ["mathjs"] },
  engine: { rooms: ["text", "note", "syntax", "quantity"], packages: ["fastest-levenshtein"] },
  handbook: { rooms: [] },
  fabrication: { rooms: ["quantity"] },
  phrases: { rooms: UP_TO_ENGINE },
  findings: { rooms: UP_TO_PHRASES, siblings: { shared: ["finding.ts", "fixing.ts"], collectors: ["catalogue.ts"] } },
  features: { rooms: UP_TO_PHRASES, siblings: { shared: ["feature.ts"], collectors: [] } },
  heldNotes: { rooms: UP_TO_FEATURES },
  service: { rooms: [...UP_TO_FEATURES, "heldNotes"] },
  report: { rooms: ["service"], packages: ["markdown-it"] },
  cli: { rooms: ["phrases", "service", "report", "package.json"], packages: ["node:*"] },
  extension: { rooms: ["heldNotes", "service", "report"], packages: ["vscode"] },
  "extension/node": { rooms: ["heldNotes", "service", "report", "extension"], packages: ["vscode", "node:*"] },
  "extension/browser": { rooms: ["heldNotes", "service", "report", "extension"], packages: ["vscode"] },
};

describe("the house", () => {
  it("has every import go up its list", () => {
    const sources = new Map(sourceFiles().map((path) => [path, readFileSync(join(SOURCE, path), "utf8")]));
    assert.ok(sources.size > 0);
    assert.deepEqual(breaches(sources), []);
  });

  const forbidden: readonly [reason: string, path: string, text: string, breach: string][] = [
    ["a lower room", "text/span.ts", 'import { parse } from "../syntax/parse";', "text/span.ts imports syntax/parse"],
    [
      "a type of it",
      "note/line.ts",
      'import type { Unit } from "../quantity/unit";',
      "note/line.ts imports quantity/unit",
    ],
    ["a re-export", "text/span.ts", 'export * from "../note/line";', "text/span.ts imports note/line"],
    ["an import at run time", "text/span.ts", 'void import("../note/line");', "text/span.ts imports note/line"],
    ["the service", "findings/cycle.ts", 'import { open } from "../service";', "findings/cycle.ts imports service"],
    [
      "a core room from the editor",
      "extension/hover.ts",
      'import "../engine/note";',
      "extension/hover.ts imports engine/note",
    ],
    ["a sibling", "findings/cycle.ts", 'import "./unknownName";', "findings/cycle.ts imports findings/unknownName"],
    ["the other trade", "features/hover.ts", 'import "../findings/cycle";', "features/hover.ts imports findings/cycle"],
    ["the editor's API", "service.ts", 'import * as vscode from "vscode";', "service.ts imports vscode"],
    ["Node", "extension/main.ts", 'import { join } from "node:path";', "extension/main.ts imports node:path"],
    ["Node by another name", "engine/note.ts", 'import { readFileSync } from "fs";', "engine/note.ts imports fs"],
    [
      "Node's half",
      "extension/browser/main.ts",
      'import "../node/files";',
      "extension/browser/main.ts imports extension/node/files",
    ],
    ["mathjs", "engine/tape.ts", 'import { unit } from "mathjs";', "engine/tape.ts imports mathjs"],
    ["no known room", "misc/thing.ts", "", "misc/thing.ts is in no room"],
  ];
  for (const [reason, path, text, breach] of forbidden) {
    it(`refuses ${reason}: ${breach}`, () => assert.deepEqual(breaches(new Map([[path, text]])), [breach]));
  }

  it("allows what the list allows", () => {
    const allowed = {
      "engine/tape.ts": 'import { type Span } from "../text/span"; import "./arena";',
      "findings/cycle.ts": 'import type { Finding } from "./finding";',
      "findings/catalogue.ts": 'import { cycle } from "./cycle";',
      "extension/node/main.ts": 'import "../activate"; import "node:fs"; import "vscode"; import "../../service";',
      "cli/main.ts": 'import { version } from "../../package.json";',
    };
    assert.deepEqual(breaches(new Map(Object.entries(allowed))), []);
  });
});

const SOURCE = join(__dirname, "../src");

function sourceFiles(): string[] {
  const paths = readdirSync(SOURCE, { recursive: true, encoding: "utf8" }).map((path) => path.replaceAll("\\", "/"));
  return paths.filter((path) => path.endsWith(".ts"));
}

/** A sentence for each import that the house does not allow; paths are relative to `src/`. */
function breaches(sources: ReadonlyMap<string, string>): string[] {
  const found: string[] = [];
  for (const [path, text] of sources) {
    const name = roomOf(path);
    if (name === undefined) found.push(`${path} is in no room`);
    else {
      const imports = preProcessFile(text, true, true).importedFiles.map(({ fileName }) => target(path, fileName));
      for (const imported of imports)
        if (!isAllowed(path, name, imported)) found.push(`${path} imports ${imported.name}`);
    }
  }
  return found;
}

interface Target {
  /** Relative to `src/`, or the name of a package. */
  readonly name: string;
  readonly isPackage: boolean;
}

function target(importer: string, specifier: string): Target {
  if (!specifier.startsWith(".")) return { name: specifier, isPackage: true };
  return { name: posix.join(posix.dirname(importer), specifier).replace(/^\.\.\//, ""), isPackage: false };
}

function isAllowed(importer: string, name: string, { name: imported, isPackage }: Target): boolean {
  const room = HOUSE[name];
  if (isPackage) {
    return (room.packages ?? []).some((one) =>
      one.endsWith("*") ? imported.startsWith(one.slice(0, -1)) : imported === one,
    );
  }
  const home = roomOf(imported) ?? imported;
  if (home !== name) return room.rooms.includes(home);
  if (room.siblings === undefined) return true;
  const isAmong = (files: readonly string[], path: string): boolean =>
    files.includes(posix.basename(path, ".ts").concat(".ts"));
  return isAmong(room.siblings.collectors, importer) || isAmong(room.siblings.shared, imported);
}

/** The innermost room that holds a file. */
function roomOf(path: string): string | undefined {
  const bare = path.replace(/\.ts$/, "");
  const rooms = Object.keys(HOUSE).filter((room) => bare === room || bare.startsWith(`${room}/`));
  return rooms.sort((a, b) => b.length - a.length)[0];
}
