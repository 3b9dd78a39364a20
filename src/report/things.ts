import { rules } from '../findings/rules';
import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import type { Entry } from '../plan/model';
import type { Span } from '../plan/span';
import { figuresIn, type NamedFigure, named } from './named-figures';
import { plantThings } from './plant-things';
import { powerFigures } from './power-figures';
import { fillFigures, lotThing, roomThings } from './room-things';
import { entryThing, type Thing, withFigures } from './thing';

/** Made once for a season, with the figures that have been asked for: a hover asks again at every move. */
const made = new WeakMap<ComputedSeason, readonly Thing[]>();

/** Everything that can be explained, rooms first. */
export function thingsOf(season: ComputedSeason): readonly Thing[] {
  const known = made.get(season) ?? allThings(season);
  made.set(season, known);
  return known;
}

function allThings(season: ComputedSeason): Thing[] {
  const { plan, fruit } = season;
  return [
    ...roomThings(season),
    ...[...plan.fills.values()].map((fill) =>
      entryThing('fill', fill, 'A fill', () => fillFigures(season, fill.id, fill.id)),
    ),
    ...[...plan.lots.values()].map((lot) => lotThing(season, lot)),
    ...varietyNames(season).map((name) => builtInThing('variety', name, plan.varieties, fruit.variety(name))),
    ...fruit.regimeNames.map((name) => builtInThing('regime', name, plan.regimes, fruit.regime(name))),
    ...plantThings(season),
    ...[...plan.binTypes.values()].map((bin) =>
      entryThing('bin type', bin, 'A bin type', figuresIn(bin.id, bin)),
    ),
    ...[...plan.demand.values()].map((demand) =>
      entryThing('demand', demand, 'A demand', [
        ...figuresIn(demand.id, demand),
        ...[...demand.byWeek].flatMap(([week, cartons]) =>
          named(demand.id, { [`cartons-${formatWeek(week)}`]: cartons }, true),
        ),
      ]),
    ),
    ...sectionThings(season),
    ...rules.map((rule) => ({
      kind: 'finding',
      id: rule.code,
      summary: `${rule.summary} (${rule.family}, ${rule.severity} unless the plan says otherwise)`,
      at: [],
      within: [],
      figures: [],
    })),
  ];
}

/** Built-in names, the plan's own, and others that its lots use for one of these. */
function varietyNames({ plan, fruit }: ComputedSeason): string[] {
  const used = [...plan.lots.values()].flatMap(({ variety }) => (variety ? [variety.value] : []));
  return [...new Set([...fruit.varietyNames, ...used.filter((name) => fruit.variety(name))])];
}

function builtInThing(
  kind: string,
  name: string,
  own: ReadonlyMap<string, Entry>,
  data: object | undefined,
): Thing {
  const entry = own.get(name);
  return withFigures(
    {
      kind,
      id: name,
      summary: entry ? `A ${kind} with values of the plan's own` : `A built-in ${kind}`,
      at: entry ? [entry.at] : [],
      within: entry ? [entry.places.span] : [],
    },
    () => (data ? figuresIn(name, data) : []),
  );
}

function sectionThings(computed: ComputedSeason): Thing[] {
  const { season, packing, policy } = computed.plan;
  const thing = (kind: string, at: Span | undefined, figures: () => NamedFigure[]): Thing =>
    withFigures(
      { kind: 'section', id: kind, summary: `The section ${kind}`, at: at ? [at] : [], within: [] },
      figures,
    );
  return [
    ...(season
      ? [thing('season', season.at, () => [...figuresIn('season', season), ...powerFigures(computed)])]
      : []),
    ...(packing ? [thing('packing', packing.at, () => figuresIn('packing', packing))] : []),
    thing('policy', policy.at, () => figuresIn('policy', policy)),
  ];
}
