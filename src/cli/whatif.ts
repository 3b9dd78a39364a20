import path from 'node:path';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { opensIn } from '../findings/compute';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import type { Problem } from '../plan/problem';
import { present, varietiesOf } from '../report/parts';
import { type Listed, whatIfList, whatIfListText } from '../report/scenario-list';
import { whatIfMarkdown } from '../report/scenario-markdown';
import { type ScenarioName, whatIfReport } from '../report/scenario-report';
import { baseSeason, seasonOver, sideBySide, type ToldSeason, toldSeason } from '../report/scenario-season';
import { whatIfText } from '../report/scenario-text';
import { PAGE_WIDTH, wrap } from '../report/table';
import { caution } from '../room/caution';
import { applyScenario } from '../scenario/apply';
import {
  allStresses,
  isStressKind,
  type StressedSeason,
  type StressSettings,
  stressesOf,
  stressKinds,
  usualStress,
} from '../scenario/stress';
import { CannotRun, type Io } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { findPlanFiles, openPlan } from './plan-files';
import { EXIT, endOn, type Run } from './run';

const HELP = `
A scenario stands in the plan, under scenarios, and says what differs:

  scenarios:
    hail:
      says: hail takes a fifth, and Gala keeps three weeks shorter
      crop: 80 %                                   # of every lot, and of fills as rooms have places
      demand-of: { Gala: 90 % }
      change:                                      # keys of entries that stand, map by map
        varieties: { Gala: { keeps-shorter: 3 weeks } }
        rooms: { R2: { scrubber: S2 } }
      add: { demand: { juice: { market: juice, variety: Gala, class: second, ... } } }
      take-out: { pins: [R2-gala], rooms: [R7] }

The plan itself stays as it is. Base and scenario stand side by side: windows, openings, cartons,
loads, findings new and gone, promises broken. The scenario keeps the base's weeks where it can;
where planning anew is worth a good deal more (0.5 %), it has weeks of its own, and says so.

Stress tests that any plan can be put to:
${Object.entries(stressKinds)
  .map(([name, what]) => `  ${name.padEnd(20)}${what}`)
  .join('\n')}

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 computed, 1 the scenario does not fit the plan as it is written, or the plan has
errors, 2 could not be run.

Examples:
  lotwright whatif --list plans/2026
  lotwright whatif hail plans/2026
  lotwright whatif less-crop --crop 35%
  lotwright whatif scrubber-out --of S1 --days 5
  lotwright whatif keeps-shorter --of Gala --weeks 4 --format markdown
  lotwright whatif --all plans/2026
`;

interface WhatIfOptions extends Omit<PlanOptions, 'format'> {
  readonly format: 'text' | 'json' | 'markdown';
  readonly list?: boolean;
  readonly all?: boolean;
  readonly of?: string;
  readonly crop?: number;
  readonly days?: number;
  readonly left?: number;
  readonly weeks?: number;
}

export function addWhatIf(program: Command, run: Run): void {
  const command = program
    .command('whatif')
    .argument('[scenario]', "a scenario of the plan's, or a stress test");
  withPlanOptions(withFolder(command));
  const format = command.options.find(({ long }) => long === '--format');
  format?.choices(['text', 'json', 'markdown']);
  if (format) format.description = 'text for people, json for programs, markdown';
  command
    .description('what would happen: a scenario, or a stress test, side by side with the plan as it is')
    .option('--list', 'the scenarios of the plan, and the stress tests')
    .option('--all', 'every scenario and stress test in a line each, the worst first')
    .option('--of <name>', 'the machine or variety a stress test is about (default: the one it is worst for)')
    .addOption(
      numberOption('--crop <percent>', 'less-crop, more-crop: by how much', usualStress.crop, 1, 99, '20%'),
    )
    .addOption(
      numberOption('--days <days>', 'scrubber-out, nitrogen-out: how long', usualStress.days, 1, 30, '3'),
    )
    .addOption(
      numberOption(
        '--left <percent>',
        'refrigeration-part: capacity that is left',
        usualStress.left,
        1,
        99,
        '50%',
      ),
    )
    .addOption(
      numberOption(
        '--weeks <weeks>',
        'demand-earlier, demand-later, keeps-shorter: by how many',
        `${usualStress.demandWeeks}, to keep ${usualStress.keepWeeks}`,
        1,
        26,
        '3',
      ),
    )
    .addHelpText('after', HELP)
    .action((first: string | undefined, second: string | undefined, options: WhatIfOptions) => {
      // With --list or --all the one word that is given is the folder.
      const isOfAll = options.list || options.all;
      const [scenario, folder] = isOfAll && second === undefined ? [undefined, first] : [first, second];
      if (scenario !== undefined && folder === undefined) mustBeNoFolder(run.io, scenario, options);
      const plan = openPlan(run.io, folder, options);
      const named = { ...options, ...present({ folder }) };
      if (isOfAll) listAll(run, plan, named);
      else one(run, plan, scenario, named);
    });
}

