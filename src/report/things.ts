import { rules } from '../findings/rules';
import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Entry } from '../plan/model';
import type { Span } from '../plan/span';
import { nitrogenFigures, scrubberFigures } from './course-figures';
import { figuresIn, type NamedFigure, named } from './named-figures';
import { powerFigures } from './power-figures';
import { fillFigures, lotThing, roomThings } from './room-things';
import { entryThing, type Thing } from './thing';

/** Everything that can be explained, rooms first. */
export function thingsOf(season: ComputedSeason): Thing[] {
  const { plan, fruit, plant } = season;
  return [
    ...roomThings(season),
    ...[...plan.fills.values()].map((fill) =>
      entryThing('fill', fill, 'A fill', fillFigures(season, fill.id, fill.id)),
    ),
    ...[...plan.lots.values()].map((lot) => lotThing(season, lot)),
    ...varietyNames(season).map((name) => builtInThing('variety', name, plan.varieties, fruit.variety(name))),
    ...fruit.regimeNames.map((name) => builtInThing('regime', name, plan.regimes, fruit.regime(name))),
    ...[...plan.scrubbers.values()].map((scrubber) => {
      const load = plant?.scrubbers.find((one) => one.scrubber.id === scrubber.id);
      return entryThing('scrubber', scrubber, `A ${scrubber.kind ?? ''} scrubber`.replace('  ', ' '), [
        ...figuresIn(scrubber.id, scrubber),
        ...named(scrubber.id, { capacity: load?.capacity, 'settles-at': load?.settlesAt }),
        ...named(scrubber.id, { 'peak-load': load?.peak?.load, 'peak-share': load?.peak?.share }),
        ...scrubberFigures(season, scrubber, load),
        ...byWeek(scrubber.id, load?.weeks ?? [], (week) => ({ load: week.load, share: week.share })),
      ]);
    }),
    ...[...plan.nitrogenSources.values()].map((source) =>
      entryThing('nitrogen source', source, 'A nitrogen source', [
        ...figuresIn(source.id, source),
        ...nitrogenFigures(season, source),
        ...byWeek(
          source.id,
          plant?.nitrogen.find((one) => one.source.id === source.id)?.weeks ?? [],
          (week) => ({ hours: week.hours, share: week.share }),
        ),
      ]),
    ),
    ...[...plan.refrigerationGroups.values()].map((group) =>
      entryThing('refrigeration group', group, 'A refrigeration group', [
        ...figuresIn(group.id, group),
        ...byWeek(
          group.id,
          plant?.refrigeration.find((one) => one.group.id === group.id)?.weeks ?? [],
          (week) => ({ load: week.load, share: week.share }),
        ),
      ]),
    ),
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
  return {
    kind,
    id: name,
    summary: entry ? `A ${kind} with values of the plan's own` : `A built-in ${kind}`,
    at: entry ? [entry.at] : [],
    within: entry ? [entry.places.span] : [],
    figures: data ? figuresIn(name, data) : [],
  };
}

function sectionThings(computed: ComputedSeason): Thing[] {
  const { season, packing, policy } = computed.plan;
  const thing = (kind: string, at: Span | undefined, figures: NamedFigure[]): Thing => ({
    kind: 'section',
    id: kind,
    summary: `The section ${kind}`,
    at: at ? [at] : [],
    within: [],
    figures,
  });
  return [
    ...(season
      ? [thing('season', season.at, [...figuresIn('season', season), ...powerFigures(computed)])]
      : []),
    ...(packing ? [thing('packing', packing.at, figuresIn('packing', packing))] : []),
    thing('policy', policy.at, figuresIn('policy', policy)),
  ];
}

function byWeek<W extends { readonly week: number }>(
  owner: string,
  weeks: readonly W[],
  figures: (week: W) => Readonly<Record<string, Figure | undefined>>,
): NamedFigure[] {
  return weeks.flatMap((week) => {
    const labelled = Object.entries(figures(week)).map(([key, figure]) => [
      `${key}-${formatWeek(week.week)}`,
      figure,
    ]);
    return named(owner, Object.fromEntries(labelled), true);
  });
}
