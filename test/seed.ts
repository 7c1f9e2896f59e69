import fc from "fast-check";

/**
 * Generated tests run from one seed in CI, so that the same commit gives the same verdict, and from a new one each time
 * at the desk, where what they find can be looked into at once.
 */
const SEED_IN_CI = 20261125;

if (process.env.CI) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED_IN_CI });