/** One word alone names a scenario of the plan in the current folder: a folder in its place is told what goes before it. */
function mustBeNoFolder(io: Io, word: string, options: WhatIfOptions): void {
  if (isStressKind(word) || io.files.kindOf(path.resolve(io.cwd, word)) !== 'folder') return;
  if (findPlanFiles(io, io.cwd).found.length > 0 && openPlan(io, undefined, options).scenarios.has(word))
    return;
  throw new CannotRun(
    `${word} is a folder, and the scenario stands before it: lotwright whatif <scenario> ${word}, or lotwright whatif --all ${word}. ${known(openPlan(io, word, options))}`,
  );
}

/** Scenarios are held against each other by what is planned: what readings would add is not counted, and that is said. */
function withoutReadings({ readings }: Plan): string | undefined {
  return readings.size > 0 ? 'Apart from its readings, the plan has' : undefined;
}

function numberOption(
  flags: string,
  what: string,
  usual: number | string,
  least: number,
  most: number,
  example: string,
): Option {
  return new Option(flags, `${what} (default: ${usual})`).argParser((text: string) => {
    const value = Number(text.trim().replace(/\s*%$/, ''));
    if (text.trim() === '' || !Number.isInteger(value) || value < least || value > most)
      throw new InvalidArgumentError(`Write a whole number from ${least} to ${most}, as ${example}.`);
    return value;
  });
}

function settingsOf({ crop, days, left, weeks }: WhatIfOptions): StressSettings {
  return { crop, days, left, demandWeeks: weeks, keepWeeks: weeks };
}

interface Tried {
  readonly name: ScenarioName;
  readonly plan: Plan;
  readonly notApplied: readonly Problem[];
}

function one(run: Run, plan: Plan, asked: string | undefined, options: WhatIfOptions): void {
  if (asked === undefined) throw new CannotRun(`Which scenario? ${known(plan)}`);
  const own = plan.scenarios.get(asked);
  if (!own && !isStressKind(asked)) {
    const near = nearest(asked, [...plan.scenarios.keys(), ...Object.keys(stressKinds)]);
    throw new CannotRun(
      `The plan has no scenario called "${asked}", and no stress test is.${near === undefined ? ` ${known(plan)}` : ` Nearest: ${near}`}`,
    );
  }
  const base = toldSeason(baseSeason(plan, options.seed));
  const tried = own ? [ownScenario(plan, own.id)] : stressesFor(plan, base, asked, options);
  const sides = tried.map((trial) => ({ trial, ...beside(base, trial, options) }));
  // Of several machines or varieties the one it is worst for.
  const worst = sides.reduce((most, next) => (isWorse(next.side, most.side) ? next : most));
  const { trial, side, weeks } = worst;
  const report = whatIfReport(side, trial.name, { weeks, notApplied: trial.notApplied }, options.units);
  const { format } = options;
  run.io.out.write(
    format === 'json'
      ? `${JSON.stringify(report, null, 2)}\n`
      : format === 'markdown'
        ? whatIfMarkdown(report)
        : `${whatIfText(report, run.io.paint)}\n`,
  );
  endOn(
    run,
    trial.notApplied.length > 0 ? EXIT.findings : EXIT.clean,
    base.findings,
    options,
    withoutReadings(plan),
  );
}

