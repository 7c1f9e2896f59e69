/** The characters that mean something to block structure. */
export const enum Character {
  Tab = 9,
  LineFeed = 10,
  CarriageReturn = 13,
  Space = 32,
  ExclamationMark = 33,
  DoubleQuote = 34,
  Hash = 35,
  Apostrophe = 39,
  LeftParenthesis = 40,
  RightParenthesis = 41,
  Asterisk = 42,
  Plus = 43,
  Minus = 45,
  Dot = 46,
  Slash = 47,
  Zero = 48,
  Nine = 57,
  Colon = 58,
  LessThan = 60,
  Equals = 61,
  GreaterThan = 62,
  QuestionMark = 63,
  LeftBracket = 91,
  Backslash = 92,
  RightBracket = 93,
  Underscore = 95,
  Backtick = 96,
  Pipe = 124,
  Tilde = 126,
  Delete = 127,
}

/** A space or a tab: what CommonMark counts as indentation. */
export function isSpace(code: number): boolean {
  return code === Character.Space || code === Character.Tab;
}

export function isDigit(code: number): boolean {
  return code >= Character.Zero && code <= Character.Nine;
}

/** The first offset from `at` on that holds neither space nor tab, or `end`. */
export function skipSpaces(text: string, at: number, end: number): number {
  while (at < end && isSpace(text.charCodeAt(at))) at++;
  return at;
}

/** The first offset from `at` on that holds another character than `code`, or `end`. */
export function skipRun(text: string, at: number, end: number, code: number): number {
  while (at < end && text.charCodeAt(at) === code) at++;
  return at;
}
