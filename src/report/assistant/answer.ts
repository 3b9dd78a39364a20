import { computeSeason, withCourses, withRelease } from '../../findings/compute';
import { findingsOf, type SeverityChoice } from '../../findings/find';
import type { ComputedSeason, Finding } from '../../findings/types';
import type { Day } from '../../plan/dates';
import { nearest } from '../../plan/nearest';
import { type PlanFile, readPlan } from '../../plan/read';
import { checkSchedule } from '../../release/checker';
import { whyNoSchedule } from '../../release/lacks';
import { releaseProblem } from '../../release/problem';
import type { ReleaseProblem, ReleaseResult } from '../../release/types';
import { caution } from '../../room/caution';
import { checkReport, checkText } from '../check-report';
import { courseReport } from '../course-report';
import { courseText } from '../course-text';
import { displayUnits } from '../explain';
import { isListName, listReport, listText } from '../explain-list';
import { explainReport, explainText } from '../explain-report';
import { findThing } from '../find-thing';
import { gasReport } from '../gas-report';
import { gasText } from '../gas-text';
import { notFoundText } from '../not-found';
import { noPaint } from '../paint';
import { releaseReport } from '../release-report';
import { releaseText } from '../release-text';
import { roomsReport } from '../rooms-report';
import { roomsText } from '../rooms-text';
import { thingsOf } from '../things';
import { windowsReport } from '../windows-report';
import { windowsText } from '../windows-text';
import type { Asked } from './asked';

/** What an answer rests on besides the plan's text. */
export interface Surroundings {
  /** The day to look from. */
  readonly today: Day;
  /** The page of a finding's code, as Markdown. */
  readonly page: (code: string) => string | undefined;
  /** Severities of findings that the planner has set outside the plan. */
  readonly severities?: ReadonlyMap<string, SeverityChoice> | undefined;
  /** What the readings beside the plan come to, held against a season of it; left out where nobody reads them. */
  readonly readings?: ((season: ComputedSeason) => ComputedSeason['readings']) | undefined;
  /** A schedule found for the problem that was handed out for this very question. */
  readonly solved?: ReleaseResult | undefined;
}

export interface Answer {
  readonly text: string;
  /** The question could not be answered; the text says why. */
  readonly failed: boolean;
  /** What must be told with the answer; absent where its text has it already. */
  readonly caution?: string;
}

/** An answer, or the release problem that is to be solved first: then the question is put again with the result. */
export type Answered = Answer | { readonly problem: ReleaseProblem };

/** Longer answers help nobody: the end is cut off and said to be. UTF-16 code units. */
const MOST_TEXT = 60_000;
const SEED = 1;

/**
 * Answers a question about a plan, with the reports that the command line prints. `files` are the plan's, by the paths
 * that are shown; `below` is a file's path below the plan's folder. Nothing is ever written.
 */
export function answerTo(
  files: readonly PlanFile[],
  asked: Asked,
  around: Surroundings,
  below: (path: string) => string = (path) => path,
): Answered {
  const changed = withChanges(files, asked.changes, below);
  if (typeof changed === 'string') return { text: changed, failed: true, caution };
  if (asked.subject === 'release') return releaseAnswer(changed, asked, around);
  if (asked.subject === 'explain') return explained(changed, asked, around);
  const season = computeSeason(readPlan(changed), { release: 'quick', seed: SEED, courses: true });
  return reported(season, asked, around);
}

function reported(season: ComputedSeason, asked: Asked, around: Surroundings): Answer {
  const { room } = asked;
  const findings = found(season, around);
  if (room !== undefined && !season.plan.rooms.has(room) && !season.plan.fills.has(room)) {
    const near = nearest(room, [...season.plan.rooms.keys(), ...season.plan.fills.keys()]);
    const text = `The plan has no room or fill called "${room}".${near === undefined ? '' : ` Nearest: ${near}.`}`;
    return { text, failed: true, caution };
  }
  switch (asked.subject) {
    case 'rooms': {
      const report = roomsReport(season, findings);
      return told(asked, report, () => roomsText(report));
    }
    case 'gas': {
      if (room !== undefined) {
        const report = courseReport(season, findings, room);
        return told(asked, report, () => courseText(report));
      }
      const report = gasReport(season, findings);
      return told(asked, report, () => gasText(report));
    }
    case 'windows': {
      const one = room === undefined ? undefined : (season.plan.fills.get(room)?.room?.value ?? room);
      const report = windowsReport(season, findings, { today: around.today, room: one });
      return told(asked, report, () => windowsText(report, noPaint, one));
    }
    default: {
      const { system } = displayUnits(season.plan);
      const all = found(withReadings(season, around), around);
      const report = checkReport(season, all, { units: system, failOn: 'error' });
      return told(asked, report, () => checkText(report, season.plan.files));
    }
  }
}

