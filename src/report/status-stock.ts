import type { ComputedSeason } from '../findings/types';
import { type DisplayUnits, measure } from '../plan/display';
import type { PackedRun, Plan } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { byName } from './papers/by-name';
import { present, varietyName } from './parts';
import type { StatusReport } from './schemas';
import { isFilled, isFromField, lotStand } from './status-crop';

type StockPart = StatusReport['stock'];
type InRoom = StockPart['rooms'][number];

/** Fruit by room and variety, fruit in no filled room, and packed cartons by variety and class. */
export function stockPart(season: ComputedSeason, units: DisplayUnits): StockPart {
  const rooms = [...season.filled.values()]
    .filter((filled) => isFilled(season.plan, filled))
    .sort((a, b) => byName(a.room.id, b.room.id) || byName(a.fill.id, b.fill.id))
    .flatMap((filled) => inRoom(season.plan, filled, units));
  return { rooms, elsewhere: elsewherePart(season.plan, rooms), cartons: cartonsPart(season.plan) };
}

function inRoom(plan: Plan, filled: FilledRoom, units: DisplayUnits): InRoom[] {
  const { fill, room } = filled;
  const runs = [...plan.packed.values()].filter((run) => run.fill?.value === fill.id);
  const varieties = [...new Set(filled.lots.map(varietyName))].sort(byName);
  const isEmptied = plan.progress.get(fill.id)?.emptied !== undefined;
  return varieties.map((variety) => {
    const lots = filled.lots.filter((lot) => varietyName(lot) === variety);
    const own = runs.filter((run) => varietyOf(plan, run) === variety);
    const binsIn = sum(lots.map(({ bins }) => bins.value));
    const binsPacked = sum(own.map(({ bins }) => bins?.value ?? 0));
    const binsThere = isEmptied ? 0 : Math.max(0, binsIn - binsPacked);
    const kilograms = sum(lots.map(({ fruit }) => fruit.value));
    const share = binsIn > 0 ? binsThere / binsIn : 0;
    return present({
      room: room.id,
      fill: fill.id,
      variety,
      binsIn,
      binsPacked,
      binsThere,
      binsNotRecorded: binsIn - binsPacked - binsThere,
      fruitThere: measure((kilograms * share) / 1000, 't', units),
      cartonsPacked: [...cartonsByClass(own)].map(([packClass, cartons]) => ({ packClass, cartons })),
    });
  });
}

function varietyOf(plan: Plan, run: PackedRun): string {
  return plan.lots.get(run.lot?.value ?? '')?.variety?.value ?? '';
}

function cartonsByClass(runs: readonly PackedRun[]): Map<string, number> {
  const byClass = new Map<string, number>();
  for (const { cartons } of runs)
    for (const [packClass, count] of cartons)
      byClass.set(packClass, (byClass.get(packClass) ?? 0) + count.value);
  return byClass;
}

function elsewherePart(plan: Plan, rooms: readonly InRoom[]): StockPart['elsewhere'] {
  const lots = [...plan.lots.values()].map(lotStand);
  const varieties = [...new Set(lots.map(({ variety }) => variety))].sort(byName);
  return varieties.flatMap((variety) => {
    const received = sum(lots.filter((lot) => lot.variety === variety).map((lot) => lot.received));
    const inRooms = sum(rooms.filter((room) => room.variety === variety).map(({ binsIn }) => binsIn));
    const fromField = sum(
      [...plan.packed.values()]
        .filter((run) => isFromField(run) && varietyOf(plan, run) === variety)
        .map(({ bins }) => bins?.value ?? 0),
    );
    if (received === 0 && inRooms === 0 && fromField === 0) return [];
    const elsewhere = received - inRooms - fromField;
    return [
      {
        variety,
        received,
        inRooms,
        packedFromField: fromField,
        elsewhere: Math.max(0, elsewhere),
        ...(elsewhere < 0 && { beyondReceived: -elsewhere }),
      },
    ];
  });
}

function cartonsPart(plan: Plan): StockPart['cartons'] {
  const lines = new Map<string, { variety: string; packClass: string; packed: number; sold: number }>();
  const at = (variety: string, packClass: string) => {
    const key = JSON.stringify([variety, packClass]);
    const line = lines.get(key) ?? { variety, packClass, packed: 0, sold: 0 };
    lines.set(key, line);
    return line;
  };
  for (const run of plan.packed.values())
    for (const [packClass, cartons] of run.cartons)
      at(varietyOf(plan, run), packClass).packed += cartons.value;
  for (const { variety, packClass, cartons } of plan.sales.values())
    if (variety && packClass) at(variety.value, packClass.value).sold += cartons?.value ?? 0;
  return [...lines.values()]
    .map((line) => ({
      ...line,
      inStock: Math.max(0, line.packed - line.sold),
      ...(line.sold > line.packed && { beyondPacked: line.sold - line.packed }),
    }))
    .sort((a, b) => byName(a.variety, b.variety) || byName(a.packClass, b.packClass));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
