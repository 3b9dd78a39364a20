import type { ComputedSeason } from '../../findings/types';
import { displayUnits, explainFigure } from '../../report/explain';
import { figureId } from '../../report/named-figures';
import { thingsOf } from '../../report/things';
import type { CursorPlace } from './cursor';

type Figures = Readonly<Record<string, readonly string[]>>;

/** Figures that follow from what a key says, by kind of entry and key: what a planner who points there asks about. */
const figuresOfKey: Readonly<Record<string, Figures>> = {
  room: {
    tightness: ['pressure-half-life', 'half-life-needed', 'leak-flow', 'oxygen-surplus'],
    'breather-bag': ['half-life-needed', 'oxygen-surplus'],
    leakage: ['oxygen-leak', 'leak-share-of-fruit-use', 'oxygen-surplus', 'oxygen-at-end'],
    scrubber: ['hours-to-scrubbing', 'highest-carbon-dioxide', 'steady-carbon-dioxide', 'scrubbed'],
    nitrogen: ['waits-for-nitrogen', 'hours-to-set-point', 'hours-to-five-percent', 'nitrogen-fed'],
    refrigeration: ['peak-cooling', 'cooler-load', 'days-to-cold', 'short-of-cooling'],
    loading: ['light-heat', 'vehicle-heat', 'people-heat', 'peak-cooling', 'cooler-load'],
    'bin-type': ['places', 'water-of-bins', 'weight-lost-to-bins'],
  },
  fill: {
    sealed: ['hours-to-set-point', 'hours-to-five-percent', 'hours-to-scrubbing', 'nitrogen-fed'],
    'first-bin': ['days-to-cold', 'days-to-storage', 'busiest-day-share', 'smallest-intake'],
    'last-bin': ['days-to-cold', 'busiest-day-share', 'largest-intake'],
    regime: ['lowest-oxygen', 'highest-carbon-dioxide', 'weight-lost'],
    respiration: ['carbon-dioxide-in-store', 'carbon-dioxide-made', 'oxygen-use', 'weight-lost'],
  },
  lot: { maturity: ['streif-index', 'storage-life'] },
  scrubber: {
    removal: ['capacity', 'peak-load', 'peak-duty', 'settles-at'],
    'at-level': ['capacity', 'peak-duty'],
    'hours-a-day': ['capacity', 'peak-duty'],
    beds: ['breakthrough-time', 'removal-by-carbon', 'bed-air'],
    charge: ['charge-takes-up', 'days-charge-lasts', 'lime-of-season'],
  },
  'nitrogen source': { flows: ['longest-wait', 'hours-of-queue', 'peak-hours'] },
  'refrigeration group': { capacity: ['peak-load', 'peak-share'] },
};

const kindOfSection: Readonly<Record<string, string>> = {
  rooms: 'room',
  fills: 'fill',
  lots: 'lot',
  scrubbers: 'scrubber',
  nitrogen: 'nitrogen source',
  refrigeration: 'refrigeration group',
};

/** The figures that follow from the key at the place, as `explain` tells them, their inputs left to it. */
export function figuresText(season: ComputedSeason, { path }: CursorPlace): string | undefined {
  const [section = '', id, key = ''] = path[0] === 'plant' ? path.slice(1) : path;
  const kind = kindOfSection[section];
  const slugs = kind === undefined ? undefined : figuresOfKey[kind]?.[key];
  if (!slugs || id === undefined) return undefined;
  const thing = thingsOf(season).find((one) => one.kind === kind && one.id === id);
  const named = slugs.flatMap((slug) => thing?.figures.filter((one) => one.slug === slug) ?? []);
  const [first] = named;
  if (!first) return undefined;
  const { system } = displayUnits(season.plan);
  const said = new Set<string>();
  const told = named.map(({ figure }) => {
    const text = explainFigure(figure, season.plan, system, { format: 'markdown', depth: 0 });
    return (figure.beside ?? []).reduce((rest, { because }) => {
      // What several figures have in common is said once.
      if (said.has(because)) return rest.replace(` ${because}`, '');
      said.add(because);
      return rest;
    }, text);
  });
  return `${told.join('\n\n')}\n\nWith all inputs: \`lotwright explain ${figureId(first)}\``;
}
