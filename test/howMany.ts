/** How many cases a generated test runs: all of them in CI, a twentieth at the desk, where the suite must take seconds. */
export function howMany(inContinuousIntegration: number): number {
  return process.env.CI ? inContinuousIntegration : Math.max(1, Math.ceil(inContinuousIntegration / 20));
}
