import type { ComputedSeason } from '../../findings/types';
import { type DisplayUnits, measure, measureOf } from '../../plan/display';
import type { FilledRoom, LotInRoom } from '../../room/types';
import { gasDays } from '../gas-days';
import { present, varietiesOf, varietyName } from '../parts';
import { openingOf } from '../timeline-room';
import type { LotInRoomAccount, LotPlace, RoomAccount } from './account';
import { type PublishedWeeks, setBy } from './basis';
import { weeksWithBins } from './whole-bins';

/** What people are told of a room's fill. */
export function roomAccount(
  season: ComputedSeason,
  filled: FilledRoom,
  units: DisplayUnits,
  published?: PublishedWeeks,
): RoomAccount {
  const { fill, room, regime } = filled;
  const opening = openingOf(season, filled);
  const window = season.keeping.get(fill.id)?.window;
  const packing = weeksWithBins(packedOf(season, fill.id), season.release?.problem.firstWeek ?? 0);
  const gas = gasDays(season, fill.id);
  const lots = filled.lots.map((lot) => lotInRoom(lot, units));
  const bins = Math.round(lots.reduce((sum, lot) => sum + lot.bins, 0));
  return {
    room: room.id,
    fill: fill.id,
    varieties: varietiesOf(filled),
    lots,
    growers: [...new Set(lots.flatMap(({ grower }) => grower ?? []))].sort(),
    bins,
    pinned: opening?.pinned ?? false,
    packing,
    binsLeft: bins - packing.reduce((sum, week) => sum + week.bins, 0),
    ...present({
      fruit: measureOf(filled.fruit, units),
      regime: fill.regime?.value,
      temperature: measureOf(regime?.temperature, units),
      oxygen: measureOf(regime?.oxygen, units),
      carbonDioxide: measureOf(regime?.carbonDioxide, units),
      nitrogen: fill.sealed && room.nitrogen?.value,
      scrubber: fill.sealed && room.scrubber?.value,
      firstBin: fill.firstBin?.value,
      lastBin: fill.lastBin?.value,
      sealed: fill.sealed?.value,
      earliest: window?.earliest.week,
      bestBefore: window?.bestBefore.week,
      latest: window?.latest.week,
      opens: opening?.week,
      setBy: opening && setBy(season, fill.id, opening, published),
      emptyBy: opening?.emptyBy,
      fivePercentBy: gas.fivePercent,
      setPointBy: gas.setPoint,
      ...freshAir(filled, units),
    }),
  };
}

/** Bins packed of a fill by week of the release problem; none without a schedule. */
export function packedOf({ release }: ComputedSeason, fill: string): readonly number[] {
  const at = release?.problem.rooms.findIndex((room) => room.fill === fill) ?? -1;
  return release?.result.schedule.packed[at] ?? [];
}

function lotInRoom(inRoom: LotInRoom, units: DisplayUnits): LotInRoomAccount {
  const { lot, bins, fruit } = inRoom;
  return {
    lot: lot.id,
    variety: varietyName(inRoom),
    bins: Math.round(bins.value),
    ...present({
      grower: lot.grower,
      block: lot.block,
      fruit: tonnes(fruit.value, units),
      firmness: measureOf(lot.maturity?.firmness, units),
    }),
  };
}

function tonnes(kilograms: number, units: DisplayUnits) {
  return measure(kilograms / 1000, 't', units);
}

function freshAir({ fill, freshAirVolumes, freeGasVolume }: FilledRoom, units: DisplayUnits) {
  if (!fill.sealed || !freshAirVolumes || !Number.isFinite(freshAirVolumes.value)) return {};
  return {
    freshAirVolumes: freshAirVolumes.value,
    freshAir: freeGasVolume && measure(freshAirVolumes.value * freeGasVolume.value, 'm3', units),
  };
}

/** A lot's part of a room: packed in the room's mix, so in proportion to its bins. */
export function lotPlace(
  season: ComputedSeason,
  inRoom: LotInRoom,
  room: RoomAccount,
  units: DisplayUnits,
): LotPlace {
  const all = room.lots.reduce((sum, { bins }) => sum + bins, 0);
  const share = all > 0 ? inRoom.bins.value / all : 0;
  const packed = packedOf(season, room.fill).map((bins) => bins * share);
  return {
    room: room.room,
    fill: room.fill,
    bins: Math.round(inRoom.bins.value),
    packedBefore: packedBefore(season, room.fill, inRoom.lot.id),
    packing: weeksWithBins(packed, season.release?.problem.firstWeek ?? 0),
    ...present({
      fruit: tonnes(inRoom.fruit.value, units),
      sealed: room.sealed,
      opens: room.opens,
      setBy: room.setBy,
      emptyBy: room.emptyBy,
    }),
  };
}

/** Bins of a lot that are on record as packed out of a fill. */
function packedBefore({ plan }: ComputedSeason, fill: string, lot: string): number {
  let bins = 0;
  for (const run of plan.packed.values())
    if (run.fill?.value === fill && run.lot?.value === lot) bins += run.bins?.value ?? 0;
  return Math.round(bins);
}
