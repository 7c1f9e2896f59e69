import type { Entry } from "./entry";
import { NATIVES } from "./natives";
import { canBeMeant, Candidates } from "./suggest";

/** What an unknown name is wanted to be. */
type Wanted = "quantity" | "function";

/** When so many names of a note change at once, all is asked anew: to compare each with each costs more. */
const MOST_NAMES_COMPARED = 8;

interface Suggestion {
  readonly name: string;
  /** What it is likely to mean. */
  readonly meant: string | undefined;
  /** The entries that were told so. */
  readonly told: Set<Entry>;
}

/** What the unknown names in a note are likely to mean, kept until a name comes or goes that could be meant. */
export class Suggestions {
  private readonly known: Readonly<Record<Wanted, Map<string, Suggestion>>> = {
    quantity: new Map(),
    function: new Map(),
  };
  private candidates: Partial<Record<Wanted, Candidates>> = {};
  private readonly listeners = new Set<Entry>();

  constructor(private readonly declared: ReadonlyMap<string, readonly Entry[]>) {}

  /** The one name of the right kind that an unknown name is likely to mean; `asker` is told by {@link changed} when that may change. */
  ask(name: string, wanted: Wanted, asker: Entry): string | undefined {
    const known = this.known[wanted];
    let suggestion = known.get(name);
    if (!suggestion) {
      this.candidates[wanted] ??= this.candidatesFor(wanted);
      suggestion = { name, meant: this.candidates[wanted].nearest(name), told: new Set() };
      known.set(name, suggestion);
    }
    suggestion.told.add(asker);
    return suggestion.meant;
  }

  /** An entry was told which names there are: it has to ask again when any comes or goes. */
  listen(asker: Entry): void {
    this.listeners.add(asker);
  }

  /** These names came, went or became another kind: the entries that have to ask again. */
  changed(names: ReadonlySet<string>): readonly Entry[] {
    this.candidates = {};
    const askers = [...this.listeners];
    this.listeners.clear();
    const isMany = names.size > MOST_NAMES_COMPARED;
    for (const known of Object.values(this.known)) {
      for (const { name, told } of known.values()) {
        if (!isMany && ![...names].some((changed) => canBeMeant(changed, name))) continue;
        askers.push(...told);
        known.delete(name);
      }
    }
    return askers;
  }

  private candidatesFor(wanted: Wanted): Candidates {
    const names = wanted === "function" ? [...NATIVES.keys()] : [];
    for (const [name, [entry]] of this.declared) {
      const { kind } = entry.statement;
      if ((kind === "function") === (wanted === "function") && kind !== "items" && kind !== "column") names.push(name);
    }
    return new Candidates(names);
  }
}
