import { distance } from "fastest-levenshtein";

/** Names under three letters match by case only: of two short names, any is one letter from any other. */
const SHORT = 3;
/** One slip in a name of up to five letters, two in a longer one. */
const LONG = 6;
const MOST_SLIPS = 2;
/** So many names are compared with all candidates before an index of the candidates is made, which costs as much. */
const WORTH_AN_INDEX = 50;
/** Letters at the end of a name by which the index knows it: names of one family differ there, by their numbers. */
const TAIL = 8;

/** The one of several words that a misspelt one is likely to mean; none where two are as near. */
export function nearestName(candidates: Iterable<string>, name: string): string | undefined {
  return new Candidates(candidates).nearest(name);
}

/** Whether the nearest of some words to a misspelt one can depend on whether this word is among them. */
export function canBeMeant(candidate: string, name: string): boolean {
  return isSameButCase(candidate, name) || slipsBetween(candidate, name) <= slipsIn(name);
}

/**
 * Words that a misspelt one may mean, to be asked many times. Few names are compared with every word; of many, each is
 * compared with the words that share a tail with it, but for some letters left out (the method is known by the name of
 * symmetric deletion): two words with k slips between them become equal when up to k letters are taken out of either.
 */
export class Candidates {
  private readonly words: ReadonlySet<string>;
  private byLowerCase?: Map<string, string[]>;
  private byTail?: Map<string, string[]>;
  private asked = 0;

  constructor(words: Iterable<string>) {
    this.words = new Set(words);
  }

  /** The one word that a misspelt one is likely to mean; none where two are as near. */
  nearest(name: string): string | undefined {
    if (++this.asked > WORTH_AN_INDEX && !this.byTail) this.makeIndex();
    return this.onlyByCase(name) ?? this.onlyBySlips(name);
  }

  private onlyByCase(name: string): string | undefined {
    const near = this.byLowerCase ? (this.byLowerCase.get(name.toLowerCase()) ?? []) : this.words;
    let only: string | undefined;
    for (const word of near) {
      if (!isSameButCase(word, name)) continue;
      if (only !== undefined) return undefined;
      only = word;
    }
    return only;
  }

  private onlyBySlips(name: string): string | undefined {
    const most = slipsIn(name);
    let nearest: string | undefined;
    let fewest = most + 1;
    let isAlone = false;
    for (const words of this.byTail ? this.withTailOf(name, most) : [this.words]) {
      for (const word of words) {
        // By the index a word is met more than once.
        if (word === nearest) continue;
        const slips = slipsBetween(word, name);
        if (slips > fewest || slips > most) continue;
        isAlone = slips < fewest;
        fewest = slips;
        nearest = word;
        if (fewest === 1 && !isAlone) return undefined;
      }
    }
    return isAlone ? nearest : undefined;
  }

  private *withTailOf(name: string, most: number): Iterable<readonly string[]> {
    for (const key of shortenings(name.slice(-TAIL), most)) yield this.byTail!.get(key) ?? [];
  }

  private makeIndex(): void {
    this.byLowerCase = new Map();
    this.byTail = new Map();
    for (const word of this.words) {
      add(this.byLowerCase, word.toLowerCase(), word);
      if (word.length >= SHORT)
        for (const key of shortenings(word.slice(-TAIL), MOST_SLIPS)) add(this.byTail, key, word);
    }
  }
}

/** How many slips are forgiven in a name. */
function slipsIn(name: string): number {
  return name.length < SHORT ? 0 : name.length < LONG ? 1 : MOST_SLIPS;
}

/** Letters changed, left out or put in between two names; infinite where they are not to be compared. */
function slipsBetween(word: string, name: string): number {
  if (word === name || word.length < SHORT || Math.abs(word.length - name.length) > MOST_SLIPS) return Infinity;
  return distance(word, name);
}

function isSameButCase(word: string, name: string): boolean {
  return word.length === name.length && word !== name && word.toLowerCase() === name.toLowerCase();
}

/** A text with up to so many letters left out, each result once. */
function shortenings(text: string, most: number): ReadonlySet<string> {
  const all = new Set([text]);
  let last = all;
  for (let left = most; left > 0; left--) {
    const shorter = new Set<string>();
    for (const each of last) for (let i = 0; i < each.length; i++) shorter.add(each.slice(0, i) + each.slice(i + 1));
    for (const each of shorter) all.add(each);
    last = shorter;
  }
  return all;
}

function add(map: Map<string, string[]>, key: string, word: string): void {
  const list = map.get(key);
  if (list) list.push(word);
  else map.set(key, [word]);
}
