/**
 * More than this is a slip of the keyboard: no lot, room or packhouse comes near a million bins (some 300,000 t), nor an
 * order near a hundred million cartons; and of fruit tested, beds, rooms that stand open or bins high there are few.
 */
export const MOST_COUNTED = { bins: 1_000_000, cartons: 100_000_000, few: 10_000 } as const;

export type Counted = keyof typeof MOST_COUNTED;
