import { counted } from '../plan/wording';

interface RoomRow {
  readonly room: string;
  readonly fill?: string | undefined;
}

/**
 * Names for rows that are of a room each: the room's own, and with its fill where it is filled more than once, so that no
 * two rows of a table have one name: `R3 (R3-golden)`.
 */
export function roomNames(rows: readonly RoomRow[]): (row: RoomRow) => string {
  const fills = new Map<string, number>();
  for (const { room, fill } of rows) if (fill !== undefined) fills.set(room, (fills.get(room) ?? 0) + 1);
  return ({ room, fill }) => (fill !== undefined && (fills.get(room) ?? 0) > 1 ? `${room} (${fill})` : room);
}

/** The rows with these names in the place of their rooms'. */
export function namedRows<R extends RoomRow>(rows: readonly R[], of: readonly RoomRow[] = rows): R[] {
  const name = roomNames(of);
  return rows.map((row) => ({ ...row, room: name(row) }));
}

/** `4 rooms`; where one is filled more than once, `5 fills in 4 rooms`: what the rows of a table are. */
export function countedRooms(rows: readonly RoomRow[], one = 'room'): string {
  const rooms = new Set(rows.map(({ room }) => room)).size;
  return rooms === rows.length
    ? counted(rooms, one)
    : `${counted(rows.length, 'fill')} in ${counted(rooms, 'room')}`;
}
