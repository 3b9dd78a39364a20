import { plainText } from '../../plan/edits';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import type { ReadingsLayout } from '../../plan/table-model';
import { listed } from '../../plan/wording';
import { quantities } from '../../readings/types';
import { cautionInShort } from '../../room/caution';
import type { SeenFile } from '../../watching/seen-readings';
import type { ComputedSeason } from '../types';

/** Columns that a file of readings has by the plan and not in truth: nothing of the file is read then. */
export function* columnsNotInFile({ plan, readings }: ComputedSeason): Iterable<Problem> {
  for (const { readings: id, file: path, faults } of readings?.files ?? []) {
    const layout = plan.readings.get(id);
    if (!layout) continue;
    for (const { line, reason, column } of faults) {
      if (!column) continue;
      const { field, meant } = column;
      const at = placeAt(layout.places, ['columns', field]).span;
      yield {
        code: 'readings-not-read',
        message: `Nothing of ${id} is read, so that nothing in it is watched. ${reason}`,
        at,
        related: [{ at: { file: path, start: 0, end: 0 }, line, message: reason }],
        about: `${id}/${field}`,
        fixes:
          meant === undefined
            ? []
            : [{ title: `Change to \`${meant}\``, edits: [{ at, newText: plainText(meant) }] }],
      };
    }
  }
}

/** Whether it is told otherwise why nothing of the file is read: here, or by an error of the layout itself. */
export function areColumnsToldOf(layout: ReadingsLayout, { faults }: SeenFile): boolean {
  return (
    faults.some(({ column }) => column !== undefined) ||
    !layout.columns.has('time') ||
    !layout.columns.has('room')
  );
}

/** Low-oxygen rooms of which a file has readings, and no file has oxygen. */
export function* oxygenNotRead(season: ComputedSeason): Iterable<Problem> {
  const { plan, readings } = season;
  const files = readings?.files ?? [];
  const isRead = ({ readings: id }: SeenFile) => plan.readings.get(id)?.columns.has('oxygen') === true;
  if (files.every(isRead)) return;
  const rooms = lowOxygenRooms(season);
  for (const file of files) {
    const layout = plan.readings.get(file.readings);
    if (!layout || isRead(file) || isColumnMisspelt(layout)) continue;
    const unread = file.roomsRead.filter(
      (room) => rooms.has(room) && !files.some((one) => isRead(one) && one.roomsRead.includes(room)),
    );
    if (unread.length === 0) continue;
    yield {
      code: 'oxygen-not-read',
      message: `No oxygen is read from the file of ${layout.id}, and no other file has that of ${listed(unread, 6)}: oxygen that falls too low there would not be told. Name its column under \`columns\`, as in \`oxygen: O2\`, and read oxygen from outside meanwhile. ${cautionInShort}`,
      at: placeAt(layout.places, ['columns']).key ?? layout.at,
      about: layout.id,
    };
  }
}

/** Rooms with a fill whose regime has little oxygen, and that is not on record as opened. */
function lowOxygenRooms({ plan, fruit }: ComputedSeason): ReadonlySet<string> {
  const rooms = new Set<string>();
  for (const { id, room, regime } of plan.fills.values()) {
    const { opened, emptied } = plan.progress.get(id) ?? {};
    if (room && regime && !opened && !emptied && fruit.regime(regime.value)?.oxygen) rooms.add(room.value);
  }
  return rooms;
}

/** A key that no reading goes by is an error of its own, and may be that of the oxygen. */
function isColumnMisspelt(layout: ReadingsLayout): boolean {
  const known: ReadonlySet<string> = new Set(['time', 'room', ...quantities]);
  const written = placeAt(layout.places, ['columns']).entries?.keys() ?? [];
  return [...written].some((key) => !known.has(key) || key === 'oxygen');
}
