/** Spaces by which what belongs to a key of a plan stands deeper than it. */
export const STEP = 2;
