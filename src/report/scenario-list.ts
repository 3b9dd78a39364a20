import type { UnitSystem } from '../plan/display';
import type { Plan } from '../plan/model';
import { counted } from '../plan/wording';
import { caution } from '../room/caution';
import { tidy } from './amounts';
import { commandLines, commandToCopy } from './command-to-copy';
import { displayUnits } from './explain';
import { noPaint, type Paint } from './paint';
import { planPart, present, seasonBefore } from './parts';
import { placeOf } from './place';
import { gravityRank } from './scenario-consequences';
import { type ScenarioName, whatIfReport } from './scenario-report';
import type { SideBySide } from './scenario-season';
import type { WhatIfListReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { whole } from './text-cells';

type Row = WhatIfListReport['scenarios'][number];

/** A scenario to list, and what it does where that was worked out. */
export interface Listed {
  readonly name: ScenarioName;
  readonly side?: SideBySide;
}

/** Scenarios and stress tests; where what they do was worked out, the worst first. */
export function whatIfList(plan: Plan, all: readonly Listed[], system?: UnitSystem): WhatIfListReport {
  const units = displayUnits(plan, system);
  const rows = all.map(({ name, side }): Row => {
    const { id, says, at } = name;
    const named = {
      scenario: id,
      builtIn: at === undefined,
      ...present({ says, place: at && placeOf(plan, at) }),
    };
    if (!side) return named;
    return { ...named, ...rowOf(side, name, system) };
  });
  const isWorked = all.some(({ side }) => side);
  return {
    format: 'lotwright-whatif-list-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    scenarios: isWorked ? rows.sort(worseFirst) : rows,
    ...(isWorked && { caution }),
  };
}

/** A scenario in one line: the changes of its report, so that the line says what the report says. */
function rowOf(side: SideBySide, name: ScenarioName, system?: UnitSystem): Partial<Row> {
  const report = whatIfReport(side, name, { weeks: 'none', notApplied: [] }, system);
  const { base, over, consequences, roomsOverfilled, expectations } = report;
  const isComparable = roomsOverfilled === 0;
  return {
    ...present({
      gravest: consequences.find(({ direction }) => direction === 'worse'),
      cartonsShort: change(base.cartonsShort, over.cartonsShort),
      value:
        isComparable && base.value && over.value
          ? { ...over.value, value: tidy(over.value.value - base.value.value) }
          : undefined,
    }),
    roomsOverfilled,
    newErrors: over.errors - base.errors,
    newWarnings: over.warnings - base.warnings,
    morePromisesBroken: over.promisesBroken - base.promisesBroken,
    promisesBroken: expectations.broken.map(({ id }) => id),
  };
}

function change(base: number | undefined, over: number | undefined): number | undefined {
  return base === undefined || over === undefined ? undefined : tidy(over - base);
}

/** By the gravest that follows, then by money lost, then by name. */
function worseFirst(a: Row, b: Row): number {
  const rank = ({ gravest }: Row) => (gravest ? gravityRank(gravest.gravity) : Number.MAX_SAFE_INTEGER);
  return (
    rank(a) - rank(b) ||
    (a.value?.value ?? 0) - (b.value?.value ?? 0) ||
    (a.scenario < b.scenario ? -1 : a.scenario > b.scenario ? 1 : 0)
  );
}

/** The list as text. `folder`: the plan's as it was typed, for the command that tells more. */
export function whatIfListText(report: WhatIfListReport, paint: Paint = noPaint, folder?: string): string {
  const { scenarios, plan, caution: told } = report;
  const season = seasonBefore(plan);
  if (told === undefined)
    return [
      paint.bold(`${season}scenarios of the plan, then the stress tests`),
      '',
      ...table(
        [
          { title: 'Scenario' },
          { title: 'What it does', breaks: true },
          { title: 'Stands in', breaks: true },
        ],
        scenarios.map((row) => [row.scenario, row.says ?? '', standsIn(row)]),
      ),
    ].join('\n');
  return [
    ...wrap(
      `${season}each scenario and stress test against the plan as it is, the worst first`,
      PAGE_WIDTH,
    ).map(paint.bold),
    '',
    ...table(
      [
        { title: 'Scenario' },
        { title: 'Short', align: 'right' as const },
        { title: 'Value', unit: valueUnit(scenarios), align: 'right' as const },
        { title: 'Errors', align: 'right' as const },
        { title: 'Warnings', align: 'right' as const },
        { title: 'Promises', align: 'right' as const },
        { title: 'The gravest is' },
      ],
      scenarios.map((row) => [
        row.scenario,
        signed(row.cartonsShort),
        valueCell(row),
        signed(row.newErrors),
        signed(row.newWarnings),
        signed(row.morePromisesBroken),
        gravestCell(row),
      ]),
    ),
    '',
    ...wrap(
      'Short, value, errors, warnings and promises broken are what is more than in the plan as it is.',
      PAGE_WIDTH,
    ),
    ...commandLines('One in full', commandToCopy('whatif <scenario>', folder)),
    ...notComparable(scenarios),
    '',
    ...wrap(told, PAGE_WIDTH),
  ].join('\n');
}

/** The value where it can be compared: of fruit that has no room it is no gain. */
function valueCell({ value, roomsOverfilled = 0 }: Row): string {
  return roomsOverfilled > 0 ? 'overfilled' : signed(value?.value);
}

function notComparable(scenarios: readonly Row[]): string[] {
  return scenarios.flatMap(({ scenario, roomsOverfilled = 0 }) =>
    roomsOverfilled > 0
      ? wrap(
          `Value of ${scenario} not comparable: ${counted(roomsOverfilled, 'room')} overfilled.`,
          PAGE_WIDTH,
        )
      : [],
  );
}

const GRAVITIES: Readonly<Record<string, string>> = {
  error: 'an error',
  closed: 'a room left shut',
  short: 'a shortage',
  overload: 'a machine overloaded',
  warning: 'a warning',
  value: 'money lost',
  shift: 'a shift',
};

function gravestCell({ gravest }: Row): string {
  if (gravest?.kind === 'set-point') return 'a set-point later';
  if (gravest?.kind === 'bins-in-no-room') return 'bins with no room';
  return gravest ? (GRAVITIES[gravest.gravity] ?? gravest.gravity) : 'nothing';
}

function standsIn({ place }: Row): string {
  return place ? `${place.file}:${place.line}` : 'built in';
}

function valueUnit(scenarios: readonly Row[]): string {
  return scenarios.find(({ value }) => value)?.value?.unit ?? '';
}

function signed(change: number | undefined): string {
  if (change === undefined) return '-';
  if (Math.round(change) === 0) return '=';
  return `${change > 0 ? '+' : ''}${whole(change)}`;
}
