import type { ComputedSeason } from '../../findings/types';
import { type Day, formatDay, formatWeek, type Week, weekOfDay } from '../../plan/dates';
import { type DisplayUnits, fixed, showFigure } from '../../plan/display';
import { figureWith } from '../../plan/figure';
import type { Entry, Fill, PackedRun, Progress, Sale, Sample } from '../../plan/model';
import { counted } from '../../plan/wording';
import { packedShare } from '../../release/cartons-a-bin';
import { marketPart } from '../../report/status-market';
import type { LotInRoom } from '../../room/types';
import type { Told } from './lens-told';

/** A firmness that differs by less from its course says the same. */
const SAME_NEWTONS = 0.5;

/**
 * What was recorded in a file beside what was planned. Progress has a line for each fill; the other records, of which
 * there are many, one for what belongs together: a fill's packed runs and a customer's sales above the first of them, a
 * lot's samples above the latest.
 */
export function* recordLenses(
  season: ComputedSeason,
  file: string,
  units: DisplayUnits,
): Iterable<readonly [Entry, Told]> {
  const { plan } = season;
  const here = <T extends Entry>(entries: ReadonlyMap<string, T>) =>
    [...entries.values()].filter(({ at }) => at.file === file);
  for (const progress of here(plan.progress)) {
    const fill = plan.fills.get(progress.id);
    if (fill) yield [progress, progressTold(progress, fill.planned ?? fill)];
  }
  for (const sample of latestOfLots(here(plan.samples)))
    yield [sample, { parts: sampleParts(season, sample, units) }];
  const runs = [...plan.packed.values()];
  for (const run of firstOfEach(here(plan.packed), ({ fill }) => fill?.value ?? ''))
    yield [run, { parts: packedParts(season, run.fill?.value, runs) }];
  const sales = here(plan.sales);
  if (sales.length > 0) yield* soldBeside(season, sales);
}

/** Days as recorded against those planned, bins that went in, and what comes next. */
function progressTold(progress: Progress, planned: Fill): Told {
  const opened = progress.opened && planned.open;
  const days = [
    lateBy('first bin', progress.firstBin?.value, planned.firstBin?.value),
    lateBy('last bin', progress.lastBin?.value, planned.lastBin?.value),
    lateBy('sealed', progress.sealed?.value, planned.sealed?.value),
    opened && weeksLate(weekOfDay(progress.opened.value), opened.value),
  ].filter((day) => day !== undefined);
  const differing = days.filter((day) => !day.endsWith(AS_PLANNED));
  const went = sum(progress.lots.map(({ bins }) => bins.value));
  const next = nextStep(progress, planned);
  const isEachAsPlanned = differing.length === 0 && days.length > 1;
  const told = isEachAsPlanned ? ['every day as planned'] : differing.length === 0 ? days : differing;
  return {
    parts: [
      ...told,
      progress.lots.length > 0
        ? `${counted(went, 'bin')} of ${fixed(sum(planned.lots.map(({ bins }) => bins.value)), 0)} planned`
        : undefined,
      next?.text,
    ],
    opening: (next?.isOpening ?? false) || told.some((day) => day.startsWith(OPENED)),
    section: 'fills',
  };
}

const AS_PLANNED = 'as planned';
const OPENED = 'opened';

function lateBy(what: string, day: Day | undefined, planned: Day | undefined): string | undefined {
  if (day === undefined || planned === undefined) return undefined;
  return late(what, day - planned, 'day');
}

function weeksLate(week: Week, planned: Week): string {
  return late(OPENED, week - planned, 'week');
}

function late(what: string, by: number, unit: 'day' | 'week'): string {
  if (by === 0) return `${what} ${AS_PLANNED}`;
  const many = Math.abs(by) === 1 ? `1 ${unit}` : `${Math.abs(by)} ${unit}s`;
  return `${what} ${many} ${by > 0 ? 'later' : 'earlier'} than planned`;
}

/** The first step after the last recorded one for which the plan has a day. */
function nextStep(
  { firstBin, lastBin, sealed, opened, emptied }: Progress,
  planned: Fill,
): { readonly text: string; readonly isOpening: boolean } | undefined {
  if (opened || emptied) return undefined;
  if (sealed)
    return planned.open && { text: `opening planned for ${formatWeek(planned.open.value)}`, isOpening: true };
  const next = (what: string, day: { readonly value: Day } | undefined) =>
    day && { text: `${what} planned for ${formatDay(day.value)}`, isOpening: false };
  if (lastBin) return next('sealing', planned.sealed);
  return firstBin && next('last bin', planned.lastBin);
}

