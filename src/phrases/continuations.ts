/** What people write behind a complete statement, or in the place of a value, and how it is written here. */
interface Continuation {
  /** On the text of a statement from the place of the trouble on. */
  readonly behind: RegExp;
  /** On the text before that place; anything where it is left out. */
  readonly before?: RegExp;
  /** A sentence. */
  readonly says: (behind: RegExpExecArray, before: RegExpExecArray | undefined) => string;
}

/** The way out for a text that goes on as the grammar does not; undefined where nothing tells what was meant. */
export function continuationText(text: string, at: number): string | undefined {
  for (const { behind, before, says } of CONTINUATIONS) {
    const found = behind.exec(text.slice(at));
    const led = before?.exec(text.slice(0, at)) ?? undefined;
    if (found && (before === undefined || led)) return says(found, led);
  }
  return undefined;
}

const CONTINUATIONS: readonly Continuation[] = [
  {
    behind: /^in\s+(\S+)\s*$/,
    before: /^(\S+)\s*=/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    // `3 s / 2 in min`: the inch has been read.
    behind: /^(\S+)\s*$/,
    before: /^(\S+)\s*=.*\sin\s*$/,
    says: ([, unit], led) => `The unit to show it in stands behind the name: \`${led![1]} [${unit}] = …\`.`,
  },
  {
    behind: /^between\s+(.+?)\s+and\s+(.+?)\s*$/,
    says: ([, low, high]) =>
      /^[-\d]/.test(low) && /^[-\d]/.test(high)
        ? `A band is written \`inside ${low} .. ${high}\`.`
        : `A band is written as a chain: \`${low} <= x <= ${high}\`.`,
  },
  { behind: /^because\b/, says: () => "A reason stands behind `#`." },
  {
    behind: /^(±|\+\/-)/,
    before: /(±|\+\/-)[^=]*$/,
    says: () => "A number has one `±`. Add the two limits, or multiply by a second one, such as `(1 ± 1 %)`.",
  },
  {
    behind: /^(\d\S*\s*[\p{L}°µ]+)/u,
    before: /(\d\S*\s*[\p{L}°µ]+)\s*$/u,
    says: ([, second], led) => `Two numbers are added by a sign: \`${led![1]} + ${second}\`.`,
  },
  {
    behind: /^mod\s+(.+?)\s*$/,
    before: /([\p{L}_][\p{L}\d_.]*)\s*$/u,
    says: ([, divisor], led) => `The remainder is \`mod(${led![1]}, ${divisor})\`.`,
  },
  {
    behind: /^from\s+(\S+)/,
    before: /\bchoose\s+(?:at (?:least|most)\s+)?$/,
    says: ([, series]) => `The value that is used stands before it: \`choose 150 Ω from ${series}\`.`,
  },
  { behind: /^€/, says: () => "Money has the code of its currency behind the number, such as `2.35 EUR`." },
  { behind: /^\$/, says: () => "Money has the code of its currency behind the number, such as `2.35 USD`." },
  {
    behind: /^([\p{L}°µ]+)/u,
    before: /\/\(([\p{L}°µ]+)\s+$/u,
    says: ([, second], led) => `The units of a product are joined by \`·\`: \`${led![1]}·${second}\`.`,
  },
];
