import type { Finding } from '../findings/types';
import { formatDay } from '../plan/dates';
import { countsText, fails } from '../report/check-report';
import { commandToCopy } from '../report/command-to-copy';
import { countFindings, present } from '../report/parts';
import type { Io } from './io';
import type { PlanOptions } from './options';

/** What a run ends with. */
export const EXIT = { clean: 0, findings: 1, cannotRun: 2 } as const;

/** One run of the command line: a command sets the exit code it ends with. */
export interface Run {
  readonly io: Io;
  exitCode: number;
}

/** Writes a report: as JSON, or as the text the command makes of it. */
export function print(run: Run, options: PlanOptions, report: object, text: () => string): void {
  run.io.out.write(options.format === 'json' ? `${JSON.stringify(report, null, 2)}\n` : `${text()}\n`);
}

/**
 * What a command ends with that has an exit code of its own: no less than the plan's findings at or above the failing
 * severity, errors unless another is asked for, which are told on the error stream.
 */
export function endOn(
  run: Run,
  own: number,
  findings: readonly Finding[],
  { failOn = 'error', asOf, folder }: Partial<Pick<PlanOptions, 'failOn' | 'asOf' | 'folder'>>,
  about?: string,
): void {
  endWithFindings(run, findings, { failOn, ...present({ asOf, folder }) }, about);
  run.exitCode = Math.max(own, run.exitCode);
}

/**
 * Sets the exit code by the plan's findings. Reports other than the check say on the error stream that there are
 * some, since figures of a plan with errors may be missing or wrong; those of a plan as it was known on a day are seen by
 * checking it as of that day.
 */
export function endWithFindings(
  run: Run,
  findings: readonly Finding[],
  options: Pick<PlanOptions, 'failOn' | 'asOf' | 'folder'>,
  about = 'The plan has',
): void {
  const failed = fails(findings, options.failOn);
  run.exitCode = failed ? EXIT.findings : EXIT.clean;
  const found = countsText(countFindings(findings));
  if (!failed || found === undefined) return;
  const day = options.asOf === undefined ? '' : `--as-of ${formatDay(options.asOf)}`;
  run.io.err.write(
    `\n${about} ${found}: figures may be missing or wrong. See them with: ${commandToCopy('check', options.folder, day)}\n`,
  );
}
