import type { Command } from 'commander';
import { findingsOf } from '../findings/find';
import type { Plan } from '../plan/model';
import { readPlan } from '../plan/read';
import { displayUnits } from '../report/explain';
import { isListName, listReport, listText } from '../report/explain-list';
import { explainReport, explainText } from '../report/explain-report';
import { findThing } from '../report/find-thing';
import { notFoundText } from '../report/not-found';
import { PAGE_WIDTH, wrap } from '../report/table';
import { thingsOf } from '../report/things';
import { caution } from '../room/caution';
import { CannotRun } from './io';
import { type PlanOptions, withFolder, withPlanOptions } from './options';
import { openPlan } from './plan-files';
import { withReadings } from './readings-files';
import { EXIT, endWithFindings, print, type Run } from './run';
import { wholeSeason } from './season';

const HELP = `
A thing is a room, fill, lot, variety, regime, scrubber, nitrogen source, refrigeration group,
bin type or demand by its identifier; one of its figures, after a point or a slash; or a
finding's code. Where several kinds share an identifier, put the kind before it: lot:G1.
The words varieties, regimes and findings list all there are, built in and the plan's own;
figures lists every name that a figure of the plan can be asked for by.

A figure's explanation gives each formula, the same with numbers, and the result; then each input
with its place in the plan, or its reference value with the source and how well it is known
(published, common practice, from memory). It can be followed with a pocket calculator: what is
integrated or counted hour by hour stands beside a closed form of the same, with the difference.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright explain R01
  lotwright explain R01.free-gas-volume plans/2026
  lotwright explain R01/carbon-dioxide-in-store --units us
  lotwright explain R01.pull-down-time
  lotwright explain S1.duty-2026-W45
  lotwright explain N1.queue
  lotwright explain "Golden Delicious"
  lotwright explain unknown-room
  lotwright explain regimes
  lotwright explain figures plans/2026
`;

export function addExplain(program: Command, run: Run): void {
  const command = program
    .command('explain')
    .argument('<thing>', 'what to explain, as R01 or R01.free-gas-volume');
  withPlanOptions(withFolder(command))
    .description('how a number came about: inputs with file and line, formula, reference values and sources')
    .addHelpText('after', HELP)
    .action((words: string, folder: string | undefined, options: PlanOptions) => {
      const plan = planFor(run, words, folder, options);
      const season = wholeSeason(plan, options);
      const found = findThing(thingsOf(season), words);
      if (found.kind === 'unknown' && isListName(words)) {
        const list = listReport(season, words, options.units);
        print(run, options, list, () =>
          listText(list, displayUnits(plan, options.units), run.io.paint, folder),
        );
        return;
      }
      if (found.kind === 'ambiguous' || found.kind === 'unknown')
        throw new CannotRun(notFoundText(found, words, season, folder));
      const page = found.thing.kind === 'finding' ? run.io.resources.page(found.thing.id) : undefined;
      const findings = findingsOf(withReadings(run.io, season, options));
      const report = explainReport(season, findings, found, { units: options.units, page });
      const units = displayUnits(plan, options.units);
      print(run, options, report, () => explainText(report, plan.files, units, run.io.paint, folder));
      run.exitCode = EXIT.clean;
      // What a code means is as true of a plan with errors.
      if (found.thing.kind !== 'finding') endWithFindings(run, findings, options);
    });
}

/** A list of what is built in needs no plan. */
function planFor(run: Run, words: string, folder: string | undefined, options: PlanOptions): Plan {
  try {
    return openPlan(run.io, folder, options);
  } catch (error) {
    if (folder === undefined && isListName(words) && error instanceof CannotRun) return readPlan([]);
    throw error;
  }
}
