import { type Command, InvalidArgumentError, Option } from 'commander';
import { type Day, parseDay } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import type { Severity } from '../plan/problem';

/** Options that every command on a plan has. */
export interface AsOfOption {
  /** The day the plan is looked at from: what was recorded later is left out. */
  readonly asOf?: Day;
}

/** Every command with a folder has it among its options. */
export interface FolderOption {
  /** The plan's folder as it was typed; undefined where the current one is taken. */
  readonly folder?: string;
}

export interface PlanOptions extends AsOfOption, FolderOption {
  readonly format: 'text' | 'json';
  readonly units?: UnitSystem;
  readonly failOn: Severity;
  readonly seed: number;
}

export interface TodayOption {
  readonly today?: Day;
}

/** Adds what every command on a plan has: its folder, and how its result is shown. */
export function withPlanOptions(command: Command, formats: readonly string[] = ['text', 'json']): Command {
  const more = formats.length > 2 ? '; more below' : '';
  return command
    .addOption(
      new Option('--format <format>', `text for people, json for programs${more}`)
        .choices(formats)
        .default('text'),
    )
    .addOption(
      new Option('--units <system>', 'units results are shown in (default: as the plan says)').choices([
        'metric',
        'us',
      ]),
    )
    .addOption(
      new Option(
        '--fail-on <severity>',
        'least severity of a finding that gives exit code 1; the caution alone never does',
      )
        .choices(['error', 'warning', 'notice'])
        .default('error'),
    )
    .addOption(
      new Option('--seed <number>', 'seed of the search: the same seed gives the same schedule')
        .argParser(wholeNumber)
        .default(1),
    )
    .addOption(asOfOption());
}

export function asOfOption(): Option {
  return new Option(
    '--as-of <date>',
    'the plan as it was known on a day, as 2026-10-05 (default: with all of its records)',
  ).argParser(day);
}

/** Adds the folder, which stands among the options too, so that commands told to be copied name it as it was typed. */
export function withFolder(command: Command): Command {
  const at = command.registeredArguments.length;
  return command
    .argument('[folder]', "the plan's folder (default: the current one)")
    .hook('preAction', (_, called) => {
      called.setOptionValue('folder', called.args[at]);
    });
}

export function withToday(command: Command): Command {
  return command.addOption(
    new Option('--today <date>', 'the day to look from, as 2026-09-14 (default: today)').argParser(day),
  );
}

export function wholeNumber(text: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || !Number.isSafeInteger(value))
    throw new InvalidArgumentError('Write a whole number, as 7.');
  return value;
}

/** A count that is nothing at 0: of weeks, say. */
export function atLeastOne(text: string): number {
  if (!/^\d+$/.test(text) || Number(text) === 0)
    throw new InvalidArgumentError('Write a whole number, 1 or more, as 4.');
  return wholeNumber(text);
}

export function positiveNumber(text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value) || value <= 0)
    throw new InvalidArgumentError('Write a number above 0, as 2.5.');
  return value;
}

export function day(text: string): Day {
  const value = parseDay(text);
  if (value === undefined) throw new InvalidArgumentError('Write a calendar date, as 2026-09-14.');
  return value;
}
