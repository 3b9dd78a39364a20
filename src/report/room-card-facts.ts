import type { ComputedSeason } from '../findings/types';
import { TOLD_CONFIDENCES } from '../keeping/by-confidence';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, showFigure } from '../plan/display';
import type { FilledRoom, RoomCapacity } from '../room/types';
import type { CardFact, FactGroup } from './card-types';
import { figureId, figuresOf, type NamedFigure } from './named-figures';
import { fillFigures } from './room-things';

/** What a card tells at a glance, by group: the figures' own names, in the order they are read in. */
const GROUPS: readonly (readonly [title: string, slugs: readonly string[]])[] = [
  ['Room', ['volume', 'places', 'fruit-when-full', 'pressure-half-life']],
  ['Fruit', ['bins', 'fruit', 'utilisation', 'free-gas-volume', 'carbon-dioxide-in-store']],
  [
    'Gas',
    [
      'nitrogen-volume',
      'nitrogen-hours',
      'waits-for-nitrogen',
      'hours-to-set-point',
      'lowest-oxygen',
      'highest-carbon-dioxide',
      'oxygen-at-end',
      'leak-share-of-fruit-use',
      'fresh-air',
    ],
  ],
  [
    'Cooling',
    ['peak-cooling', 'cooler-load', 'holding-cooling', 'days-to-cold', 'days-to-storage', 'weight-lost'],
  ],
  [
    'Opening',
    ['earliest', 'best-before', 'latest', ...TOLD_CONFIDENCES.map((confidence) => `latest-at-${confidence}`)],
  ],
];

/** The figures of a fill and its room, or of a room that nothing fills; each can be asked how it came about. */
export function roomFacts(
  season: ComputedSeason,
  of: FilledRoom | RoomCapacity,
  units: DisplayUnits,
): FactGroup[] {
  const figures = 'fill' in of ? figuresOfFill(season, of) : figuresOf(of.room.id, of);
  const bySlug = new Map(figures.filter(({ minor }) => !minor).map((named) => [named.slug, named]));
  return GROUPS.flatMap(([title, slugs]) => {
    const facts = slugs.flatMap((slug) => {
      const named = bySlug.get(slug);
      return named ? [fact(named, units)] : [];
    });
    return facts.length > 0 ? [{ title, facts }] : [];
  });
}

/** A fill's figures go by its room's name where the room is filled once, as `explain` has them. */
function figuresOfFill(season: ComputedSeason, { room, fill, capacity }: FilledRoom): NamedFigure[] {
  const once = [...season.filled.values()].filter((other) => other.room.id === room.id).length === 1;
  return [...figuresOf(room.id, capacity), ...fillFigures(season, fill.id, once ? room.id : fill.id)];
}

function fact(named: NamedFigure, units: DisplayUnits): CardFact {
  const { figure, counted } = named;
  const week = counted ? `, ${formatWeek(counted.week)}` : '';
  return { label: figure.name, value: `${showFigure(figure, units)}${week}`, figure: figureId(named) };
}
