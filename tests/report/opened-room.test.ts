import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { findConflicts } from '../../src/release/conflicts';
import { whatIfOpened, whyItsWeek } from '../../src/report/other-week';
import { reasonText } from '../../src/report/reason-text';
import { releaseReport } from '../../src/report/release-report';
import { lotwright } from '../cli/in-process';
import { errorsAgainst } from '../cli/schemas';
import { sampleFiles } from '../samples/sample';

const WHY = 'opened on 2027-02-22: its week is no longer a choice';

describe('why an opened room opens in its week', () => {
  const season = computeSeason(readPlan(sampleFiles('in-march')), { release: 'quick' });
  const { release } = season;
  if (!release) throw new Error('R4 is still to be packed out');

  it('is that it was opened: no other week is offered, in the text and in JSON', async () => {
    const report = releaseReport(season, release, [], { violations: [], stoppedEarly: false });
    const [room] = report.rooms;
    expect(room?.room).toBe('R4');
    expect(room?.reason).toEqual({ opened: { on: '2027-02-22' } });
    expect(room && reasonText(room, 'EUR')).toBe(`was ${WHY}`);
    expect(errorsAgainst('release-report', report)).toEqual([]);
    const { out } = await lotwright(['release', 'sample-plans/in-march', '--reasons']);
    expect(out).toContain(`R4  2027-W08  was ${WHY}.`);
    expect(out).not.toContain('a week earlier');
  });

  it('is told so in the editor too, where it stands and where it is dragged to', () => {
    const week = release.problem.firstWeek + (release.problem.rooms[0]?.earliest ?? 0);
    expect(whyItsWeek(season, 'R4-braeburn')).toEqual({ text: `Was ${WHY}.`, breaks: false });
    expect(whatIfOpened(season, 'R4-braeburn', week + 2)).toEqual({ text: `Was ${WHY}.`, breaks: true });
  });

  it('and where the room is explained', async () => {
    const { out } = await lotwright(['explain', 'R4', 'sample-plans/in-march']);
    expect(out).toContain(`It was ${WHY}.`);
  });
});

describe('two rooms stand open, and the packhouse cannot empty both in the days to empty a room', () => {
  // R2 was opened as late as R4, and 59 bins of it are packed: 176 and 140 bins are left, 110 a week are run.
  const files = sampleFiles('in-march').map(({ path, text }) => ({
    path,
    text: text
      .replace('    emptied: 2027-01-29\n', '')
      .replace('opened: 2027-01-04', 'opened: 2027-02-22')
      .replace(/^ {2}P(0[3-9]|1\d)-R2-gala: .*\n/gm, '')
      .replaceAll('fill: R2-gala, day: 2027-01-0', 'fill: R2-gala, day: 2027-02-2'),
  }));
  const season = computeSeason(readPlan(files), { release: 'quick' });
  const { release } = season;
  if (!release) throw new Error('both are still to be packed out');
  const { problem, result } = release;

  it('neither is said to stay shut: they are emptied as soon as both can be', () => {
    expect(problem.rooms.map(({ fill, bins }) => [fill, bins])).toEqual([
      ['R2-gala', 176],
      ['R4-braeburn', 140],
    ]);
    expect(findConflicts(problem)).toEqual({ messages: [], unmet: [] });
    expect(result.schedule.opens).not.toContain(null);
    const packed = result.schedule.packed.map((row) => row.reduce((sum, bins) => sum + bins, 0));
    expect(packed.map(Math.round)).toEqual([176, 140]);
  });

  it('a pin that their bins leave no time for is the one not kept, though its room has more of them', () => {
    const { week = 0 } = problem.standing ?? {};
    const pinned = {
      ...problem.rooms[0],
      ...{ fill: 'R9-gala', room: 'R9', bins: 200, weeksToEmpty: 2 },
      ...{ earliest: week, latest: week, pinned: week },
    } as (typeof problem.rooms)[number];
    const { messages, unmet } = findConflicts({ ...problem, rooms: [...problem.rooms, pinned] });
    expect(unmet).toEqual([2]);
    expect(messages.join(' ')).toContain('R2 stands open and R9 has to open in 2027-W10, and the packhouse');
    expect(messages.join(' ')).toContain('Room R9 is left closed here.');
  });
});
