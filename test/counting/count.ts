/**
 * Run as a process of its own: node --require tsx/cjs test/counting/count.ts TEXTS FUNCTION FROM LENGTH…
 * prints, for every text of the module TEXTS at every length, how often blocks of our code ran in FUNCTION(text) of the
 * module FROM. V8 counts the blocks only of code that it compiles after it was told to, hence the process and the order.
 */
import { Session, type Profiler } from "node:inspector";
import { createRequire } from "node:module";

const [textsModule, name, from, ...lengths] = process.argv.slice(2);
const session = new Session();
session.connect();
session.post("Profiler.enable");
session.post("Profiler.startPreciseCoverage", { callCount: true, detailed: true });

const load = createRequire(__filename);
const { texts } = load(textsModule) as { texts: Readonly<Record<string, (length: number) => string>> };
const work = (load(from) as Record<string, (text: string) => unknown>)[name];
const counts = Object.entries(texts).map(([title, write]) => [
  title,
  lengths.map((length) => count(write(Number(length)))),
]);
console.log(JSON.stringify(Object.fromEntries(counts)));

function count(text: string): number {
  take();
  work(text);
  return take();
}

/** Block executions since it was last asked. */
function take(): number {
  let scripts: readonly Profiler.ScriptCoverage[] = [];
  // Within one thread the answer comes before `post` returns.
  session.post("Profiler.takePreciseCoverage", (_, { result }) => (scripts = result));
  const ours = scripts.filter(({ url }) => /\/(src|test)\//.test(url) && !url.includes("/node_modules/"));
  const ranges = ours.flatMap(({ functions }) => functions.flatMap((each) => each.ranges));
  return ranges.reduce((sum, { count }) => sum + count, 0);
}
