import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Service, type Settings } from "../src/service";
import { assertFollowsSchema } from "./cli/schema";
import { Workspace } from "./cli/workspace";
import { readChapter } from "./handbook/chapters";

const README = readFileSync(join(__dirname, "../README.md"), "utf8");
const SETTINGS: Settings = { series: { resistor: "E24", capacitor: "E12", inductor: "E12" } };

/** Every example of the README is run, in the order of the page. */
describe("the README", () => {
  describe("in five minutes", () => {
    let workspace: Workspace;
    before(() => (workspace = new Workspace()));
    after(() => workspace.remove());

    const fences = [...README.matchAll(/^```(markdown|console) ?(\S*)\n([^]*?)^```$/gm)];
    /** The note of the first steps, as it is written on the way. */
    const ofStatus = fences.filter(([, , name]) => name === "status.calcs.md");
    it("has notes and commands", () => assert.ok(fences.length >= 6));

    for (const [, kind, name, content] of fences) {
      if (kind === "markdown") it(`writes ${name}`, () => void workspace.write(name, content));
      else {
        const [command, ...lines] = content.split("\n");
        it(`runs ${command}`, async () => {
          const words = command.split(" ");
          assert.deepEqual(words.slice(0, 2), ["$", "copperbook"]);
          const { output } = await workspace.run(words.slice(2));
          assert.equal(output, lines.join("\n"));
        });
      }
    }

    it("offers the standard value that it speaks of, and gets the line that it shows", () => {
      const text = fences.find(([, kind]) => kind === "markdown")![3];
      const service = open(text);
      const at = text.indexOf("R      =");
      const title = /Take \*(.*?)\*/.exec(README)![1];
      const offered = service
        .fixes("note.calcs.md", { start: at, end: at })
        .find(({ fix }) => fix.title.startsWith(title));
      assert.ok(offered, `${title} is not offered.`);
      service.edit("note.calcs.md", offered.fix.edits);
      const shown = /the line becomes\n`(.*?)`/.exec(README)![1];
      assert.ok(oneSpaced(service.snapshot("note.calcs.md")!.text).includes(oneSpaced(shown)));
    });

    it("is right about the value with which all rules hold again", () => {
      const text = ofStatus.at(-1)![3];
      const other = /; choose (\d+ Ω), and both rules hold again/.exec(README)![1];
      assert.equal(open(text).summary("note.calcs.md").hold, 1);
      assert.equal(open(text.replace("390 Ω", other)).summary("note.calcs.md").hold, 2);
    });

    it("is right about the mark that stays, and how it goes", () => {
      const [, text] = /: `choose (at least .*?)` says that it is more on purpose/.exec(README)!;
      const note = ofStatus.at(-1)![3];
      const codes = (chosen: string) =>
        open(note.replace("390 Ω ± 1 % from E24", chosen))
          .record("note.calcs.md")
          .findings.map(({ code, severity }) => `${code} ${severity}`);
      assert.deepEqual(codes(text.replace("at least ", "")), ["choice.overtaken information"]);
      assert.deepEqual(codes(text), []);
    });

    it("shows JSON as the schema has it, and of the last note", async () => {
      const shown = /^```json\n([^]*?)^```$/m.exec(README)![1];
      assertFollowsSchema(shown);
      const { notes } = JSON.parse(
        (await workspace.run(["check", "status.calcs.md", "--format", "json"])).output,
      ) as Json;
      for (const [part, entries] of Object.entries((JSON.parse(shown) as Json).notes[0])) {
        if (typeof entries === "string") assert.equal(notes[0][part], entries);
        else
          for (const entry of entries)
            assert.ok(
              (notes[0][part] as Entry[]).some((one) => isLike(one, entry)),
              part,
            );
      }
    });
  });

  describe("on the language", () => {
    const tables = [...README.matchAll(/^\| You write .*\n\| --- .*\n((?:\|.*\n)+)/gm)].map(([, rows]) => rowsOf(rows));
    it("has tables", () => assert.ok(tables.length >= 3));

    for (const rows of tables) {
      const service = open(rows.map(({ written }) => `    ${written}\n`).join(""));
      before(() => service.load());
      rows.forEach(({ written, gives }, line) => {
        it(`${written} gives ${gives || "no value"}`, () => {
          const { values, findings } = service.record("note.calcs.md");
          const results = service.results("note.calcs.md");
          const errors = findings.filter((finding) => finding.line === line + 1 && finding.severity === "error");
          const isFinding = /^[a-z]+\.[a-zA-Z]+$/.test(gives);
          assert.deepEqual(
            errors.map(({ code }) => code),
            isFinding ? [gives] : [],
          );
          if (gives === "" || isFinding) return;
          const value = values.find((one) => one.line === line + 1)?.shown;
          assert.equal(value ?? results.find((result) => result.line === line)?.text, gives);
        });
      });
    }
  });
});

interface Entry {
  readonly [key: string]: string | number | boolean | Entry;
}

interface Json {
  readonly notes: readonly Readonly<Record<string, string | readonly Entry[]>>[];
}

/** Digits of a number that the README writes. */
const DIGITS = 3;

/** Whether an entry is what the README shows of it: numbers are rounded there, and long texts left out. */
function isLike(real: Entry, shown: Entry): boolean {
  return Object.entries(shown).every(([key, value]) => {
    const one = real[key];
    if (value === "…") return typeof one === "string" && one !== "";
    if (typeof value === "object") return typeof one === "object" && isLike(one, value);
    return typeof one === "number" ? Number(one.toPrecision(DIGITS)) === value : one === value;
  });
}

interface Example {
  readonly written: string;
  /** Empty where nothing is stated. */
  readonly gives: string;
}

function rowsOf(table: string): Example[] {
  return table
    .trimEnd()
    .split("\n")
    .map((row) => {
      const [, written, gives] = row.split("|").map((cell) => /^ `(.*)` $/.exec(cell)?.[1] ?? "");
      return { written, gives };
    });
}

function open(text: string): Service {
  const missing = { trouble: "missing", detail: "" } as const;
  const library = { read: (path: string) => Promise.resolve(readChapter(path) ?? missing) };
  const service = new Service(library, SETTINGS);
  service.open("note.calcs.md", text);
  return service;
}

function oneSpaced(text: string): string {
  return text.replace(/ +/g, " ");
}
