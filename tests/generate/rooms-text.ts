import { formatDay } from '../../src/plan/dates';
import { coolerCapacity, groupOf } from './plant';
import { flow } from './text';
import type { Building, GeneratedFill, GeneratedRoom } from './types';

const HEADINGS: Readonly<Record<Building, string>> = {
  N: '# North store: the oldest and smallest rooms, block walls, re-lined in 2014. Early fruit and small varieties.',
  E: '# East store, 2009. The back rows are held low in carbon dioxide.',
  W: '# West store, 2019: the largest and tightest rooms.',
};

const HEAT_TRANSFER: Readonly<Record<Building, string>> = { N: '0.24', E: '0.18', W: '0.15' };

/** One building's rooms. */
export function roomsText(
  building: Building,
  rooms: readonly GeneratedRoom[],
  fills: readonly GeneratedFill[],
): string {
  const own = rooms.filter((room) => room.building === building);
  const entries = own.map((room) =>
    entry(
      room,
      fills.find((fill) => fill.room === room),
    ),
  );
  return `${HEADINGS[building]}
lotwright: 1

rooms:
${entries.join('\n')}
`;
}

function entry(room: GeneratedRoom, fill: GeneratedFill | undefined): string {
  const metres = (value: number) => `${value.toFixed(1)} m`;
  const lines = [
    `inside: ${flow({ length: metres(room.length), width: metres(room.width), height: metres(room.height) })}`,
    'bin-type: plastic-1200',
    room.counted ? `places: ${room.places} # counted in August` : `lost-places: ${room.lostPlaces}`,
    `refrigeration: ${flow({ capacity: `${coolerCapacity(room)} kW`, group: groupOf(room) })}`,
    `heat-transfer: ${HEAT_TRANSFER[room.building]} W/m2K`,
    `tightness: ${flow({
      from: '250 Pa',
      to: '125 Pa',
      after: `${room.halfLife} min`,
      tested: formatDay(room.tested),
    })}`,
    ...gasLines(room, fill),
    ...readyOn(fill),
  ];
  return `  ${room.id}:\n${lines.map((line) => `    ${line}`).join('\n')}`;
}

/** A room kept in air is taken off the gas of the sealed ones: people go into it. */
function gasLines(room: GeneratedRoom, fill: GeneratedFill | undefined): string[] {
  if (fill?.role === 'air')
    return [`# kept in air this season: ducts to ${room.scrubber} and ${room.nitrogen} blanked off`];
  return [`scrubber: ${room.scrubber}`, `nitrogen: ${room.nitrogen}`];
}

/** Rooms are cooled down some days before their first bin; a room without fruit stands ready all the time. */
function readyOn(fill: GeneratedFill | undefined): string[] {
  if (!fill) return [];
  return [`ready: ${formatDay(fill.first - 2 - (fill.room.places % 5))}`];
}
