import { rules } from '../findings/rules';
import type { ComputedSeason } from '../findings/types';
import type { RoomKeeping } from '../keeping/types';
import { formatDay, formatWeek } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Entry, Lot } from '../plan/model';
import type { Span } from '../plan/span';
import type { FilledRoom } from '../room/types';
import { figuresIn, type NamedFigure, named } from './named-figures';
import { fillsByRoom, varietiesOf } from './parts';

/** Something of a plan that can be explained: an entry, a built-in variety or regime, or a finding's code. */
export interface Thing {
  readonly kind: string;
  readonly id: string;
  /** What it is, in a few words. */
  readonly summary: string;
  /** Where it is defined; empty for what is built in. */
  readonly at: readonly Span[];
  /** The whole entry, to tell which findings stand in it. */
  readonly within: readonly Span[];
  readonly figures: readonly NamedFigure[];
}

/** Everything that can be explained, rooms first. */
export function thingsOf(season: ComputedSeason): Thing[] {
  const { plan, fruit, plant } = season;
  return [
    ...roomThings(season),
    ...[...plan.fills.values()].map((fill) =>
      entryThing('fill', fill, 'A fill', fillFigures(season, fill.id, fill.id)),
    ),
    ...[...plan.lots.values()].map((lot) => lotThing(season, lot)),
    ...fruit.varietyNames.map((name) => builtInThing('variety', name, plan.varieties, fruit.variety(name))),
    ...fruit.regimeNames.map((name) => builtInThing('regime', name, plan.regimes, fruit.regime(name))),
    ...[...plan.scrubbers.values()].map((scrubber) => {
      const load = plant?.scrubbers.find((one) => one.scrubber.id === scrubber.id);
      return entryThing('scrubber', scrubber, `A ${scrubber.kind ?? ''} scrubber`.replace('  ', ' '), [
        ...figuresIn(scrubber.id, scrubber),
        ...named(scrubber.id, { capacity: load?.capacity, 'settles-at': load?.settlesAt }),
        ...named(scrubber.id, { 'peak-load': load?.peak?.load, 'peak-share': load?.peak?.share }),
        ...byWeek(scrubber.id, load?.weeks ?? [], (week) => ({ load: week.load, share: week.share })),
      ]);
    }),
    ...[...plan.nitrogenSources.values()].map((source) =>
      entryThing('nitrogen source', source, 'A nitrogen source', [
        ...figuresIn(source.id, source),
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

function entryThing(kind: string, entry: Entry, summary: string, figures: readonly NamedFigure[]): Thing {
  return { kind, id: entry.id, summary, at: [entry.at], within: [entry.places.span], figures };
}

/** A room has its own figures and those of what goes into it. */
function roomThings(season: ComputedSeason): Thing[] {
  const byRoom = fillsByRoom(season.filled);
  return [...season.capacities.values()].map((capacity) => {
    const { room } = capacity;
    const fills = byRoom.get(room.id) ?? [];
    const once = fills.length === 1;
    return {
      ...entryThing('room', room, roomSummary(fills), [
        ...figuresIn(room.id, room),
        ...figuresIn(room.id, capacity, ['room']),
        ...fills.flatMap(({ fill }) => fillFigures(season, fill.id, once ? room.id : fill.id)),
      ]),
      within: [room.places.span, ...fills.map(({ fill }) => fill.places.span)],
    };
  });
}

function roomSummary(fills: readonly FilledRoom[]): string {
  if (fills.length === 0) return 'A room without a fill';
  const texts = fills.map((filled) => {
    const regime = filled.fill.regime ? `, regime ${filled.fill.regime.value}` : '';
    const sealed = filled.fill.sealed ? `, sealed ${formatDay(filled.fill.sealed.value)}` : '';
    return `fill ${filled.fill.id}: ${varietiesOf(filled).join(', ')}${regime}${sealed}`;
  });
  return `A room with ${texts.join('; ')}`;
}

function fillFigures(season: ComputedSeason, fill: string, owner: string): NamedFigure[] {
  const filled = season.filled.get(fill);
  if (!filled) return [];
  const keeping = season.keeping.get(fill);
  const window = keeping?.window;
  return [
    ...figuresIn(owner, filled, ['fill', 'room', 'capacity', 'regime', 'lots', 'intake']),
    ...named(owner, {
      earliest: window?.earliest.because,
      'best-before': window?.bestBefore.because,
      latest: window?.latest.because,
    }),
    ...filled.intake.flatMap(({ day, heat }) => named(owner, { [`cooling-${formatDay(day)}`]: heat }, true)),
    ...filled.lots.flatMap(({ lot, bins, fruit }) =>
      named(owner, { [`${lot.id}-bins`]: bins, [`${lot.id}-fruit`]: fruit }, true),
    ),
    ...lotKeepingFigures(owner, keeping),
  ];
}

function lotKeepingFigures(owner: string, keeping: RoomKeeping | undefined): NamedFigure[] {
  return (keeping?.lots ?? []).flatMap(({ lot, storageLife, spread }) =>
    named(owner, { [`${lot.id}-storage-life`]: storageLife, [`${lot.id}-spread`]: spread }, true),
  );
}

function lotThing(season: ComputedSeason, lot: Lot): Thing {
  const stays = [...season.keeping.values()].flatMap((keeping) => {
    const found = keeping.lots.find((one) => one.lot.id === lot.id);
    return found ? [{ fill: keeping.filled.fill.id, found }] : [];
  });
  const keeping = stays.flatMap(({ fill, found }) => {
    const owner = stays.length === 1 ? lot.id : fill;
    const prefix = stays.length === 1 ? '' : `${lot.id}-`;
    return named(owner, {
      [`${prefix}storage-life`]: found.storageLife,
      [`${prefix}spread`]: found.spread,
      [`${prefix}fruit`]: found.inRoom.fruit,
    });
  });
  const variety = lot.variety ? ` of ${lot.variety.value}` : '';
  const where = stays.length > 0 ? ` in ${stays.map(({ fill }) => fill).join(', ')}` : ', in no fill';
  const terms = stays.flatMap(({ found }) => (found.term ? [`; ${found.termReason}`] : []));
  return entryThing('lot', lot, `A lot${variety}${where}${terms[0] ?? ''}`, [
    ...figuresIn(lot.id, lot),
    ...keeping,
  ]);
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

function sectionThings({ plan }: ComputedSeason): Thing[] {
  const { season, packing, policy } = plan;
  const thing = (kind: string, at: Span | undefined, figures: NamedFigure[]): Thing => ({
    kind: 'section',
    id: kind,
    summary: `The section ${kind}`,
    at: at ? [at] : [],
    within: [],
    figures,
  });
  return [
    ...(season ? [thing('season', season.at, figuresIn('season', season))] : []),
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
