import type { ComputedSeason, Finding } from '../findings/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, fixed, type Measure, measure, measureLabel, showMeasure } from '../plan/display';
import { shortened } from '../plan/shortened';
import { counted } from '../plan/wording';
import { toldOf } from '../release/season-whole';
import { caution } from '../room/caution';
import { LEAST_AMOUNT } from './amounts';
import type { CardLine, CardTable, Gauge, SeasonCard } from './card-types';
import { displayUnits } from './explain';
import { countFindings } from './parts';
import { gravestFirst } from './room-card';
import { roomsReport } from './rooms-report';
import { standTable } from './season-card-stand';
import { weekRanges } from './text-cells';
import { loadBands } from './timeline-loads';
import { scheduleNote } from './timeline-note';
import { openingOf } from './timeline-room';
import { scrubberSeries } from './timeline-scrubbers';
import type { ScrubberSeries, TextTarget } from './timeline-types';
import { timeAxis } from './timeline-weeks';

/** Lines of the tightest rooms, and findings listed. */
const TIGHTEST = 12;
const LISTED = 100;

/** The season at a glance: capacity, load, coverage and slack, from the figures that the reports have. */
export function seasonCard(
  season: ComputedSeason,
  findings: readonly Finding[],
  revision: number,
): SeasonCard {
  const units = displayUnits(season.plan);
  const varieties = varietyLines(season, units);
  const demand = demandLines(season);
  const loads = equipment(season, units);
  return {
    revision,
    title: shortened(season.plan.season?.name?.value ?? 'The season'),
    scheduleNote: scheduleNote(season, units),
    gauges: [
      ...capacityGauges(season, findings),
      ...coverageGauge(demand),
      ...heaviestOfKinds(loads).map(loadGauge),
    ],
    tables: [
      ...standTable(season, units),
      {
        title: 'Fruit by variety',
        columns: ['Variety', 'Bins expected', 'In rooms', 'Without a room', 'Fruit', 'Rooms'],
        lines: varieties,
        none: 'The plan has no lots yet.',
      },
      {
        title: 'Demand covered',
        columns: ['Variety', 'Class', 'Wanted', 'Sold', 'Covered', 'Weeks short'],
        lines: demand.map(({ line }) => line),
        none: 'The plan has no demand, or no release schedule.',
      },
      tightestRooms(season),
      {
        title: 'Heaviest weeks',
        columns: ['Equipment', 'Week', 'Load'],
        lines: loads.map(({ line }) => line),
        none: 'The plan has no shared equipment.',
      },
    ],
    findings: gravestFirst(findings).slice(0, LISTED),
    more: Math.max(0, findings.length - LISTED),
    counts: countFindings(findings),
    caution,
  };
}

function capacityGauges(season: ComputedSeason, findings: readonly Finding[]): Gauge[] {
  const { totals } = roomsReport(season, findings);
  const { rooms, filledRooms, places, bins, fruit } = totals;
  const expected = [...season.plan.lots.values()].reduce((sum, lot) => sum + binsOf(lot), 0);
  const placed = bins?.value ?? 0;
  const tonnes = fruit ? `, ${withUnit(fruit)}` : '';
  return [
    {
      label: 'Rooms filled',
      text: `${filledRooms} of ${rooms}`,
      share: rooms > 0 ? filledRooms / rooms : null,
      bad: false,
    },
    {
      label: 'Places filled',
      text: places
        ? `${fixed(placed, 0)} of ${fixed(places.value, 0)}${tonnes}`
        : `${counted(placed, 'bin')}${tonnes}`,
      share: places && places.value > 0 ? placed / places.value : null,
      bad: places !== undefined && placed > places.value,
    },
    {
      label: 'Bins in rooms, of those expected',
      text: `${fixed(placed, 0)} of ${fixed(expected, 0)}`,
      share: expected > 0 ? placed / expected : null,
      bad: placed < expected - LEAST_AMOUNT,
    },
  ];
}

function withUnit(amount: Measure): string {
  return `${showMeasure(amount)} ${measureLabel(amount.unit)}`;
}

/** Bins received, where they are known, else those expected. */
function binsOf({ receivedBins, expectedBins }: { receivedBins: Bins; expectedBins: Bins }): number {
  return (receivedBins ?? expectedBins)?.value ?? 0;
}

type Bins = { readonly value: number } | undefined;

function varietyLines(season: ComputedSeason, units: DisplayUnits): CardLine[] {
  const { varieties } = roomsReport(season, []);
  const inRooms = new Map(varieties.map((one) => [one.variety, one]));
  const expected = new Map<string, number>();
  const firstLot = new Map<string, TextTarget>();
  for (const lot of season.plan.lots.values()) {
    const name = lot.variety?.value ?? 'no variety';
    expected.set(name, (expected.get(name) ?? 0) + binsOf(lot));
    if (!firstLot.has(name)) firstLot.set(name, lot.at);
  }
  const names = [...new Set([...expected.keys(), ...inRooms.keys()])].sort();
  return names.map((name) => {
    const found = inRooms.get(name);
    const [wanted, placed] = [expected.get(name) ?? 0, found?.bins?.value ?? 0];
    const target = firstLot.get(name);
    const fruit = found?.fruit ?? measure(0, 't', units);
    return {
      cells: [
        name,
        fixed(wanted, 0),
        fixed(placed, 0),
        wanted - placed > LEAST_AMOUNT ? fixed(wanted - placed, 0) : '',
        fruit ? withUnit(fruit) : '',
        String(found?.rooms ?? 0),
      ],
      ...(target && { target }),
    };
  });
}

