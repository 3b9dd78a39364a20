import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import type { RoomKeeping } from '../keeping/types';
import type { Openings } from '../plant/weeks';
import { marketMeasures } from './market-measures';
import type { Measure } from './measure';
import { plantMeasures } from './plant-measures';
import type { AmountUnit, MeasureKind, Subject } from './types';

/** All measures of a season, by key. */
export function measuresOf(season: ComputedSeason): Map<string, Measure> {
  const opens = opensIn(season);
  const ofFills = [...season.keeping.values()].flatMap((keeping) => fillMeasures(season, keeping, opens));
  return new Map(
    [...ofFills, ...plantMeasures(season), ...marketMeasures(season)].map((measure) => [
      measure.key,
      measure,
    ]),
  );
}

/** Fill, by its name, with what the name of its varieties is in demand. */
export function tagsOfFill(season: Pick<ComputedSeason, 'filled'>, fill: string): string[] {
  const lots = season.filled.get(fill)?.lots ?? [];
  return [`fill:${fill}`, ...new Set(lots.map(({ lot }) => `variety:${lot.variety?.value ?? ''}`))];
}

function fillMeasures(
  season: ComputedSeason,
  { filled, window }: RoomKeeping,
  opens: Openings | undefined,
): Measure[] {
  const { fill, room, bins, carbonDioxideInStore, coolerLoad } = filled;
  const about: Subject = { of: 'fill', fill: fill.id, room: room.id };
  const own = [`fill:${fill.id}`];
  const one = (kind: MeasureKind, unit: AmountUnit, value: number | undefined, limit?: number): Measure[] =>
    value === undefined || !Number.isFinite(value)
      ? []
      : [
          {
            kind,
            key: `${kind}/${fill.id}`,
            about,
            unit,
            value,
            ...(limit !== undefined && { limit }),
            tags: own,
          },
        ];
  const problem = season.release?.problem;
  const isOfFill = (one: { readonly fill: string }) => one.fill === fill.id;
  // A room that was opened in fact and packed out has no week left to choose, but it has opened.
  const isReleased = problem?.rooms.some(isOfFill) || problem?.standing?.opened.some(isOfFill);
  const week = opens?.get(fill.id);
  const opening: Measure[] = isReleased
    ? [
        {
          kind: 'opens',
          key: `opens/${fill.id}`,
          about,
          unit: 'week',
          ...(week !== undefined && { value: week }),
          // Where rooms open is decided together for all of a variety.
          tags: tagsOfFill(season, fill.id),
        },
      ]
    : [];
  return [
    ...one('earliest', 'week', window?.earliest.week),
    ...one('best-before', 'week', window?.bestBefore.week),
    ...one('latest', 'week', window?.latest.week),
    ...one('window', 'weeks', window && Math.max(0, window.latest.week - window.earliest.week + 1)),
    ...opening,
    ...one('bins-stored', 'bins', bins?.value),
    ...one('carbon-dioxide', 'kg/day', carbonDioxideInStore?.value),
    ...one('room-cooling', '%', coolerLoad?.value, 100),
  ];
}

export type { Measure };