function releaseAnswer(files: readonly PlanFile[], asked: Asked, around: Surroundings): Answered {
  const season = computeSeason(readPlan(files), { release: 'none' });
  const problem = releaseProblem(season.plan, season.keeping);
  if (!problem) return { text: whyNoSchedule(season.plan, season.keeping), failed: true, caution };
  const { solved: result } = around;
  if (!result) return { problem };
  const violations = checkSchedule(problem, result.schedule, result.unmet);
  if (violations.length > 0)
    return { text: 'The schedule found did not pass its check.', failed: true, caution };
  const release = { problem, result };
  const scheduled = withCourses(withRelease(season, release));
  const report = releaseReport(scheduled, release, found(scheduled, around), {
    violations,
    stoppedEarly: false,
    today: around.today,
  });
  return told(asked, report, () => releaseText(report, noPaint, { reasons: asked.reasons === true }));
}

function explained(files: readonly PlanFile[], asked: Asked, around: Surroundings): Answer {
  const words = asked.figure ?? '';
  const season = computeSeason(readPlan(files), { release: 'quick', seed: SEED, courses: true });
  const units = displayUnits(season.plan);
  const thing = findThing(thingsOf(season), words);
  if (thing.kind === 'unknown' && isListName(words)) {
    const list = listReport(season, words);
    return told(asked, list, () => listText(list, units));
  }
  if (thing.kind === 'ambiguous' || thing.kind === 'unknown')
    return { text: notFoundText(thing, words, season), failed: true, caution };
  const page = thing.thing.kind === 'finding' ? around.page(thing.thing.id) : undefined;
  const report = explainReport(season, found(withReadings(season, around), around), thing, { page });
  return told(asked, report, () => explainText(report, season.plan.files, units));
}

/** As `check` and `explain` of the command line have it. */
function withReadings(season: ComputedSeason, { readings }: Surroundings): ComputedSeason {
  return readings ? { ...season, readings: readings(season) } : season;
}

function found(season: ComputedSeason, { severities }: Surroundings): readonly Finding[] {
  return findingsOf(season, severities ? { severities } : {});
}

/** As text or JSON, cut where it is too long; with the caution beside it where it does not hold it. */
function told({ format }: Asked, report: object, text: () => string): Answer {
  const whole = format === 'json' ? JSON.stringify(report) : text();
  const words = (one: string) => one.replace(/\s+/g, ' ');
  const kept = cut(whole.trimEnd());
  return {
    text: kept,
    failed: false,
    ...(!words(kept).includes(words(caution)) && { caution }),
  };
}

/** The files with the changes made, one after the other; else why one of them cannot be made. */
function withChanges(
  files: readonly PlanFile[],
  changes: Asked['changes'],
  below: (path: string) => string,
): readonly PlanFile[] | string {
  let now = files;
  for (const { file, old, new: by } of changes) {
    const given = file.replaceAll('\\', '/').replace(/^\.\//, '');
    const one = now.find(({ path }) => below(path) === given || path === given);
    if (!one) return `The plan has no file ${file}. It has: ${now.map(({ path }) => below(path)).join(', ')}`;
    const first = one.text.indexOf(old);
    if (first < 0) return `${file} does not hold this text: ${old}`;
    if (one.text.indexOf(old, first + 1) >= 0)
      return `${file} holds this text more than once; give more of it: ${old}`;
    const text = one.text.slice(0, first) + by + one.text.slice(first + old.length);
    now = now.map((other) => (other === one ? { ...one, text } : other));
  }
  return now;
}

function cut(text: string): string {
  if (text.length <= MOST_TEXT) return text;
  return `${text.slice(0, MOST_TEXT)}\n[cut off: ${text.length - MOST_TEXT} characters more. Ask for one room, or for text in place of JSON.]`;
}
