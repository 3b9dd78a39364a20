import fc from 'fast-check';

// The same examples on every run and machine, so that a red build says something of the change it is red on.
// PROPERTY_SEED=<number> tries others.
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 2026) });
