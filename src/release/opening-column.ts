/** A room's opening in a week, as a column. */
export interface OpeningColumn {
  readonly room: number;
  readonly week: number;
  readonly column: number;
  /** Share of the room's bins packed in `week`, `week + 1`, ...: a column each. One week: the opening itself. */
  readonly shares: readonly number[];
}
