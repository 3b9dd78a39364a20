import { describe, expect, it } from 'vitest';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatDay, parseDay } from '../../src/plan/dates';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { setBy } from '../../src/report/papers/basis';
import { statusReport } from '../../src/report/status-report';
import { statusText } from '../../src/report/status-text';
import { openingOf } from '../../src/report/timeline-room';
import { pinTo } from '../../src/server/services/pins';
import { compareSeasons } from '../edits/same-again';
import { type SampleFile, sampleFiles } from '../samples/sample';

const CODE = 'packed-without-opening';

/** The sample in March, its records changed. */
function inMarch(...changes: readonly (readonly [from: string | RegExp, to: string])[]): SampleFile[] {
  return sampleFiles('in-march').map(({ path, text }) => {
    if (!path.startsWith('records')) return { path, text };
    return { path, text: changes.reduce((now, [from, to]) => now.replace(from, to), text) };
  });
}

const season = (files: readonly SampleFile[]) => computeSeason(readPlan(files), { release: 'quick' });
const found = (files: readonly SampleFile[]) => findingsOf(season(files)).filter(({ code }) => code === CODE);

/** R4 is packed from 23 February on; nobody wrote that it was opened on the 22nd. */
const UNSAID = inMarch(['    opened: 2027-02-22\n', '']);

describe('a sealed room that was packed from, of which no opening is recorded', () => {
  const now = season(UNSAID);
  const [room] = [...now.filled.values()].filter(({ fill }) => fill.id === 'R4-braeburn');
  if (!room) throw new Error('the sample fills R4');

  it('is told at the first packed run, with what was taken for its opening, what to do, and the caution', () => {
    const [told, ...others] = found(UNSAID);
    expect(others).toEqual([]);
    expect(told?.severity).toBe('warning');
    expect(told?.message).toContain(
      'Fruit of R4-braeburn is recorded as packed on 2027-02-23, but no opening of its room, sealed on 2026-10-16. It counts as opened by that day',
    );
    expect(told?.message).toContain('Record `opened` of R4-braeburn under `progress`');
    expect(told?.message).toContain('treat the room as sealed. Sealed rooms kill.');
    const text = now.plan.files.get(told?.at.file ?? '')?.text ?? '';
    const line = text.slice(text.lastIndexOf('\n', told?.at.start) + 1, told?.at.end);
    expect(line).toBe('  P01-R4-braeburn: { lot: B1, fill: R4-braeburn, day: 2027-02-23');
  });

  it('is opened in the schedule, the status, the papers and the timeline alike, and no pin moves it', () => {
    const opened = now.release?.problem.standing?.opened.find(({ fill }) => fill === 'R4-braeburn');
    const opening = openingOf(now, room);
    expect((now.release?.problem.firstWeek ?? 0) + (opened?.week ?? 0)).toBe(opening?.week);
    expect(opening?.opened && setBy(now, 'R4-braeburn', opening, undefined)).toBe('opened');
    expect(pinTo(now.plan, 'R4-braeburn', '2027-W12')).toEqual([]);
    const status = statusReport(season(UNSAID), parseDay('2027-03-07') ?? 0, undefined, undefined, []);
    const told = status.rooms.find(({ fill }) => fill === 'R4-braeburn');
    expect(told?.state).toBe('opened');
    expect(told?.steps.find(({ step }) => step === 'opened')).toEqual({
      step: 'opened',
      happened: '2027-02-23',
      notRecorded: true,
    });
    const text = statusText(status);
    expect(text).toContain('by 2027-02-23');
    expect(text).toContain('By: no opening is recorded, and packing began on that day (R4).');
    expect(text).not.toContain('Open R4');
  });

  it('and is not said to have been opened outside its window: on that day nobody knows', () => {
    const late = inMarch([/opened: 2027-02-22/, 'opened: 2027-03-01'], [/2027-02-2[35]/g, '2027-03-01']);
    const codes = (files: readonly SampleFile[]) => findingsOf(season(files)).map(({ code }) => code);
    expect(codes(late)).toContain('opened-outside-window');
    const unsaid = late.map(({ path, text }) => ({
      path,
      text: text.replace('    opened: 2027-03-01\n', ''),
    }));
    expect(codes(unsaid)).toContain(CODE);
    expect(codes(unsaid)).not.toContain('opened-outside-window');
  });

  it('is computed again as it is computed afresh, when the opening is written, and when the run is changed', () => {
    const cache = emptyPlanCache();
    const ways = [new SeasonAgain(), new SeasonAgain({ byField: true })];
    const wrongDay = UNSAID.map(({ path, text }) => ({
      path,
      text: text.replace('day: 2027-02-23', 'day: 2027-02-24'),
    }));
    for (const files of [inMarch(), UNSAID, wrongDay, UNSAID, inMarch()])
      compareSeasons(ways, { plan: readPlan(files, cache), fresh: readPlan(files), atHand: {} });
  });
});

it('nothing is told of a room whose opening is recorded', () => {
  expect(found(inMarch())).toEqual([]);
});

it('a room in air is told as a notice, without a caution about sealed rooms', () => {
  const [told] = found(inMarch(['    opened: 2026-09-21\n', '']));
  expect(told?.severity).toBe('notice');
  expect(told?.message).toContain(
    'Fruit of R1-gala is recorded as packed on 2026-09-22, but no opening of its room.',
  );
  expect(told?.message).not.toContain('Sealed rooms kill');
});

it('bins that were taken before the room was sealed open nothing', () => {
  const early = inMarch(
    ['    opened: 2027-02-22\n', ''],
    [/fill: R4-braeburn, day: \d{4}-\d\d-\d\d/g, 'fill: R4-braeburn, day: 2026-10-15'],
  );
  expect(found(early)).toEqual([]);
  const fill = season(early).plan.fills.get('R4-braeburn');
  expect(fill?.opened).toBeUndefined();
  expect(fill?.sealed && formatDay(fill.sealed.value)).toBe('2026-10-16');
});
