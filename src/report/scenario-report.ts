import type { Outcome } from '../expect/types';
import { opensIn } from '../findings/compute';
import type { ComputedSeason } from '../findings/types';
import { formatWeek, type Week } from '../plan/dates';
import { type DisplayUnits, measure, measureOf, type UnitSystem } from '../plan/display';
import type { Figure } from '../plan/figure';
import type { Problem } from '../plan/problem';
import type { Span } from '../plan/span';
import { caution } from '../room/caution';
import { inNoRoom } from '../scenario/in-no-room';
import { tidy } from './amounts';
import { displayUnits } from './explain';
import { findingJson, planPart, present } from './parts';
import { placeOf } from './place';
import { consequencesOf, roomsOverfilled } from './scenario-consequences';
import type { SeasonOver, SideBySide, ToldSeason } from './scenario-season';
import type { WhatIfReport } from './schemas';

/** What a scenario is called, and where it stands where the plan has it. */
export interface ScenarioName {
  readonly id: string;
  readonly says?: string | undefined;
  readonly at?: Span | undefined;
}

type Row<K extends 'rooms' | 'machines' | 'products'> = WhatIfReport[K][number];

/** The base beside a scenario, as JSON. */
export function whatIfReport(
  side: SideBySide,
  scenario: ScenarioName,
  told: { readonly weeks: SeasonOver['weeks']; readonly notApplied: readonly Problem[] },
  system?: UnitSystem,
): WhatIfReport {
  const { base, over } = side;
  const { plan } = base.season;
  const units = displayUnits(plan, system);
  return {
    format: 'lotwright-whatif-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    scenario: scenario.id,
    builtIn: scenario.at === undefined,
    ...present({ says: scenario.says, place: scenario.at && placeOf(plan, scenario.at) }),
    weeks: told.weeks,
    notApplied: told.notApplied.map(({ message, at }) => ({ message, place: placeOf(plan, at) })),
    base: totalsJson(base, units),
    over: totalsJson(over, units),
    roomsOverfilled: roomsOverfilled(side),
    consequences: consequencesOf(side, units),
    rooms: roomRows(base.season, over.season),
    machines: machineRows(base.season, over.season, units),
    products: productRows(base, over),
    findings: {
      new: side.newFindings.map((finding) => findingJson(plan, finding)),
      gone: side.goneFindings.map((finding) => findingJson(plan, finding)),
    },
    expectations: {
      broken: side.broken.map((outcome) => expectationJson(base.season, outcome)),
      mended: side.mended.map((outcome) => expectationJson(base.season, outcome)),
    },
    caution,
  };
}

export function totalsJson(
  { season, totals, outcomes }: ToldSeason,
  units: DisplayUnits,
): WhatIfReport['base'] {
  const { errors, warnings, fills, binsStored, schedule } = totals;
  const { packedAtHarvest, leftOver } = inNoRoom(season.plan);
  return {
    errors,
    warnings,
    promisesBroken: outcomes.filter(({ verdict }) => verdict.state === 'broken').length,
    fills,
    binsStored: tidy(binsStored),
    binsInNoRoom: tidy(packedAtHarvest + leftOver),
    ...(schedule &&
      present({
        cartonsSold: tidy(schedule.cartonsSold),
        cartonsShort: tidy(schedule.cartonsShort),
        cartonsUnsold: tidy(schedule.cartonsSurplus),
        value: measure(tidy(schedule.value), 'money', units),
      })),
  };
}

function roomRows(base: ComputedSeason, over: ComputedSeason): Row<'rooms'>[] {
  const fills = [...new Set([...base.filled.keys(), ...over.filled.keys()])];
  return fills.flatMap((fill) => {
    // Of a room that was opened in fact there is no week left to choose.
    if (base.plan.fills.get(fill)?.opened && over.plan.fills.get(fill)?.opened) return [];
    const [before, after] = [weeksOf(base, fill), weeksOf(over, fill)];
    if (JSON.stringify(before) === JSON.stringify(after)) return [];
    const room = (over.filled.get(fill) ?? base.filled.get(fill))?.room.id ?? fill;
    return [{ room, fill, ...present({ base: before, over: after }) }];
  });
}

