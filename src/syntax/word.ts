import { KEYWORDS } from "./name";

/** The words of the language that can stand inside a statement. Fewer than 32, so that a set of them is one number. */
export const enum Word {
  None,
  And,
  Another,
  Choose,
  Each,
  Else,
  For,
  From,
  If,
  Inside,
  Not,
  Or,
  Readings,
  Sample,
  Satisfy,
  Then,
  Without,
  As,
  At,
  Because,
  Builds,
  In,
  Instead,
  Least,
  Log,
  Most,
  Of,
  On,
  Where,
}

const WORDS: ReadonlyMap<string, Word> = new Map([
  ["and", Word.And],
  ["another", Word.Another],
  ["choose", Word.Choose],
  ["each", Word.Each],
  ["else", Word.Else],
  ["for", Word.For],
  ["from", Word.From],
  ["if", Word.If],
  ["inside", Word.Inside],
  ["not", Word.Not],
  ["or", Word.Or],
  ["readings", Word.Readings],
  ["sample", Word.Sample],
  ["satisfy", Word.Satisfy],
  ["then", Word.Then],
  ["without", Word.Without],
  ["as", Word.As],
  ["at", Word.At],
  ["because", Word.Because],
  ["builds", Word.Builds],
  ["in", Word.In],
  ["instead", Word.Instead],
  ["least", Word.Least],
  ["log", Word.Log],
  ["most", Word.Most],
  ["of", Word.Of],
  ["on", Word.On],
  ["where", Word.Where],
]);

/** The length of the longest word, `readings`: what is longer is not looked up. */
export const LONGEST_WORD = 8;

/** Which word of the language a text is. */
export function wordOf(text: string): Word {
  return WORDS.get(text) ?? Word.None;
}

/** A set of words as bits. */
export type WordSet = number;

export function wordSet(...words: Word[]): WordSet {
  return words.reduce((set, word) => set | (1 << word), 0);
}

export function holds(set: WordSet, word: Word): boolean {
  return word !== Word.None && (set & (1 << word)) !== 0;
}

/** The words of {@link KEYWORDS}. */
export const RESERVED: WordSet = wordSet(...[...KEYWORDS].map(wordOf));
