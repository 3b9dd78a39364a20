import type { Finding } from '../findings/types';
import { type Day, formatDay } from '../plan/dates';
import { type DisplayUnits, type Measure, measureOf } from '../plan/display';
import type { Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import { isReadingError } from '../plan/reading-codes';
import { shortened } from '../plan/shortened';
import type { Given } from '../plan/span';
import type { FilledRoom, LotInRoom } from '../room/types';
import { placeOf, placeOfRelated } from './place';
import type { CheckReport, FindingCounts, FindingJson } from './schemas';

/** What the reports share. */

export function planPart(plan: Plan): CheckReport['plan'] {
  const name = plan.season?.name?.value;
  const errors = plan.problems.filter(isReadingError);
  const [first] = errors;
  return {
    ...(name === undefined ? {} : { season: name }),
    files: [...plan.files.keys()],
    ...(first && { notRead: { errors: errors.length, first: placeOf(plan, first.at) } }),
  };
}

/** What a report's title begins with: the season's name, where it has one. */
export function seasonBefore({ season }: CheckReport['plan']): string {
  return season === undefined ? '' : `${shortened(season)}: `;
}

/** What is said first of a plan of which not all could be read; undefined where all was. */
export function notReadText({ notRead }: CheckReport['plan']): string | undefined {
  if (!notRead) return undefined;
  const { errors, first } = notRead;
  const where = `${first.file}:${first.line}:${first.column}`;
  return errors === 1
    ? `Not all of the plan could be read: there is an error in its text at ${where}. What stands there is left out, and all that is told here is of the rest.`
    : `Not all of the plan could be read: there are ${errors} errors in its text, the first at ${where}. What stands there is left out, and all that is told here is of the rest.`;
}

export function countFindings(findings: readonly Finding[]): FindingCounts {
  const count = (severity: Finding['severity']) =>
    findings.filter((finding) => finding.severity === severity).length;
  return { errors: count('error'), warnings: count('warning'), notices: count('notice') };
}

export function findingJson(plan: Plan, finding: Finding): FindingJson {
  return {
    code: finding.code,
    family: finding.family,
    severity: finding.severity,
    message: finding.message,
    place: placeOf(plan, finding.at),
    related: finding.related.map((related) => ({
      place: placeOfRelated(plan, related),
      message: related.message,
    })),
    fixes: finding.fixes.map(({ title, edits }) => ({
      title,
      edits: edits.map(({ at, newText }) => ({ place: placeOf(plan, at), newText })),
    })),
    fingerprint: finding.fingerprint,
  };
}

/** The object without the keys whose value is undefined: a report leaves out what the plan cannot tell. */
export function present<T extends object>(values: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

/** Measures of the figures that are there. */
export function measures<K extends string>(
  figures: Readonly<Record<K, Figure | undefined>>,
  units: DisplayUnits,
): Partial<Record<K, Measure>> {
  const entries = Object.entries<Figure | undefined>(figures).map(([key, figure]) => [
    key,
    measureOf(figure, units),
  ]);
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined));
}

export function givenDay(given: Given<Day> | undefined): string | undefined {
  return given && formatDay(given.value);
}

/** The varieties of a room, those with most fruit first. */
export function varietiesOf(filled: FilledRoom): string[] {
  const bins = new Map<string, number>();
  for (const lot of filled.lots) {
    const name = varietyName(lot);
    bins.set(name, (bins.get(name) ?? 0) + lot.bins.value);
  }
  return [...bins].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1)).map(([name]) => name);
}

/** The variety's name as the plan writes it: a built-in variety goes by several. */
export function varietyName({ lot, variety }: LotInRoom): string {
  return lot.variety?.value ?? variety.name;
}

/** Fills by room identifier, in the order of the plan. */
export function fillsByRoom(filled: ReadonlyMap<string, FilledRoom>): Map<string, FilledRoom[]> {
  const byRoom = new Map<string, FilledRoom[]>();
  for (const room of filled.values()) {
    const list = byRoom.get(room.room.id);
    if (list) list.push(room);
    else byRoom.set(room.room.id, [room]);
  }
  return byRoom;
}

/** Sum of the measures that are there; undefined where there is none. */
export function sumOf(list: readonly (Measure | undefined)[]): Measure | undefined {
  const known = list.filter((value) => value !== undefined);
  const unit = known[0]?.unit;
  if (unit === undefined) return undefined;
  return { value: Number(known.reduce((sum, { value }) => sum + value, 0).toPrecision(10)), unit };
}