interface DemandTold {
  readonly wanted: number;
  readonly sold: number;
  readonly line: CardLine;
}

/** By variety and class: what is sold of what is wanted, and the weeks in which it falls short. */
function demandLines({ plan, release }: ComputedSeason): DemandTold[] {
  if (!release) return [];
  const { problem, result } = release;
  const found = new Map<
    string,
    {
      variety: string;
      packClass: string;
      wanted: number;
      sold: number;
      short: Set<number>;
      target: TextTarget | undefined;
    }
  >();
  const { demands, sold: allSold } = toldOf(problem, result.schedule, plan);
  demands.forEach((demand, at) => {
    const product = problem.products[demand.product];
    if (!product) return;
    const { variety, packClass } = product;
    const key = `${variety} ${packClass}`;
    const one = found.get(key) ?? {
      variety,
      packClass,
      wanted: 0,
      sold: 0,
      short: new Set(),
      target: plan.demand.get(demand.id)?.at,
    };
    found.set(key, one);
    demand.cartons.forEach((cartons, week) => {
      const sold = allSold[at]?.[week] ?? 0;
      one.wanted += cartons;
      one.sold += sold;
      if (cartons - sold >= LEAST_AMOUNT) one.short.add(week);
    });
  });
  return [...found.values()].map(({ variety, packClass, wanted, sold, short, target }) => {
    const weeks = [...short].sort((a, b) => a - b);
    const told = weekRanges(weeks.map((index) => ({ index, label: formatWeek(problem.firstWeek + index) })));
    const covered = wanted > 0 ? `${fixed((100 * sold) / wanted, 1)} %` : '';
    return {
      wanted,
      sold,
      line: {
        cells: [
          variety,
          packClass,
          fixed(wanted, 0),
          fixed(sold, 0),
          covered,
          weeks.length > 0 ? `${weeks.length}: ${told}` : '',
        ],
        ...(target && { target }),
      },
    };
  });
}

function coverageGauge(demand: readonly DemandTold[]): Gauge[] {
  const [wanted, sold] = [total(demand.map((one) => one.wanted)), total(demand.map((one) => one.sold))];
  if (wanted <= 0) return [];
  return [
    {
      label: 'Demand covered',
      text: `${fixed(sold, 0)} of ${counted(wanted, 'carton')}`,
      share: sold / wanted,
      bad: wanted - sold >= LEAST_AMOUNT,
    },
  ];
}

/** Rooms by the weeks between their opening and the last of their window. */
function tightestRooms(season: ComputedSeason): CardTable {
  const rooms = [...season.filled.values()].flatMap((filled) => {
    const latest = season.keeping.get(filled.fill.id)?.window?.latest.week;
    const opens = openingOf(season, filled)?.week;
    if (latest === undefined || opens === undefined) return [];
    return [{ filled, opens, latest, slack: latest - opens }];
  });
  rooms.sort((a, b) => a.slack - b.slack || a.opens - b.opens);
  return {
    title: 'Tightest rooms',
    columns: ['Room', 'Opens', 'Latest', 'Weeks to spare'],
    lines: rooms.slice(0, TIGHTEST).map(({ filled, opens, latest, slack }) => ({
      cells: [
        filled.room.id,
        formatWeek(opens),
        formatWeek(latest),
        slack < 0 ? `▲ ${slack}` : String(slack),
      ],
      target: filled.fill.at,
    })),
    none: 'No room has both an opening week and a window.',
  };
}

interface EquipmentTold {
  readonly kind: string;
  readonly name: string;
  readonly share: number;
  readonly limit: number;
  readonly week: string;
  readonly line: CardLine;
}

/** Each piece of shared equipment with its heaviest week, the heaviest first. */
function equipment(season: ComputedSeason, units: DisplayUnits): EquipmentTold[] {
  const axis = timeAxis(season);
  if (!axis) return [];
  const named = (kind: string, series: readonly ScrubberSeries[]) =>
    series.flatMap((one) => heaviest(kind, one, axis.firstWeek));
  return [
    ...named('Scrubber', scrubberSeries(season, axis, units)),
    ...loadBands(season, axis, units).flatMap(({ title, series }) => named(title, series)),
  ].sort((a, b) => b.share / b.limit - a.share / a.limit);
}

/** The piece of each kind that has the heaviest week. */
function heaviestOfKinds(loads: readonly EquipmentTold[]): EquipmentTold[] {
  return loads.filter(({ kind }, at) => loads.findIndex((one) => one.kind === kind) === at);
}

function heaviest(
  kind: string,
  { name: own, share, limit, target }: ScrubberSeries,
  firstWeek: number,
): EquipmentTold[] {
  const at = share.reduce<number>((best, one, week) => ((one ?? 0) > (share[best] ?? 0) ? week : best), 0);
  const most = share[at] ?? 0;
  if (most <= 0) return [];
  const name = kind === own ? kind : `${kind} ${own}`;
  const week = formatWeek(firstWeek + at);
  const over = most > limit ? '▲ ' : '';
  const line = { cells: [name, week, `${over}${fixed(most, 0)} %`], target };
  return [{ kind, name, share: most, limit, week, line }];
}

function loadGauge({ name, share, limit, week }: EquipmentTold): Gauge {
  return {
    label: `${name}, heaviest week`,
    text: `${fixed(share, 0)} % in ${week}${share > limit ? `, limit ${fixed(limit, 0)} %` : ''}`,
    share: share / 100,
    bad: share > limit,
  };
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
