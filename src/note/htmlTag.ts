const ATTRIBUTE = "\\s+[a-zA-Z_:][a-zA-Z0-9:._-]*(?:\\s*=\\s*(?:[^\"'=<>`\\x00-\\x20]+|'[^']*'|\"[^\"]*\"))?";

/** The source of a regular expression for an opening or a closing tag (CommonMark 6.6). */
export const HTML_TAG = `<[A-Za-z][A-Za-z0-9\\-]*(?:${ATTRIBUTE})*\\s*\\/?>|<\\/[A-Za-z][A-Za-z0-9\\-]*\\s*>`;
