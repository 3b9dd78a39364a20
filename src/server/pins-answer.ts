import { parseWeek, weekOfDay } from '../plan/dates';
import type { WeekEdit } from '../release/week-edits';
import { displayUnits } from '../report/explain';
import { scheduleNote } from '../report/timeline-note';
import { toRange } from './lsp';
import { type OpenPlan, planName } from './plan-sessions';
import type { PinsAnswer } from './protocol';
import type { ServerState } from './server-state';

/** Pins as the client makes them: edits of its documents, for the text that they were made for. */
export function pinsAnswer(
  state: ServerState,
  open: OpenPlan,
  pins: readonly WeekEdit[],
  wanted: string | undefined,
): PinsAnswer {
  const { plan, season } = open.session.snapshot();
  const today = state.today();
  const thisWeek = today === undefined ? undefined : weekOfDay(today);
  const answered = pins.flatMap((pin) => {
    const uri = open.uriOf(pin.file);
    if (uri === undefined) return [];
    const edits = pin.edits.map(({ at, newText }) => ({ range: toRange(plan, at), newText }));
    const passed = thisWeek !== undefined && (parseWeek(pin.week) ?? thisWeek) < thisWeek;
    return [{ fill: pin.fill, room: pin.room, week: pin.week, ...(passed && { passed }), uri, edits }];
  });
  const versions = [...new Set(answered.map(({ uri }) => uri))].flatMap((uri) => {
    const version = state.version(uri);
    return version === undefined ? [] : [[uri, version] as const];
  });
  return {
    name: planName(plan, open.root),
    schedule: scheduleNote(season, displayUnits(plan)),
    ...(wanted !== undefined && { fill: wanted }),
    pins: answered,
    versions: Object.fromEntries(versions),
  };
}