/** The latest test against the firmness that the plan's course gives the lot on its day. */
function sampleParts(season: ComputedSeason, sample: Sample, units: DisplayUnits): Told['parts'] {
  const { lot, fill, taken, firmness } = sample;
  if (!lot || !taken || !firmness) return [];
  const kept = [...season.keeping.values()].filter(({ filled }) => !fill || filled.fill.id === fill.value);
  const course = kept
    .flatMap(({ lots }) => lots)
    .find((one) => one.lot.id === lot.value)
    ?.firmnessOn(taken.value);
  if (course === undefined) return [];
  const beyond = firmness.value - course;
  const shown = showFigure(figureWith(firmness, { value: Math.abs(beyond) }), units);
  const against =
    Math.abs(beyond) < SAME_NEWTONS ? 'as firm as' : `${shown} ${beyond < 0 ? 'softer' : 'firmer'} than`;
  return [
    `${lot.value}: ${showFigure(firmness, units)}`,
    `${against} by the plan's course on ${formatDay(taken.value)}`,
  ];
}

/** Bins packed of those that went in, and cartons by class against those the plan counts on from these bins. */
function packedParts(
  season: ComputedSeason,
  fill: string | undefined,
  all: readonly PackedRun[],
): Told['parts'] {
  const runs = all.filter((run) => run.fill?.value === fill);
  const packed = sum(runs.map(({ bins }) => bins?.value ?? 0));
  const filled = fill === undefined ? undefined : season.filled.get(fill);
  const there = filled?.bins?.value;
  const countedOn = filled && expectedCartons(season, filled.lots, runs);
  const classes = new Set(runs.flatMap(({ cartons }) => [...cartons.keys()]));
  return [
    there === undefined
      ? `${counted(packed, 'bin')} packed from the field`
      : `${counted(packed, 'bin')} packed of ${fixed(there, 0)}`,
    ...[...classes].map((name) => {
      const cartons = fixed(sum(runs.map((run) => run.cartons.get(name)?.value ?? 0)), 0);
      const expected = countedOn?.get(name);
      return expected === undefined
        ? `${name}: ${cartons} cartons`
        : `${name}: ${cartons} cartons of ${fixed(expected, 0)} expected`;
    }),
  ];
}

/** By class: the cartons of the bins packed, by the plan's packout less what is lost in store by the day of each run. */
function expectedCartons(
  { plan }: ComputedSeason,
  lots: readonly LotInRoom[],
  runs: readonly PackedRun[],
): ReadonlyMap<string, number> | undefined {
  const carton = plan.season?.cartonMass?.value;
  const { packing } = plan;
  if (!carton || !packing) return undefined;
  const expected = new Map<string, number>();
  for (const { lot: name, day, bins } of runs) {
    const lot = lots.find((one) => one.lot.id === name?.value);
    // Of a run whose lot, day or bins are not told nothing can be expected, and so of all.
    if (!lot || !day || !bins || !(lot.bins.value > 0)) return undefined;
    const kilograms = (lot.fruit.value / lot.bins.value) * bins.value;
    for (const packClass of packing.packout.get(lot.lot.variety?.value ?? '')?.shares.keys() ?? [])
      expected.set(
        packClass,
        (expected.get(packClass) ?? 0) +
          (kilograms * packedShare(lot, packing, packClass, day.value)) / carton,
      );
  }
  return expected;
}

/** Above each customer's first sale of a variety and class: sold of what was wanted in the weeks that are over. */
function* soldBeside({ plan }: ComputedSeason, sales: readonly Sale[]): Iterable<readonly [Entry, Told]> {
  if (plan.stand === undefined) return;
  const { lines, through } = marketPart(plan, plan.stand);
  const keyOf = (...names: (string | undefined)[]) => JSON.stringify(names.map((name) => name ?? ''));
  const known = new Map(lines.map((line) => [keyOf(line.market, line.variety, line.packClass), line]));
  const keyOfSale = ({ market, variety, packClass }: Sale) =>
    keyOf(market?.value, variety?.value, packClass?.value);
  for (const sale of firstOfEach(sales, keyOfSale)) {
    const line = known.get(keyOfSale(sale));
    if (line?.sold === undefined || line.wanted === 0) continue;
    const { sold, wanted, short = 0 } = line;
    yield [
      sale,
      {
        parts: [
          `${counted(sold, 'carton')} sold of ${fixed(wanted, 0)} wanted by ${through}`,
          short > 0 ? `${counted(short, 'carton')} short` : 'no week was short',
        ],
      },
    ];
  }
}

function latestOfLots(samples: readonly Sample[]): Sample[] {
  const latest = new Map<string, Sample>();
  for (const sample of samples) {
    const { lot, taken } = sample;
    if (!lot || !taken) continue;
    const known = latest.get(lot.value)?.taken?.value ?? Number.NEGATIVE_INFINITY;
    if (taken.value >= known) latest.set(lot.value, sample);
  }
  return [...latest.values()];
}

function firstOfEach<T extends Entry>(entries: readonly T[], keyOf: (entry: T) => string): T[] {
  const first = new Map<string, T>();
  for (const entry of entries) if (!first.has(keyOf(entry))) first.set(keyOf(entry), entry);
  return [...first.values()];
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
