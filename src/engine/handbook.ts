import type { Statement } from "../syntax/statement";
import { Kind } from "../syntax/tree";
import type { Entry } from "./entry";

/**
 * The chapters of the handbook and what each is about, in the order of the index. Each is a note of its own,
 * `src/handbook/NAME.calcs.md`, in scope everywhere under its name and read when a note first mentions it.
 */
export const CHAPTERS: ReadonlyMap<string, string> = new Map([
  ["series", "preferred values of IEC 60063, and pairs of them for a ratio, a sum or a parallel value"],
  ["resistor", "dividers, equivalent sources, power, thermal noise, temperature coefficient"],
  ["led", "series resistor and current of LED strings, light, efficacy, junction temperature"],
  ["light", "intensity, illuminance and beams, lightness and dimming, flicker"],
  ["copper", "conductors on a board: width, resistance, vias, clearance, impedance"],
  ["wire", "gauges, resistance of wire, two-way drop, skin depth"],
  ["power", "regulators and converters, losses in switches, fuses, inrush, hold-up"],
  ["heat", "thermal resistance, junction temperature, heat sinks, time constant"],
  ["filter", "RC, RL and LC: cut-off, resonance, damping, charging; crystal load"],
  ["amp", "gain, bandwidth, offset and noise of amplifiers, shunts, hysteresis"],
  ["sense", "thermistors, Pt100, thermocouples, converters, bridges, cones of view"],
  ["bus", "I²C pull-ups, UART error, termination, lines that are long"],
  ["battery", "life from a duty cycle, C-rate, sag, self-discharge"],
  ["coil", "air coils, solenoids, stored energy, flyback"],
  ["fit", "tolerances and fits, clearance holes, slots, stacks, thermal expansion"],
  ["shape", "solids, circles and polygons, mass, pieces to a panel"],
  ["cost", "price breaks, scrap and yield, cost of one"],
  ["reliability", "derating, failure rates in series, acceleration, life of capacitors"],
  ["safety", "limits beyond which people can be hurt"],
  ["strength", "bending and tension, solder lands, rope and wire"],
  ["motion", "steppers, belts and screws, inertia"],
  ["audio", "level, sensitivity, power for a level, loudness"],
  ["db", "decibels of power and field quantities, dBm, dBV"],
]);

const SCHEME = "handbook:";

/** The path under which a chapter is held and the library is asked for it. No `use` can name it: it has a scheme. */
export function chapterPath(chapter: string): string {
  return SCHEME + chapter;
}

/** The chapter that a path names; undefined where it is the path of a file. */
export function chapterAt(path: string): string | undefined {
  return path.startsWith(SCHEME) ? path.slice(SCHEME.length) : undefined;
}

export function isChapter(name: string): boolean {
  return CHAPTERS.has(name);
}

/** Whether what a statement defines has members, so that its name behind a dot is not that of a chapter. */
export function hasMembers(statement: Statement): boolean {
  const isPart = statement.kind === "choice" && statement.tree.kind(statement.value) !== Kind.Literal;
  return statement.kind === "use" || statement.kind === "fab" || statement.kind === "table" || isPart;
}

/**
 * The chapter that a name before a dot means; undefined where it is that of none.
 * @param definition what defines the name in the note: whatever has members comes before the chapter.
 */
export function chapterMeant(name: string, definition: Statement | undefined): string | undefined {
  return isChapter(name) && !(definition && hasMembers(definition)) ? name : undefined;
}

/** The entries that mention each chapter: they are to hear when its text arrives, and chapters without any need not be read. */
export class ChapterReaders {
  private readonly readers = new Map<string, Set<Entry>>();
  /** Chapters that are to be read though no note mentions them. */
  private readonly asked = new Set<string>();

  add(chapter: string, reader: Entry): void {
    const known = this.readers.get(chapter);
    if (known) known.add(reader);
    else this.readers.set(chapter, new Set([reader]));
  }

  drop(chapter: string, reader: Entry): void {
    const known = this.readers.get(chapter);
    if (known?.delete(reader) && known.size === 0) this.readers.delete(chapter);
  }

  of(chapter: string): readonly Entry[] {
    return [...(this.readers.get(chapter) ?? [])];
  }

  /** Wants a chapter though no note mentions it yet. */
  ask(chapter: string): void {
    if (isChapter(chapter)) this.asked.add(chapter);
  }

  /** The chapters that are mentioned or asked for. */
  wanted(): Iterable<string> {
    return new Set([...this.readers.keys(), ...this.asked]);
  }
}
