/** What people write behind a complete statement, or in the place of a value, and how it is written here. */
export interface Slip {
  /** On the text of a statement from the place of the trouble on. */
  readonly behind: RegExp;
  /** On the text before that place; anything where it is left out. */
  readonly before?: RegExp;
  /** A sentence; undefined where this is not what was meant after all. */
  readonly says: (behind: RegExpExecArray, before: RegExpExecArray | undefined) => string | undefined;
  /** What mends it, in the place of so many characters before and behind. */
  readonly mends?: (behind: RegExpExecArray, before: RegExpExecArray | undefined) => Mended | undefined;
}

export interface Mended {
  /** Characters before the place that the text replaces; none where it is left out. */
  readonly back?: number;
  /** Characters behind the place that it replaces. */
  readonly length: number;
  readonly text: string;
}
