import { rules } from '../findings/rules';
import type { ComputedSeason } from '../findings/types';
import { type DisplayUnits, measure, measureLabel, showSetPoint, type UnitSystem } from '../plan/display';
import type { Known } from '../plan/how-known';
import { cautionInShort } from '../room/caution';
import { tidy } from './amounts';
import { commandLines, commandToCopy } from './command-to-copy';
import { displayUnits } from './explain';
import { figureNameLines, figureNames } from './figure-names';
import { type Life, lifeText, regimeRows, varietyRows } from './fruit-rows';
import { noPaint, type Paint } from './paint';
import { measures, planPart, present } from './parts';
import type { ExplainReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';

/** What can be listed whole. */
export const lists = ['varieties', 'regimes', 'findings', 'figures'] as const;
export type ListName = (typeof lists)[number];

export function isListName(words: string): words is ListName {
  return (lists as readonly string[]).includes(words);
}

/** All varieties or regimes, built in and the plan's own, all codes of findings, or all names of figures. */
export function listReport(season: ComputedSeason, name: ListName, system?: UnitSystem): ExplainReport {
  const { plan, fruit } = season;
  const units = displayUnits(plan, system);
  return {
    format: 'lotwright-explain-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    subject: { kind: 'list', id: name, places: [] },
    figures: [],
    steps: [],
    ...(name === 'varieties' && { varieties: varietyRows(fruit).map(varietyJson) }),
    ...(name === 'regimes' && { regimes: regimesJson(season, units) }),
    ...(name === 'findings' && {
      rules: rules.map(({ code, family, severity, summary }) => ({ code, family, severity, summary })),
    }),
    ...(name === 'figures' && { names: figureNames(season) }),
    findings: [],
  };
}

function varietyJson(row: ReturnType<typeof varietyRows>[number]) {
  return {
    ...row,
    aliases: [...row.aliases],
    regimes: [...row.regimes],
    lifeInAir: lifeJson(row.lifeInAir),
    lifeInStore: lifeJson(row.lifeInStore),
  };
}

function regimesJson({ fruit }: ComputedSeason, units: DisplayUnits): ExplainReport['regimes'] {
  return regimeRows(fruit).map(({ name, varieties, temperature, oxygen, carbonDioxide, known, life }) => ({
    name,
    varieties: [...varieties],
    ...measures({ temperature, oxygen, carbonDioxide }, units),
    known,
    ...present({ life: life && lifeJson(life) }),
  }));
}

function lifeJson({ shortest, longest, known }: Life) {
  return { shortestDays: tidy(shortest), longestDays: tidy(longest), known };
}

/** The list as text. `folder`: the plan's as it was typed, for the commands that tell more. */
export function listText(
  report: ExplainReport,
  units: DisplayUnits,
  paint: Paint = noPaint,
  folder?: string,
): string {
  return [
    ...(report.varieties ? varietyLines(report.varieties, paint, folder) : []),
    ...(report.regimes ? regimeLines(report.regimes, units, paint, folder) : []),
    ...(report.rules ? ruleLines(report.rules, paint, folder) : []),
    ...(report.names ? figureNameLines(report.names, paint) : []),
  ].join('\n');
}

function varietyLines(
  varieties: NonNullable<ExplainReport['varieties']>,
  paint: Paint,
  folder: string | undefined,
): string[] {
  return [
    paint.bold(`${varieties.length} varieties`),
    '',
    ...table(
      [
        { title: 'Variety' },
        { title: 'Also called', breaks: true },
        { title: 'In air', unit: 'days', align: 'right' },
        { title: '' },
        { title: 'In CA', unit: 'days', align: 'right' },
        { title: '' },
        { title: 'Regimes, the usual one first', breaks: true },
      ],
      varieties.map(({ name, aliases, lifeInAir, lifeInStore, regimes }) => [
        name,
        aliases.join(', '),
        ...lifeCells(lifeInAir),
        ...lifeCells(lifeInStore),
        regimes.join(', '),
      ]),
    ),
    '',
    ...KNOWN_NOTE,
    ...commandLines('Each in full', commandToCopy('explain Gala', folder)),
  ];
}

function regimeLines(
  regimes: NonNullable<ExplainReport['regimes']>,
  units: DisplayUnits,
  paint: Paint,
  folder: string | undefined,
): string[] {
  const degrees = measureLabel(measure(0, 'degC', units)?.unit ?? '');
  return [
    paint.bold(`${regimes.length} regimes`),
    '',
    ...table(
      [
        { title: 'Regime' },
        { title: 'For', breaks: true },
        { title: 'Temp', unit: degrees, align: 'right' },
        { title: 'O2', unit: '%', align: 'right' },
        { title: 'CO2', unit: '%', align: 'right' },
        { title: '' },
        { title: 'Keeps', unit: 'days', align: 'right' },
        { title: '' },
      ],
      regimes.map(({ name, varieties, temperature, oxygen, carbonDioxide, known, life }) => [
        name,
        varieties.join(', '),
        showSetPoint(temperature),
        oxygen ? showSetPoint(oxygen) : 'air',
        showSetPoint(carbonDioxide),
        LETTER[known],
        ...(life ? lifeCells(life) : ['as variety', '']),
      ]),
    ),
    '',
    ...KNOWN_NOTE,
    ...commandLines('Each in full', commandToCopy('explain gala-standard', folder)),
  ];
}

function ruleLines(
  list: NonNullable<ExplainReport['rules']>,
  paint: Paint,
  folder: string | undefined,
): string[] {
  return [
    paint.bold(`${list.length} codes of findings`),
    '',
    ...table(
      [{ title: 'Code' }, { title: 'Severity' }, { title: 'What it says', breaks: true }],
      list.map(({ code, severity, summary }) => [code, severity, summary]),
    ),
    '',
    ...commandLines("A code's page", commandToCopy('explain room-overfilled', folder)),
    '',
    // Some of them speak of opening rooms.
    ...wrap(cautionInShort, PAGE_WIDTH),
  ];
}

const LETTER: Readonly<Record<Known, string>> = {
  published: 'P',
  'common practice': 'C',
  'from memory': 'M',
  plan: 'plan',
};

const KNOWN_NOTE = wrap(
  "How the values before it are known: P published, C common practice, M from memory, plan the planner's own. A range is that of the source; a mix counts as its least known value.",
  PAGE_WIDTH,
);

function lifeCells(life: {
  readonly shortestDays: number;
  readonly longestDays: number;
  readonly known: Known;
}): string[] {
  return [lifeText({ shortest: life.shortestDays, longest: life.longestDays }), LETTER[life.known]];
}
