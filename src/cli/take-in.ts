import path from 'node:path';
import type { Command } from 'commander';
import type { Plan } from '../plan/model';
import { nearest } from '../plan/nearest';
import { displayUnits } from '../report/explain';
import { PAGE_WIDTH, wrap } from '../report/table';
import { takeInReport, takeInText } from '../report/take-in-report';
import { caution } from '../room/caution';
import { editsByFile, takeIn } from '../take-in/take-in';
import type { TableLayout } from '../take-in/types';
import { CannotRun, type Io } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { EXIT, print, type Run } from './run';
import { writeWeeks } from './write-weeks';

const HELP = `
How a file is laid out stands in the plan, once, under tables:

  tables:
    weighbridge:
      holds: receipts                       # or maturity, demand, progress, samples, packed, sales
      columns: { lot: Lot no, day: Date, bins: Bins, field-temperature: Pulp }
      separator: semicolon                  # comma (default), semicolon or tab
      decimal: comma                        # point (default) or comma
      dates: day-month-year                 # year-month-day (default) or month-day-year
      units: { field-temperature: °C }
      names: { lot: { GA-01: L1 } }         # what the file calls by another name

  receipts   lot, day, bins; field-temperature. Loads of a day are added up into received-by-day.
  maturity   lot, tested; starch, firmness, soluble-solids, ethylene. The last test of a lot counts.
  demand     market, variety, class, week, cartons. Goes into by-week of that demand.
  progress   fill (or its room), and step with day (step: sealed), or a column a step; lot and bins.
  samples    lot, taken; sample, fill, fruit, firmness, firmness-spread, soluble-solids, ethylene,
             and a column a disorder (scald, rot and so on).
  packed     lot, day, bins; run, fill, and a column a class (cartons-first: Class I), or class and
             cartons with a row a class. Without a fill it was packed from the field.
  sales      market, variety, class, week, cartons; price. Rows of one week are added up.

Without --write it shows what would change, and nothing is touched. Rows that cannot be taken are
named with their line and the reason; all others are taken. The same file taken in again changes
nothing. What is recorded is never changed: a row that says something else than a record of the plan
is told, and whoever knows better corrects the plan. Of rows that contradict each other none is
taken, nor is a day that cannot be, as an opening before the sealing: every line is named, with the
day it is held against. Rows that are added up to one entry are taken together, or none of them.
Comments and the order of the plan stay as they are. All files of the plan are written, or none.

${wrap(caution, PAGE_WIDTH).join('\n')}

Exit codes: 0 all rows are taken, 1 some are not, 2 the file or the plan could not be read.

Examples:
  lotwright take-in weighbridge receipts.csv plans/2026
  lotwright take-in weighbridge receipts.csv plans/2026 --write
  lotwright take-in orders orders-W12.csv --format json
`;

interface TakeInOptions extends PlanOptions {
  readonly write?: boolean;
}

export function addTakeIn(program: Command, run: Run): void {
  const command = program
    .command('take-in')
    .argument('<table>', 'the table, as the plan names it under tables')
    .argument('<file>', 'the file of comma-separated values');
  withPlanOptions(withFolder(command))
    .description('take receipts, tests, demand, progress, packing or sales from a file into the plan')
    .option('--write', 'put the changes into the plan')
    .addHelpText('after', HELP)
    .action((table: string, file: string, folder: string | undefined, options: TakeInOptions) => {
      const { io } = run;
      if (options.asOf !== undefined)
        throw new CannotRun('A file is taken into the plan as it is now. Leave out --as-of.');
      const plan = openPlan(io, folder, { units: options.units });
      const layout = layoutNamed(plan, table);
      const taken = takeIn(plan, layout, fileText(io, file));
      const written = (options.write ?? false) && taken.changes.length > 0;
      if (written)
        writeWeeks(
          io,
          plan,
          [...editsByFile(taken.changes)].map(([name, edits]) => ({ file: name, edits })),
        );
      const units = displayUnits(plan, options.units).system;
      const report = takeInReport(plan, layout, taken, { source: file, written, units });
      print(run, options, report, () => takeInText(report, io.paint));
      run.exitCode = taken.faults.length > 0 ? EXIT.findings : EXIT.clean;
    });
}

function layoutNamed(plan: Plan, name: string): TableLayout {
  const layout = plan.tables.get(name);
  if (layout?.holds) return { ...layout, holds: layout.holds };
  if (layout)
    throw new CannotRun(
      `The table \`${name}\` does not say what it holds. Give it \`holds: receipts\`, or another of the kinds in lotwright take-in --help.`,
    );
  const names = [...plan.tables.keys()];
  if (names.length === 0)
    throw new CannotRun(
      'The plan has no `tables`: they say how a file is laid out. See lotwright take-in --help.',
    );
  const meant = nearest(name, names);
  throw new CannotRun(
    `The plan has no table \`${name}\`. ${meant ? `Is ${meant} meant?` : `There are: ${names.join(', ')}.`}`,
  );
}

function fileText(io: Io, file: string): string {
  const text = io.files.read(path.resolve(io.cwd, file));
  if (typeof text !== 'string') throw new CannotRun(`${file} could not be read: ${text.failure}.`);
  if (text.includes('\uFFFD'))
    throw new CannotRun(`${file} is not UTF-8, so that names would come out wrong. Save it as UTF-8.`);
  return text;
}