function weeksOf(season: ComputedSeason, fill: string): Row<'rooms'>['base'] {
  if (!season.filled.has(fill)) return undefined;
  const window = season.keeping.get(fill)?.window;
  const told = (week: Week | undefined) => (week === undefined ? undefined : formatWeek(week));
  return present({
    earliest: told(window?.earliest.week),
    bestBefore: told(window?.bestBefore.week),
    latest: told(window?.latest.week),
    opens: told(opensIn(season)?.get(fill)),
  });
}

interface Machine {
  readonly kind: Row<'machines'>['kind'];
  readonly id: string;
  readonly weeks: readonly { readonly week: Week; readonly share?: Figure<'%'> | undefined }[];
}

function machinesOf({ plant }: ComputedSeason): Machine[] {
  return [
    ...(plant?.scrubbers ?? []).map(({ scrubber, weeks }) => ({
      kind: 'scrubber' as const,
      id: scrubber.id,
      weeks,
    })),
    ...(plant?.nitrogen ?? []).map(({ source, weeks }) => ({
      kind: 'nitrogen' as const,
      id: source.id,
      weeks,
    })),
    ...(plant?.refrigeration ?? []).map(({ group, weeks }) => ({
      kind: 'refrigeration' as const,
      id: group.id,
      weeks,
    })),
  ];
}

function machineRows(base: ComputedSeason, over: ComputedSeason, units: DisplayUnits): Row<'machines'>[] {
  const key = ({ kind, id }: Machine) => `${kind} ${id}`;
  const [before, after] = [machinesOf(base), machinesOf(over)];
  const all = new Map([...before, ...after].map((machine) => [key(machine), machine]));
  return [...all.values()].flatMap((machine) => {
    const heaviest = (machines: readonly Machine[]) =>
      heaviestWeek(
        machines.find((one) => key(one) === key(machine)),
        units,
      );
    const [was, is] = [heaviest(before), heaviest(after)];
    if (JSON.stringify(was) === JSON.stringify(is)) return [];
    return [{ kind: machine.kind, id: machine.id, ...present({ base: was, over: is }) }];
  });
}

function heaviestWeek(machine: Machine | undefined, units: DisplayUnits): Row<'machines'>['base'] {
  let worst: { readonly week: Week; readonly share: Figure<'%'> } | undefined;
  for (const { week, share } of machine?.weeks ?? [])
    if (share && share.value > (worst?.share.value ?? 0)) worst = { week, share };
  const share = measureOf(worst?.share, units);
  return worst && share && { week: formatWeek(worst.week), share };
}

const KINDS = { sold: 'cartons-sold', short: 'cartons-short', unsold: 'cartons-surplus' } as const;

function productRows(base: ToldSeason, over: ToldSeason): Row<'products'>[] {
  const products = new Map(
    [...base.measures.values(), ...over.measures.values()].flatMap(({ about }) =>
      about.of === 'product' ? [[`${about.variety}/${about.packClass}`, about] as const] : [],
    ),
  );
  return [...products].flatMap(([key, { variety, packClass }]) => {
    const amounts = ({ measures }: ToldSeason) => {
      const of = (kind: string) => tidy(measures.get(`${kind}/${key}`)?.value ?? 0);
      const known = Object.values(KINDS).some((kind) => measures.has(`${kind}/${key}`));
      return known ? { sold: of(KINDS.sold), short: of(KINDS.short), unsold: of(KINDS.unsold) } : undefined;
    };
    const [before, after] = [amounts(base), amounts(over)];
    if (wholeOf(before) === wholeOf(after)) return [];
    return [{ variety, packClass, ...present({ base: before, over: after }) }];
  });
}

/** What differs by less than a carton is no other amount. */
function wholeOf(amounts: Row<'products'>['base']): string {
  return amounts ? Object.values(amounts).map(Math.round).join(' ') : '';
}

function expectationJson(
  { plan }: ComputedSeason,
  { expectation, claim, verdict }: Outcome,
): WhatIfReport['expectations']['broken'][number] {
  return { id: expectation.id, claim, why: verdict.why, place: placeOf(plan, verdict.at) };
}
