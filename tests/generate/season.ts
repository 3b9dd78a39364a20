import { formatWeek } from '../../src/plan/dates';
import { generateHarvest } from './harvest';
import { fillsText, lotsText } from './harvest-text';
import { BIN_KG, CARTON_KG, FIRST_WEEK, generateDemand, packingBinsAWeek } from './market';
import { demandText, packingText } from './market-text';
import { plantText } from './plant';
import { randomNumbers } from './random';
import { regimesText } from './regimes-text';
import { generateRooms, roomsForKinds } from './rooms';
import { roomsText } from './rooms-text';
import { kinds } from './varieties';

export interface SeasonSize {
  /** Rooms in the store; 48 is the full-size sample. */
  readonly rooms: number;
  readonly seed: number;
}

/** A file of a plan folder, its path within the folder. */
export interface SeasonFile {
  readonly path: string;
  readonly text: string;
}

/** What the committed sample `full-season` is made with. */
export const FULL_SEASON: SeasonSize = { rooms: 48, seed: 2026 };

const WEEKS = 45;

/**
 * A season of an invented company, as text: rooms, harvest, plant and market that fit together the way they do in a
 * store that has been planned. The same size and seed give the same text.
 */
export function generateSeason({ rooms: count, seed }: SeasonSize): SeasonFile[] {
  const random = randomNumbers(seed);
  const rooms = generateRooms(count, random);
  const harvest = generateHarvest(roomsForKinds(rooms), random);
  const weekLabels = Array.from({ length: WEEKS }, (_, index) => formatWeek(FIRST_WEEK + index));
  const demands = generateDemand(harvest, weekLabels, random);
  const largestRoom = Math.max(...rooms.map((room) => room.places));
  const buildings = (['N', 'E', 'W'] as const).filter((building) =>
    rooms.some((room) => room.building === building),
  );
  const names = { N: 'north', E: 'east', W: 'west' };
  return [
    { path: 'season.lotplan.yaml', text: seasonText() },
    ...buildings.map((building) => ({
      path: `rooms-${names[building]}.lotplan.yaml`,
      text: roomsText(building, rooms, harvest.fills),
    })),
    { path: 'plant.lotplan.yaml', text: plantText(harvest.fills, rooms) },
    { path: 'varieties-and-regimes.lotplan.yaml', text: regimesText() },
    ...kinds
      .filter((kind) => harvest.lots.some((lot) => lot.kind === kind))
      .map((kind) => ({
        path: `lots/${kind.name.toLowerCase().replaceAll(' ', '-')}.lotplan.yaml`,
        text: lotsText(kind, harvest),
      })),
    { path: 'fills.lotplan.yaml', text: fillsText(harvest) },
    { path: 'demand.lotplan.yaml', text: demandText(demands, weekLabels) },
    { path: 'packing.lotplan.yaml', text: packingText(packingBinsAWeek(demands, WEEKS, largestRoom)) },
  ];
}

function seasonText(): string {
  return `# Orrowby Vale Growers, the whole store. The company, its places and its figures are invented.
#
# The plan is spread over the files of this folder:
#   rooms-*                 the rooms, a file for each store
#   plant                   scrubbers, nitrogen, refrigeration
#   varieties-and-regimes   how the fruit is kept
#   lots/*                  the harvest, a file for each variety
#   fills                   which lots go to which room
#   demand, packing         what is wanted, and what the packhouse can run
lotwright: 1

season:
  name: Harvest 2026
  starts: 2026-08-24
  ends: 2027-07-04
  units: metric
  carton: ${CARTON_KG} kg
  currency: EUR
  outside-temperature: 18 °C

bins:
  plastic-1200:
    outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }
    net-fruit: ${BIN_KG} kg
    tare: 38 kg
    material: plastic

policy:
  confidence: 90 %
  intake-a-day: 17 % # most rooms are filled in six to ten days
  arrivals: evenly # bins wait under the eaves so that every day takes as many
  most-scrubber-load: 95 %
`;
}
