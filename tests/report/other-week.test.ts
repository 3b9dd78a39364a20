import { describe, expect, it, test, vi } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { perCent } from '../../src/findings/say';
import { formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { plantSeason } from '../../src/plant/season';
import { PoolSales } from '../../src/release/best-sales';
import { Standing } from '../../src/release/standing';
import { heaviestWeek, whatIfOpened, whyItsWeek } from '../../src/report/other-week';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('full-season')));
const { release } = season;
if (!release) throw new Error('the sample has no schedule');
const { problem, result } = release;
const rooms = problem.rooms.flatMap(({ fill, pinned, latest }, index) => {
  const opens = result.schedule.opens[index] ?? null;
  return opens === null || pinned !== null ? [] : [{ fill, opens, latest }];
});

describe('a room in another week', () => {
  it('is told for a room as it stands: what a week earlier and later would cost', () => {
    for (const { fill } of rooms.slice(0, 5)) {
      const why = whyItsWeek(season, fill);
      expect(why?.text).toMatch(/^A week earlier \(\d{4}-W\d\d\) .*; a week later \(\d{4}-W\d\d\) /);
      expect(why?.breaks).toBe(false);
    }
  });

  it('has the season sold as is best once: why a room opens when it does has done so before a drag asks', () => {
    const fresh = computeSeason(readPlan(sampleFiles('first-season')));
    const schedule = fresh.release?.result.schedule;
    const at = fresh.release?.problem.rooms.findIndex(({ pinned }) => pinned === null) ?? -1;
    const { fill = '', earliest = 0 } = fresh.release?.problem.rooms[at] ?? {};
    const first = fresh.release?.problem.firstWeek ?? 0;
    const sellsAll = vi.spyOn(PoolSales.prototype, 'hold');
    const why = whyItsWeek(fresh, fill);
    const once = sellsAll.mock.calls.length;
    const others = [0, 1, 2].filter((later) => earliest + later !== schedule?.opens[at]);
    const told = others.map((later) => whatIfOpened(fresh, fill, first + earliest + later)?.text);
    expect(once).toBeGreaterThan(0);
    expect(sellsAll).toHaveBeenCalledTimes(once);
    expect(new Set([why?.text, ...told]).size).toBe(1 + others.length);
    sellsAll.mockRestore();
  });

  it('past its window breaks a limit and says so; its own week is as it stands', () => {
    const room = rooms.find(({ latest }) => latest + 2 < problem.weeks);
    if (!room) throw new Error('every room keeps to the end');
    const late = whatIfOpened(season, room.fill, problem.firstWeek + room.latest + 2);
    expect(late?.breaks).toBe(true);
    expect(late?.text).toMatch(/it may open no later than/);
    expect(whatIfOpened(season, room.fill, problem.firstWeek + room.opens)).toEqual(
      whyItsWeek(season, room.fill),
    );
  });

  it('tells how full the packhouse is with it, as the schedule with the room moved has it', () => {
    const [room] = rooms.filter(({ opens, latest }) => opens + 1 <= latest);
    if (!room) throw new Error('no room can wait');
    const at = problem.rooms.findIndex(({ fill }) => fill === room.fill);
    const standing = new Standing(problem, result.schedule);
    const found = standing.whatIf(at, room.opens + 1);
    if (!found) throw new Error('the packhouse cannot take it a week later');
    const { packed } = standing.moved(at, room.opens + 1, found.bins).schedule;
    const shares = problem.packingBins.map((most, week) =>
      (packed[at]?.[week] ?? 0) > 0
        ? (100 * packed.reduce((sum, one) => sum + (one[week] ?? 0), 0)) / most
        : 0,
    );
    const fullest = shares.indexOf(Math.max(...shares));
    const told = whatIfOpened(season, room.fill, problem.firstWeek + room.opens + 1);
    expect(told?.text).toContain(
      `The packhouse then runs at ${perCent(shares[fullest] ?? 0)} in ${formatWeek(problem.firstWeek + fullest)}, the fullest`,
    );
  });

  it('tells the chance that its fruit is within standard until it is packed out: no more in a later week', () => {
    const chance = (text = '') => {
      const [, words, value] = /packed out with a chance of (more than |less than )?(\d+) %/.exec(text) ?? [];
      expect(value).toBeDefined();
      return Number(value) + (words === 'more than ' ? 0.5 : words === 'less than ' ? -0.5 : 0);
    };
    for (const { fill, opens, latest } of rooms.slice(0, 4)) {
      const at = (week: number) => chance(whatIfOpened(season, fill, problem.firstWeek + week)?.text);
      expect(at(opens)).toBe(chance(whyItsWeek(season, fill)?.text));
      expect(at(latest)).toBeGreaterThanOrEqual(90);
      expect(at(latest)).toBeLessThanOrEqual(at(opens));
    }
  });

  it('is not told of a fill that the schedule does not know', () => {
    expect(whyItsWeek(season, 'none')).toBeUndefined();
    expect(whatIfOpened(season, 'none', problem.firstWeek)).toBeUndefined();
  });
});

test('the heaviest week of a scrubber for other openings is that of the whole plant computed anew', () => {
  const opens = new Map(
    problem.rooms.flatMap(({ fill }, room) => {
      const week = result.schedule.opens[room] ?? null;
      return week === null ? [] : [[fill, problem.firstWeek + week] as const];
    }),
  );
  const [[fill, week] = ['', 0]] = [...opens].filter(([id]) => season.filled.get(id)?.room.scrubber);
  for (const weeks of [-4, 3, 12]) {
    const moved = new Map([...opens, [fill, week + weeks]]);
    const plant = plantSeason(season.plan, season.filled, moved);
    for (const scrubber of season.plant?.scrubbers ?? []) {
      const peak = plant?.scrubbers.find((one) => one.scrubber.id === scrubber.scrubber.id)?.peak;
      const found = heaviestWeek(scrubber, moved);
      expect([found?.week, found?.share]).toEqual([peak?.week, peak?.share?.value]);
    }
  }
});
