/** A piece of a formula: a name with the number that stands for it, or what lies between names. */
export interface FormulaPiece {
  readonly symbol: string;
  /** Undefined between names, where both rows say the same. */
  readonly number?: string;
}

/** Columns of a formula before it goes on below: what a hover shows without a scroll bar. */
const WIDTH = 64;
const INDENTATION = "  ";

/**
 * A formula with the numbers set under its symbols, as one works it on paper. A long one goes on below, from an operator.
 *
 * ```
 * supply - in_series * V_f
 * 24 V   - 7         * 3 V
 * ```
 */
export function setFormula(pieces: readonly FormulaPiece[]): string {
  const lines: Rows[] = [];
  for (const term of termsOf(pieces)) {
    const last = lines[lines.length - 1] as Rows | undefined;
    if (last && columns(last.symbols) + columns(term.symbols) <= WIDTH) {
      last.symbols += term.symbols;
      last.numbers += term.numbers;
    } else if (last)
      lines.push({
        symbols: INDENTATION + term.symbols.trimStart(),
        numbers: INDENTATION + term.numbers.trimStart(),
      });
    else lines.push(term);
  }
  return lines.flatMap(({ symbols, numbers }) => [symbols.trimEnd(), numbers.trimEnd()]).join("\n");
}

/** Two rows of equal width. */
interface Rows {
  symbols: string;
  numbers: string;
}

/** What stands from one operator to the next. */
function termsOf(pieces: readonly FormulaPiece[]): readonly Rows[] {
  const terms: Rows[] = [{ symbols: "", numbers: "" }];
  for (const { symbol, number } of pieces) {
    if (number === undefined) {
      for (const part of symbol.split(/(?= [-+*/·×^|<>=!]+ )/)) {
        if (part.startsWith(" ")) terms.push({ symbols: part, numbers: part });
        else add(terms, part, part);
      }
      continue;
    }
    const width = Math.max(columns(symbol), columns(number));
    add(terms, padded(symbol, width), padded(number, width));
  }
  return terms;
}

function add(terms: readonly Rows[], symbols: string, numbers: string): void {
  const last = terms[terms.length - 1];
  last.symbols += symbols;
  last.numbers += numbers;
}

function padded(text: string, width: number): string {
  return text + " ".repeat(width - columns(text));
}

/** How wide a text is set: marks that sit on a letter take no room. */
function columns(text: string): number {
  return [...text.replace(/\p{M}/gu, "")].length;
}
