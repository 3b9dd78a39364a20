import type { ComputedSeason } from '../findings/types';
import { formatWeek } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { NitrogenSource, RefrigerationGroup, Scrubber } from '../plan/model';
import { nitrogenFigures, scrubberFigures } from './course-plant';
import { largerCropFigure } from './larger-crop';
import { figuresIn, type NamedFigure, named } from './named-figures';
import { entryThing, type Thing } from './thing';

/** Scrubbers, nitrogen sources and refrigeration groups with their figures, those of each week among them. */
export function plantThings(season: ComputedSeason): Thing[] {
  const { plan } = season;
  return [
    ...[...plan.scrubbers.values()].map((scrubber) => scrubberThing(season, scrubber)),
    ...[...plan.nitrogenSources.values()].map((source) => nitrogenThing(season, source)),
    ...[...plan.refrigerationGroups.values()].map((group) => groupThing(season, group)),
  ];
}

function scrubberThing(season: ComputedSeason, scrubber: Scrubber): Thing {
  const { id } = scrubber;
  const summary = `A ${scrubber.kind ?? ''} scrubber`.replace('  ', ' ');
  return entryThing('scrubber', scrubber, summary, () => {
    const load = season.plant?.scrubbers.find((one) => one.scrubber.id === id);
    return [
      ...figuresIn(id, scrubber),
      ...named(id, { capacity: load?.capacity, 'settles-at': load?.settlesAt }),
      ...named(id, { 'peak-load': load?.peak?.load, 'peak-share': load?.peak?.share }),
      ...largerCropFigure(season, 'scrubber', id),
      ...named(id, { 'oxygen-carried-in': load?.oxygenCarriedIn }),
      ...scrubberFigures(season, scrubber, load),
      ...byWeek(id, load?.weeks ?? [], (week) => ({ load: week.load, share: week.share })),
    ];
  });
}

function nitrogenThing(season: ComputedSeason, source: NitrogenSource): Thing {
  const { id } = source;
  return entryThing('nitrogen source', source, 'A nitrogen source', () => {
    const weeks = season.plant?.nitrogen.find((one) => one.source.id === id)?.weeks ?? [];
    const peak = highest(weeks, ({ hours }) => hours.value);
    return [
      ...figuresIn(id, source),
      ...named(id, { 'peak-hours': peak?.hours, 'peak-share': peak?.share }),
      ...largerCropFigure(season, 'nitrogen', id),
      ...nitrogenFigures(season, source),
      ...byWeek(id, weeks, (week) => ({ hours: week.hours, runs: week.runs, share: week.share })),
    ];
  });
}

function groupThing(season: ComputedSeason, group: RefrigerationGroup): Thing {
  const { id } = group;
  return entryThing('refrigeration group', group, 'A refrigeration group', () => {
    const weeks = season.plant?.refrigeration.find((one) => one.group.id === id)?.weeks ?? [];
    const peak = highest(weeks, ({ load }) => load.value);
    return [
      ...figuresIn(id, group),
      ...named(id, { 'peak-load': peak?.load, 'peak-share': peak?.share }),
      ...largerCropFigure(season, 'refrigeration', id),
      ...byWeek(id, weeks, (week) => ({ load: week.load, share: week.share })),
    ];
  });
}

/** The week with the most; undefined where none has any. */
function highest<W>(weeks: readonly W[], value: (week: W) => number): W | undefined {
  return weeks.reduce<W | undefined>(
    (most, week) => (value(week) > (most ? value(most) : 0) ? week : most),
    undefined,
  );
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
