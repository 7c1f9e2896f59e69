import type { Edit } from "./edit";

/** A way out that can be taken at once. */
export interface Fix {
  /** An order, with what follows from it: *Use 160 Ω: I_string 18.8 mA, all rules hold*. */
  readonly title: string;
  readonly edits: readonly Edit[];
  /** It is right without a second look. */
  readonly isPreferred?: boolean;
}
