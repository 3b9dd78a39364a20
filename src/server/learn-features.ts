import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type Connection,
  type Position,
} from 'vscode-languageserver';
import type { Lesson } from '../learning/lesson';
import { differs, isWritten, lessonEdits, writtenValue } from '../learning/written';
import { consequenceText } from '../report/compare-words';
import { displayUnits } from '../report/explain';
import { learnReport } from '../report/learn-report';
import { type LearnedSeason, learnSeasonSteps } from '../report/learn-season';
import { lessonLine } from '../report/learn-words';
import { cardLessons } from '../report/lesson-card';
import type { Asked } from './asked';
import { inSlices } from './in-slices';
import { toEdits, toRange } from './lsp';
import { type OpenPlan, planName } from './plan-sessions';
import { clientCommands } from './protocol';
import {
  type LearnAnswer,
  type LearnParams,
  type LearnShare,
  learnRequest,
  learnShare,
  type RoomLessonsAnswer,
  type RoomLessonsParams,
  roomLessonsRequest,
  type TakeLessonsAnswer,
  type TakeLessonsParams,
  type ToldLesson,
  takeLessonsRequest,
} from './protocol-learn';
import type { ServerState } from './server-state';
import { cursorAt } from './services/cursor';
import { lessonLenses, lessonsOn } from './services/lessons';
import { entryAround } from './services/subject';

/** Registers what records teach: told with what it changes, and taken into the plan as the command line does. */
export function addLearnFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(
    learnRequest,
    async (params: LearnParams, token: CancellationToken): Promise<LearnAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(params.uri);
      if (!open) return null;
      const told = (share: LearnShare) => void connection.sendNotification(learnShare, share);
      return learned(state, open, params, told, token);
    },
  );
  connection.onRequest(
    roomLessonsRequest,
    async ({ uri, key }: RoomLessonsParams): Promise<RoomLessonsAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      const known = open && (await state.lessons.of(open));
      return known ? { lessons: cardLessons(known.plan, known.learned.lessons, key) } : null;
    },
  );
  connection.onRequest(
    takeLessonsRequest,
    async ({ uri, lessons }: TakeLessonsParams): Promise<TakeLessonsAnswer | null> => {
      await state.ready();
      const open = state.plans.planOrLatest(uri);
      const known = open && (await state.lessons.of(open));
      if (!open || !known) return null;
      const found = lessons.map(({ id, value }) =>
        known.learned.lessons.find((lesson) => lesson.id === id && writtenValue(lesson) === value),
      );
      // What was shown is what is written, or nothing is.
      if (found.includes(undefined)) return null;
      return edited(
        state,
        open,
        found.filter((lesson) => lesson !== undefined),
      );
    },
  );
}

async function learned(
  state: ServerState,
  open: OpenPlan,
  { of, ask }: LearnParams,
  tell: (share: LearnShare) => void,
  token: CancellationToken,
): Promise<LearnAnswer | null> {
  const known = await state.lessons.of(open);
  if (!known || token.isCancellationRequested) return null;
  const { plan, readings } = known;
  const { season, plan: settled } = await open.session.settledSoon();
  if (settled !== plan) return null;
  const steps = learnSeasonSteps(plan, readings, {
    release: season.release,
    of,
    learned: known.learned,
    onShare: (share) => tell({ ask, share }),
  });
  const isUnwanted = () => token.isCancellationRequested || open.session.plan() !== plan;
  const result = await inSlices(steps, isUnwanted);
  return result ? answerOf(open, result, of) : null;
}

function answerOf(open: OpenPlan, result: LearnedSeason, of: LearnParams['of']): LearnAnswer {
  const { plan, effects } = result;
  const units = displayUnits(plan);
  const { together, notLearned } = learnReport(result, new Set());
  const lessons = result.lessons.filter(({ id }) => !of || of.includes(id));
  return {
    name: planName(plan, open.root),
    together,
    notLearned,
    lessons: lessons.map((lesson): ToldLesson => {
      const told = effects.get(lesson.id)?.map((one) => consequenceText(one, units));
      return {
        id: lesson.id,
        line: lessonLine(lesson, units),
        differs: differs(lesson),
        written: isWritten(plan, lesson),
        value: writtenValue(lesson),
        ...(told && { effects: told }),
      };
    }),
  };
}

function edited(state: ServerState, open: OpenPlan, lessons: readonly Lesson[]): TakeLessonsAnswer {
  const plan = open.session.plan();
  const edits = toEdits(
    plan,
    lessons.flatMap((lesson) => lessonEdits(plan, lesson)),
    open.uriOf,
  );
  const versions = Object.keys(edits).flatMap((document) => {
    const version = state.version(document);
    return version === undefined ? [] : [[document, version] as const];
  });
  return { edits, versions: Object.fromEntries(versions) };
}

/** Above the entries that a lesson would change: what records say, where it differs from what the plan says. */
export function lessonCodeLenses(state: ServerState, found: Asked, uri: string): CodeLens[] {
  const known = state.lessons.atHand(found.plan);
  if (!known) return [];
  const plan = found.plan.session.plan();
  const hasCommands = state.options().clientCommands;
  return lessonLenses(plan, known.learned.lessons, found.text.path).map(({ at, title, lessons }) => ({
    range: toRange(plan, at),
    command: {
      title,
      command: hasCommands ? clientCommands.takeLessons : '',
      ...(hasCommands && { arguments: [{ uri, of: lessons }] }),
    },
  }));
}

/** Over an entry: to take in what its records teach, each lesson by itself. */
export function lessonActions(state: ServerState, found: Asked, at: Position): CodeAction[] {
  const known = state.lessons.atHand(found.plan);
  if (!known) return [];
  const plan = found.plan.session.plan();
  const place = cursorAt(found.text.text, found.point(at).offset);
  const subject = place && entryAround(place);
  if (!subject) return [];
  const units = displayUnits(plan);
  return lessonsOn(plan, known.learned.lessons, subject).map((lesson) => ({
    title: `Take it in · ${lessonLine(lesson, units)}`,
    kind: CodeActionKind.RefactorRewrite,
    edit: { changes: toEdits(plan, lessonEdits(plan, lesson), found.plan.uriOf) },
  }));
}
