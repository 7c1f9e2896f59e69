/** How the command line ends. */
export const enum ExitCode {
  /** Every `must` holds, and no note has an error. */
  Good = 0,
  /** A `must` does not hold, or a note has an error. */
  Bad = 1,
  /** The command makes no sense, or something that was asked for could not be read. */
  Trouble = 2,
}
