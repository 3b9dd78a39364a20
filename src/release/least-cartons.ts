/** Fewer cartons than this are none. */
export const LEAST_CARTONS = 0.5;
