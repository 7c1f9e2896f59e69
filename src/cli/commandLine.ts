import { parseArgs } from "node:util";
import { nearestName } from "../service";
import { NOTE_ENDING } from "./noteFiles";
import { ASKED_TRIALS, readTrialCount, type TrialCount } from "../service";

/** What a person asked for. */
export type Command =
  | { readonly kind: "help" }
  | { readonly kind: "version" }
  | {
      readonly kind: "check";
      readonly paths: readonly string[];
      readonly format: CheckFormat;
      /** Of the shares of builds: adaptive unless told. */
      readonly trials?: TrialCount;
      /** The text lists the rules that hold, too. */
      readonly allRules?: true;
    }
  | {
      readonly kind: "values";
      readonly path: string;
      readonly format: ValuesFormat;
      /** Of the values, and of the shares of builds: no values are tried, and shares adaptively, unless told. */
      readonly trials?: TrialCount;
    }
  | { readonly kind: "handbook"; readonly word?: string };

export type CheckFormat = "text" | "json";
export type ValuesFormat = "text" | "json" | "csv";

/** The arguments make no sense; the message says which one and what would. */
export class UsageError extends Error {}

export const HELP = `Copperbook: hardware design notes that compute.

  copperbook check [PATH…] [--format text|json] [--all-rules]
                   [--trials N|adaptive]
      Judges the rules of all notes (*.calcs.md) among the files and folders
      named, or in the current folder. With --all-rules, the text lists those
      that hold, too, with what is to spare (JSON always has them). Shares of
      builds are found by trials, as many as it takes; with --trials N, by N at
      each operating condition.
  copperbook values FILE [--format text|json|csv] [--trials N|adaptive]
      Prints the values of one note. With --trials, builds are drawn from the
      spread of the inputs (JCGM 101), with operating conditions at nominal:
      the limits that hold 95 % of builds about the mean; in JSON and CSV mean
      and standard deviation too. N builds, or adaptively as many as it takes
      for two digits of the standard deviation (JCGM 101, 7.9).
  copperbook handbook [CHAPTER|FUNCTION]
      Lists the chapters of the handbook, a chapter, or a function with its
      formula, source and worked examples.
  copperbook --help
  copperbook --version

Exit code
  0   every must holds, and no note has an error; open items do not count
  1   a must does not hold (it fails, fails at the limits or is undecided),
      or a note has an error
  2   the command makes no sense, or something could not be read

Notes are read inside the current folder; where a path named lies outside it,
inside the innermost folder that holds all that is named. Text is set as wide as
the window; in a file or pipe as wide as COLUMNS says, else 100 columns.
`;

/**
 * Reads the arguments behind the program's name.
 * @throws UsageError where they make no sense.
 */
export function parseCommandLine(args: readonly string[]): Command {
  const { tokens } = parseArgs({
    args: [...args],
    options: OPTIONS,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  let format: string | undefined;
  let trials: TrialCount | undefined;
  let allRules = false;
  let asked: "help" | "version" | undefined;
  for (const token of tokens) {
    if (token.kind === "positional") words.push(token.value);
    if (token.kind !== "option") continue;
    if (!Object.hasOwn(OPTIONS, token.name)) throw noOption(token.rawName, token.name);
    if (token.name === "format") format = formatOf(token.value);
    else if (token.name === "trials") trials = trialsOf(token.value);
    else if (token.value !== undefined) throw new UsageError(`${token.rawName} takes no value, here “${token.value}”.`);
    else if (token.name === "all-rules") allRules = true;
    else asked ??= token.name === "help" ? "help" : "version";
  }
  return asked ? { kind: asked } : commandOf(words, { format, trials, allRules });
}

const OPTIONS = {
  help: { type: "boolean", short: "h" },
  version: { type: "boolean" },
  format: { type: "string" },
  trials: { type: "string" },
  "all-rules": { type: "boolean" },
} as const;

/** What options say. */
interface Options {
  readonly format: string | undefined;
  readonly trials: TrialCount | undefined;
  readonly allRules: boolean;
}

/** Formats that other programs make options of. */
const FORMATS: readonly string[] = ["json", "csv", "text"];

function noOption(written: string, name: string): UsageError {
  const meant = FORMATS.includes(name) ? `format ${name}` : nearestName(Object.keys(OPTIONS), name);
  const plain = `There is no option ${written}.`;
  return new UsageError(meant === undefined ? plain : `${plain} Did you mean --${meant}?`);
}

const CHECK_FORMATS: readonly CheckFormat[] = ["text", "json"];
const VALUES_FORMATS: readonly ValuesFormat[] = ["text", "json", "csv"];

function formatOf(value: string | undefined): string {
  if (value === undefined || value === "") throw new UsageError("--format wants a name behind it, such as json.");
  return value;
}

function trialsOf(value: string | undefined): TrialCount {
  const trials = readTrialCount(value ?? "");
  if (trials !== undefined) return trials;
  const found = value ? `, here “${value}”` : "";
  throw new UsageError(
    `--trials wants “adaptive” or a whole number from ${ASKED_TRIALS.least} to ${ASKED_TRIALS.most} behind it${found}.`,
  );
}

function commandOf([word, ...rest]: readonly string[], { format, trials, allRules }: Options): Command {
  const tried = trials === undefined ? {} : { trials };
  if (allRules && word !== "check") throw new UsageError("--all-rules belongs to “check”.");
  switch (word) {
    case "check":
      return {
        kind: "check",
        paths: rest,
        format: oneOf(CHECK_FORMATS, format, word),
        ...tried,
        ...(allRules ? { allRules } : {}),
      };
    case "values":
      if (rest.length !== 1) throw new UsageError(`“values” prints one note, and ${countOf(rest)} named.`);
      return { kind: "values", path: rest[0], format: oneOf(VALUES_FORMATS, format, word), ...tried };
    case "handbook":
      if (rest.length > 2) throw new UsageError(`“handbook” looks one word up, and ${countOf(rest)} named.`);
      if (trials !== undefined) throw new UsageError("--trials belongs to “check” and “values”.");
      if (format !== undefined) throw new UsageError("“handbook” is printed as text and has no other format.");
      return { kind: "handbook", ...(rest.length > 0 ? { word: rest.join(".") } : {}) };
    case "help":
    case "version":
      return { kind: word };
    case undefined:
      throw new UsageError("A command is missing: check, values or handbook.");
    default:
      throw new UsageError(noCommand(word));
  }
}

const COMMANDS: readonly string[] = ["check", "values", "handbook"];

function noCommand(word: string): string {
  const plain = `There is no command “${word}”`;
  if (word.endsWith(NOTE_ENDING)) return `${plain}. To judge the note write “copperbook check ${word}”.`;
  const meant = nearestName(COMMANDS, word);
  return `${plain}: the commands are check, values and handbook.${meant === undefined ? "" : ` Did you mean ${meant}?`}`;
}

function oneOf<T extends string>(formats: readonly T[], format: string | undefined, command: string): T {
  if (format === undefined) return formats[0];
  const found = formats.find((one) => one === format);
  if (found === undefined)
    throw new UsageError(`“${command}” has no format ${format}: its formats are ${formats.join(", ")}.`);
  return found;
}

function countOf(names: readonly string[]): string {
  return names.length === 0 ? "none was" : `${names.length} were`;
}
