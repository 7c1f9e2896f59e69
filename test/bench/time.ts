/** Milliseconds of processor time, so that neighbours on the machine tell little; what the collector does beside the work is in it. */
export function time(work: () => unknown): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}
