import { gravities } from '../compare/types';
import { measure, type UnitSystem } from '../plan/display';
import type { Plan } from '../plan/model';
import { caution } from '../room/caution';
import { tidy } from './amounts';
import { displayUnits } from './explain';
import { noPaint, type Paint } from './paint';
import { planPart, present } from './parts';
import { placeOf } from './place';
import { consequenceJson, type ScenarioName } from './scenario-report';
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
    const worst = side.consequences.find(({ direction }) => direction === 'worse');
    const [base, over] = [side.base.totals.schedule, side.over.totals.schedule];
    const count = (severity: string) => side.newFindings.filter((one) => one.severity === severity).length;
    return {
      ...named,
      ...present({
        gravest: worst && consequenceJson(worst, units),
        cartonsShort: base && over && tidy(over.cartonsShort - base.cartonsShort),
        value: base && over && measure(tidy(over.value - base.value), 'money', units),
      }),
      newErrors: count('error'),
      newWarnings: count('warning'),
      promisesBroken: side.broken.map(({ expectation }) => expectation.id),
    };
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

/** By the gravest that follows, then by money lost, then by name. */
function worseFirst(a: Row, b: Row): number {
  const rank = ({ gravest }: Row) => (gravest ? rankOf(gravest.gravity) : gravities.length);
  return (
    rank(a) - rank(b) ||
    (a.value?.value ?? 0) - (b.value?.value ?? 0) ||
    (a.scenario < b.scenario ? -1 : a.scenario > b.scenario ? 1 : 0)
  );
}

function rankOf(gravity: string): number {
  const names: readonly string[] = gravities;
  return names.indexOf(gravity);
}

export function whatIfListText(report: WhatIfListReport, paint: Paint = noPaint): string {
  const { scenarios, plan, caution: told } = report;
  const season = plan.season === undefined ? '' : `${plan.season}: `;
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
        { title: 'Promises' },
        { title: 'The gravest is' },
      ],
      scenarios.map((row) => [
        row.scenario,
        signed(row.cartonsShort),
        signed(row.value?.value),
        signed(row.newErrors),
        signed(row.newWarnings),
        promisesCell(row),
        gravestCell(row),
      ]),
    ),
    '',
    ...wrap(
      'Short, value, errors and warnings are what is more than in the plan as it is. One in full: lotwright whatif <scenario>',
      PAGE_WIDTH,
    ),
    '',
    ...wrap(told, PAGE_WIDTH),
  ].join('\n');
}

function promisesCell({ promisesBroken = [] }: Row): string {
  return promisesBroken.length === 0 ? '=' : `${promisesBroken.length} broken`;
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
