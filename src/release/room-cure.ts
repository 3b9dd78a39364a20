/** A room opened in another week that makes a shortage smaller. */
export interface RoomCure {
  readonly room: number;
  readonly week: number;
  /** Money less in all; negative where the schedule would be worth more. */
  readonly cost: number;
  /** Cartons fewer that the demand is short of over the season. */
  readonly cartons: number;
  /** Another room that must move with it, to make way. */
  readonly also?: { readonly room: number; readonly week: number };
}
