import type { ComputedSeason, Finding } from '../findings/types';
import { formatDay } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import { type DisplayUnits, measure, measureOf } from '../plan/display';
import type { FilledRoom, RoomCapacity } from '../room/types';
import { displayUnits } from './explain';
import {
  countFindings,
  fillsByRoom,
  givenDay,
  measures,
  planPart,
  present,
  sumOf,
  varietiesOf,
  varietyName,
} from './parts';
import { placeOf } from './place';
import type { RoomsReport } from './schemas';

type Row = RoomsReport['rooms'][number];

/** Each room with what goes into it: places, bins, fruit, gas volume, and cooling against its cooler. */
export function roomsReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  system?: UnitSystem,
): RoomsReport {
  const { plan } = season;
  const units = displayUnits(plan, system);
  const byRoom = fillsByRoom(season.filled);
  const rooms = [...season.capacities.values()].flatMap((capacity) => {
    const fills = byRoom.get(capacity.room.id) ?? [undefined];
    return fills.map((filled) => roomRow(season, capacity, filled, units));
  });
  return {
    format: 'lotwright-rooms-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    counts: countFindings(findings),
    rooms,
    totals: present({
      rooms: season.capacities.size,
      filledRooms: byRoom.size,
      // A room filled twice in a season has its places once.
      places: sumOf([...season.capacities.values()].map(({ places }) => measureOf(places, units))),
      bins: sumOf(rooms.map(({ bins }) => bins)),
      fruit: sumOf(rooms.map(({ fruit }) => fruit)),
    }),
    varieties: varietyTotals(season, units),
  };
}

function roomRow(
  season: ComputedSeason,
  capacity: RoomCapacity,
  filled: FilledRoom | undefined,
  units: DisplayUnits,
): Row {
  const { room } = capacity;
  return {
    room: room.id,
    varieties: filled ? varietiesOf(filled) : [],
    place: placeOf(season.plan, (filled?.fill ?? room).at),
    ...present({
      fill: filled?.fill.id,
      regime: filled?.fill.regime?.value,
      firstBin: givenDay(filled?.fill.firstBin),
      lastBin: givenDay(filled?.fill.lastBin),
      sealed: givenDay(filled?.fill.sealed),
      peakCoolingTerms: filled && peakTerms(filled, units),
    }),
    ...measures(
      {
        volume: capacity.volume,
        places: capacity.places,
        placesByGeometry: capacity.placesByGeometry,
        bins: filled?.bins,
        utilisation: filled?.utilisation,
        fruit: filled?.fruit,
        freeGasVolume: filled?.freeGasVolume,
        peakCooling: filled?.peakCooling,
        holdingCooling: filled?.holdingCooling,
        coolerCapacity: room.coolerCapacity,
      },
      units,
    ),
  };
}

/** The heat of the day of filling that asks most, term by term. */
function peakTerms({ intake }: FilledRoom, units: DisplayUnits): Row['peakCoolingTerms'] {
  const [first] = intake;
  if (!first) return undefined;
  const most = intake.reduce((best, one) => (one.heat.value > best.heat.value ? one : best), first);
  const { day, fieldHeat, binHeat, respirationHeat, transmissionHeat, airChangeHeat, fanHeat } = most;
  const { lightHeat, vehicleHeat, peopleHeat } = most;
  const ofFruit = { fieldHeat, binHeat, respirationHeat };
  const beside = { transmissionHeat, airChangeHeat, fanHeat, lightHeat, vehicleHeat, peopleHeat };
  const terms = { ...ofFruit, ...beside };
  return { day: formatDay(day), ...measures(terms, units) };
}

function varietyTotals(season: ComputedSeason, units: DisplayUnits): RoomsReport['varieties'] {
  const totals = new Map<string, { rooms: Set<string>; bins: number; fruit: number }>();
  for (const filled of season.filled.values()) {
    for (const lot of filled.lots) {
      const name = varietyName(lot);
      const total = totals.get(name) ?? { rooms: new Set(), bins: 0, fruit: 0 };
      total.rooms.add(filled.room.id);
      total.bins += lot.bins.value;
      total.fruit += lot.fruit.value / 1000;
      totals.set(name, total);
    }
  }
  return [...totals].map(([variety, { rooms, bins, fruit }]) => ({
    variety,
    rooms: rooms.size,
    ...present({ bins: measure(bins, 'bins', units), fruit: measure(fruit, 't', units) }),
  }));
}
