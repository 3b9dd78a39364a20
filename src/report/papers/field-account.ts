import type { ComputedSeason } from '../../findings/types';
import { type DisplayUnits, measure } from '../../plan/display';
import { netFruitOf } from '../../release/field-sources';
import { present } from '../parts';
import { type FieldAccount, FROM_FIELD, type LotPlace } from './account';
import { weeksWithBins } from './whole-bins';

/** What is packed at harvest, from no room. */
export function fieldAccounts({ plan, release }: ComputedSeason, units: DisplayUnits): FieldAccount[] {
  if (!release) return [];
  const { problem, result } = release;
  const parts = problem.rooms.flatMap(({ fromField, bins }, at) =>
    fromField ? [{ lot: fromField.lot, bins, packed: result.schedule.packed[at] ?? [] }] : [],
  );
  // A lot that is picked over several weeks comes in a part for each.
  return [...new Set(parts.map(({ lot }) => lot))].map((id) => {
    const own = parts.filter(({ lot }) => lot === id);
    const lot = plan.lots.get(id);
    const bins = sum(own.map((part) => part.bins));
    const packed = Array.from({ length: problem.weeks }, (_, week) =>
      sum(own.map((part) => part.packed[week] ?? 0)),
    );
    const packing = weeksWithBins(packed, problem.firstWeek);
    const netFruit = lot && netFruitOf(plan, lot);
    return {
      lot: id,
      variety: lot?.variety?.value ?? '',
      bins: Math.round(bins),
      packing,
      binsLeft: Math.round(bins) - sum(packing.map((week) => week.bins)),
      ...present({
        fruit: netFruit === undefined ? undefined : measure((bins * netFruit) / 1000, 't', units),
      }),
    };
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** The same as a place of the lot. */
export function fieldPlace({ lot, bins, packing, fruit }: FieldAccount): LotPlace {
  return { packedBefore: 0, room: FROM_FIELD, fill: `field:${lot}`, bins, packing, ...present({ fruit }) };
}
