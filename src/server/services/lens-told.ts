export type Parts = readonly (string | undefined)[];

/** What is told above an entry, and what it rests on. */
export interface Told {
  readonly parts: Parts;
  /** A week of opening is told. */
  readonly opening?: boolean;
  /** Weeks of the schedule are in it. */
  readonly scheduled?: boolean;
  /** The entry's section, where it may have a card. */
  readonly section?: string;
}
