/**
 * How a step keeps parts of its result from one computation to the next: what `make` gives, or what it gave for the
 * key last time, where the inputs are the very same and so is all else that it looked at.
 */
export type Keep = <T>(key: string, inputs: readonly unknown[], make: () => T) => T;

/** Everything is computed afresh. */
export const keepNothing: Keep = (_key, _inputs, make) => make();
