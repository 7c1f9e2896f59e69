/** The world around the command line, so that tests can stand in for it. */
export interface Terminal {
  readonly currentFolder: string;
  readonly environment: Readonly<Partial<Record<string, string>>>;
  readonly output: Output;
  /** For what went wrong with the command itself. */
  readonly errors: Output;
}

export interface Output {
  write(text: string): void;
  /** Somebody is watching: a screen, not a file or a pipe. */
  readonly isScreen: boolean;
  readonly columns?: number;
}

/** How text is set. Weight only: nothing is said by colour, and nothing by weight alone. */
export interface Face {
  readonly columns: number;
  /** Bold, for what fails. */
  strong(text: string): string;
  /** For what stands beside. */
  faint(text: string): string;
}

/** In files and pipes where nothing else is asked for, so that a log is the same wherever it was made. */
const COLUMNS_OF_A_FILE = 100;
/** A narrower window is written to as if it had these: below, every line would break. */
const LEAST_COLUMNS = 40;
/** A wider one is not filled: long lines are hard to follow. */
const MOST_COLUMNS = 120;

/** Plain where nobody watches, where the terminal can do nothing else, and where `NO_COLOR` is set (no-color.org). */
export function faceFor({ output, environment }: Terminal): Face {
  const isStyled = output.isScreen && !environment.NO_COLOR && environment.TERM !== "dumb";
  const columns = (output.isScreen ? output.columns : undefined) ?? columnsAsked(environment) ?? COLUMNS_OF_A_FILE;
  const sgr = (on: number) => (text: string) => (isStyled ? `\u001B[${on}m${text}\u001B[${NORMAL_WEIGHT}m` : text);
  return {
    columns: Math.min(Math.max(columns, LEAST_COLUMNS), MOST_COLUMNS),
    strong: sgr(BOLD),
    faint: sgr(FAINT),
  };
}

/** `COLUMNS` (POSIX.1, 8.3): exported, it is a wish; shells keep it to themselves otherwise. */
function columnsAsked({ COLUMNS }: Terminal["environment"]): number | undefined {
  return COLUMNS !== undefined && /^[1-9]\d*$/.test(COLUMNS) ? Number(COLUMNS) : undefined;
}

/** Parameters of SELECT GRAPHIC RENDITION (ECMA-48, 8.3.117). */
const BOLD = 1;
const FAINT = 2;
const NORMAL_WEIGHT = 22;
