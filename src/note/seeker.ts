/**
 * Finds the next occurrence of a string again and again. It remembers what it found, so that asking at every line of a
 * text costs one pass through the text in all.
 */
export class Seeker {
  private searchedFrom = 0;
  private found = -1;

  constructor(
    private readonly text: string,
    private readonly sought: string,
  ) {}

  /** The first occurrence at or behind an offset; the text's length if there is none. */
  from(offset: number): number {
    if (offset > this.found || offset < this.searchedFrom) {
      const found = this.text.indexOf(this.sought, offset);
      this.found = found < 0 ? this.text.length : found;
      this.searchedFrom = offset;
    }
    return this.found;
  }
}
