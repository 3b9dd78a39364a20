/**
 * What a process of ours asks of the engine before anything else: most of what opening or checking a plan runs, it runs
 * once, so only what runs on and on is to be compiled. Measured at 3,000 lots it saves a fifth to a fourth of the
 * processor time on Node 20 and 22. From V8 13 on (Node 24) it is the engine's quick compiler that comes too early: made
 * to wait, opening `full-season` takes three quarters of the processor time, 3,000 lots seven eighths, and a key no more.
 * The settings have other names in each engine, which tell on the error stream of a name they do not know.
 *
 * @param version of V8, as `process.versions.v8` gives it
 */
export function compilingRarely(version: string): readonly string[] {
  const major = Number.parseInt(version, 10);
  if (major < 12) return ['--interrupt-budget=500000'];
  if (major < 13) return ['--invocation-count-for-turbofan=10000', '--invocation-count-for-osr=3000'];
  // Known by this name to Node 24, 25 and 26.
  return ['--invocation-count-for-maglev=3000'];
}
