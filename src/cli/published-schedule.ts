import path from 'node:path';
import { parseWeek, type Week } from '../plan/dates';
import { commandToCopy } from '../report/command-to-copy';
import { CannotRun, type Io } from './io';

/**
 * Opening week of each fill from a release report printed earlier; `folder` is the plan's as it was typed, for what is to
 * be printed instead. Throws `CannotRun` where the file is no such.
 */
export function publishedWeeks(io: Io, file: string, folder?: string): ReadonlyMap<string, Week> {
  const how = `Give a report printed earlier by: ${commandToCopy('release', folder, '--format json')}`;
  const text = io.files.read(path.resolve(io.cwd, file));
  if (typeof text !== 'string') throw new CannotRun(`${file} could not be read: ${text.failure}. ${how}`);
  const report = parsed(text);
  if (!isRecord(report) || report.format !== 'lotwright-release-report' || !Array.isArray(report.rooms))
    throw new CannotRun(`${file} is not a release report. ${how}`);
  const weeks = new Map<string, Week>();
  for (const room of report.rooms as readonly unknown[]) {
    if (!isRecord(room) || typeof room.fill !== 'string') throw new CannotRun(`${file} is damaged. ${how}`);
    const week = typeof room.opens === 'string' ? parseWeek(room.opens) : undefined;
    if (week !== undefined) weeks.set(room.fill, week);
  }
  return weeks;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** What is looked at of a report, none of it known to be there. */
interface Parts {
  readonly format?: unknown;
  readonly rooms?: unknown;
  readonly fill?: unknown;
  readonly opens?: unknown;
}

function isRecord(value: unknown): value is Parts {
  return typeof value === 'object' && value !== null;
}