function known(plan: Plan): string {
  const own = plan.scenarios.size === 0 ? 'it holds none' : [...plan.scenarios.keys()].join(', ');
  return `Scenarios of the plan: ${own}. Stress tests: ${Object.keys(stressKinds).join(', ')}.`;
}

function ownScenario(plan: Plan, id: string): Tried {
  const scenario = plan.scenarios.get(id);
  if (!scenario) throw new CannotRun(`The plan has no scenario called "${id}".`);
  const { plan: over, problems } = applyScenario(plan, scenario);
  return { name: { id, says: scenario.says, at: scenario.at }, plan: over, notApplied: problems };
}

function stressed({ season }: ToldSeason): StressedSeason {
  const bins = new Map<string, number>();
  for (const room of season.filled.values())
    for (const name of varietiesOf(room)) bins.set(name, (bins.get(name) ?? 0) + (room.bins?.value ?? 0));
  const varieties = [...bins].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1)).map(([name]) => name);
  return { plan: season.plan, plant: season.plant, opens: opensIn(season), varieties };
}

/** Laid over the plan as it is written, as a scenario is: what is recorded counts in both seasons afterwards. */
function stressesFor(plan: Plan, base: ToldSeason, kind: string, options: WhatIfOptions): Tried[] {
  const all = isStressKind(kind) ? stressesOf(kind, stressed(base), settingsOf(options)) : [];
  const { of } = options;
  const found = of === undefined ? all : all.filter(({ id }) => id === `${kind} ${of}`);
  if (found.length === 0) {
    const names = all.map(({ id }) => id.slice(kind.length + 1)).filter((name) => name !== '');
    throw new CannotRun(
      of === undefined
        ? `${kind} has nothing to press on in this plan.`
        : `${kind} is not about ${of}.${names.length > 0 ? ` It is about ${names.join(', ')}.` : ' Leave --of out.'}`,
    );
  }
  return found.map(({ id, says, apply }) => ({
    name: { id, says },
    plan: apply(plan),
    notApplied: [],
  }));
}

function beside(base: ToldSeason, trial: Tried, { seed }: WhatIfOptions) {
  const { season, weeks } = seasonOver(base, trial.plan, seed);
  return { side: sideBySide(base, toldSeason(season)), weeks };
}

function isWorse(a: Listed['side'], b: Listed['side']): boolean {
  if (!a || !b) return false;
  const names = [
    { name: { id: 'a' }, side: a },
    { name: { id: 'b' }, side: b },
  ];
  return whatIfList(a.base.season.plan, names).scenarios[0]?.scenario === 'a';
}

function listAll(run: Run, plan: Plan, options: WhatIfOptions): void {
  const own = [...plan.scenarios.values()];
  const base = options.all ? toldSeason(baseSeason(plan, options.seed)) : undefined;
  const listed = base
    ? allWorked(plan, base, options)
    : [
        ...own.map(({ id, says, at }): Listed => ({ name: { id, says, at } })),
        ...Object.entries(stressKinds).map(([id, says]): Listed => ({ name: { id, says } })),
      ];
  const report = whatIfList(plan, listed, options.units);
  run.io.out.write(
    options.format === 'json'
      ? `${JSON.stringify(report, null, 2)}\n`
      : `${whatIfListText(report, run.io.paint, options.folder)}\n`,
  );
  if (base) endOn(run, EXIT.clean, base.findings, options, withoutReadings(plan));
}

function allWorked(plan: Plan, base: ToldSeason, options: WhatIfOptions): Listed[] {
  const stresses = allStresses(stressed(base), settingsOf(options));
  const tried = [
    ...[...plan.scenarios.keys()].map((id) => ownScenario(plan, id)),
    ...stresses.map(
      ({ id, says, apply }): Tried => ({ name: { id, says }, plan: apply(plan), notApplied: [] }),
    ),
  ];
  return tried.map((trial) => ({ name: trial.name, side: beside(base, trial, options).side }));
}
