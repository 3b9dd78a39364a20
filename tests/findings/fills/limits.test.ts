import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../../src/findings/compute';
import { rulesOfLimits } from '../../../src/findings/fills/limits';
import { foundBy } from '../../../src/findings/find';
import { roomKeeping } from '../../../src/keeping/room-keeping';
import { readPlan } from '../../../src/plan/read';
import { filledRoom } from '../../../src/room/filled-room';
import { sampleFiles } from '../../samples/sample';
import { accepted, propose, seasonOf, warningsOf, withoutFills, worthOf } from './accepted';

/** The first sample, changed by replacing text in whichever file has it. */
function changed(ids: readonly string[], ...changes: readonly (readonly [string | RegExp, string])[]) {
  const files = withoutFills(sampleFiles('first-season'), ids).map(({ path, text }) => ({
    path,
    text: changes.reduce((left, [from, to]) => left.replace(from, to), text),
  }));
  return readPlan(files);
}

const placed = ({ judged }: Awaited<ReturnType<typeof propose>>) =>
  judged.result.proposal.rooms.map(({ room, regime }) => [room, regime]);

describe('what is not proposed, and why', () => {
  test('fruit too ripe for a sealed room goes to no sealed room', async () => {
    const ripe = '{ tested: 2026-09-15, starch: 7.4, firmness: 50 N, soluble-solids: 12.2 % }';
    const plan = changed(
      ['R3-golden'],
      ['{ tested: 2026-09-15, starch: 2.9, firmness: 77 N, soluble-solids: 12.2 % }', ripe],
    );
    const proposed = await propose(plan);
    const lots = proposed.judged.result.proposal.rooms.flatMap(({ entries }) =>
      entries.map(({ lot }) => lot),
    );
    expect(lots).toContain('D2');
    expect(lots).not.toContain('D1');
    const said = [
      ...proposed.problem.leftOut.filter(({ what }) => what === 'D1').map(({ reason }) => reason),
      ...(proposed.problem.lots.find(({ id }) => id === 'D1')?.barred ?? []).map(({ reason }) => reason),
    ].join(' ');
    expect(said).toContain('Lot D1 is too ripe for a sealed room');
  });

  const leaky = (halfLife: string) =>
    changed(['R3-golden'], ['after: 31 min, tested: 2026-08-13', `after: ${halfLife}, tested: 2026-08-13`]);
  const IN_R3 = ['R3', 'golden-delicious-standard'];

  test('a room that leaks more than its fruit uses is left, unless the findings may be made', async () => {
    expect(placed(await propose(leaky('3 min')))).not.toContainEqual(IN_R3);
    const despite = ['room-too-leaky', 'oxygen-climbs'];
    const made = await propose(leaky('3 min'), { despite });
    expect(placed(made)).toContainEqual(IN_R3);
    expect(made.judged.inTheOpen.map(({ code }) => code).sort()).toEqual(despite.sort());
  });

  test('a room whose fruit keeps up with a leak above what is asked is filled in the open', async () => {
    const open = await propose(leaky('9 min'));
    expect(placed(open)).toContainEqual(IN_R3);
    expect(open.judged.inTheOpen.map(({ fingerprint }) => fingerprint)).toEqual(['room-too-leaky:R3']);
    expect(placed(await propose(leaky('9 min'), { strict: true }))).not.toContainEqual(IN_R3);
  });

  test('no fruit is kept in air on the scrubber of sealed rooms', async () => {
    const { judged } = await propose(leaky('3 min'));
    expect(judged.result.proposal.rooms).toEqual([]);
    expect(new Set(judged.takenOut.map(({ code }) => code))).toEqual(
      new Set(['air-room-on-shared-scrubber']),
    );
  });

  test('what was taken out is no more than what is left over', async () => {
    const { judged } = await propose(leaky('9 min'), { strict: true });
    const left = judged.result.proposal.unplaced.reduce((sum, { bins }) => sum + bins, 0);
    const out = judged.takenOut.reduce((sum, { bins }) => sum + bins, 0);
    expect(out).toBeGreaterThan(0);
    expect(out).toBeLessThanOrEqual(left);
  });

  test('a room larger than the packhouse can empty in its days is filled as far as it can', async () => {
    const plan = changed(
      ['R3-golden'],
      ['bins-a-week: 110', 'bins-a-week: 60'],
      ['days-to-empty: 28', 'days-to-empty: 28'],
    );
    const proposed = await propose(plan);
    const [room] = proposed.problem.rooms;
    expect([room?.places, room?.ofPlaces?.places]).toEqual([240, 295]);
    expect(room?.ofPlaces?.reason).toContain('the packhouse runs at most 240 bins in the 4 weeks');
    expect(
      proposed.judged.result.proposal.rooms
        .flatMap(({ entries }) => entries)
        .reduce((sum, { bins }) => sum + bins, 0),
    ).toBeLessThanOrEqual(240);
  });

  // Orders of eleven weeks begin after the fruit has gone soft.
  test('bins that are good only before the orders begin are told the first week of these', async () => {
    const ripe = '{ tested: 2026-09-15, starch: 5.4, firmness: 62 N, soluble-solids: 12.2 % }';
    const plan = changed(
      ['R3-golden'],
      ['{ tested: 2026-09-15, starch: 2.9, firmness: 77 N, soluble-solids: 12.2 % }', ripe],
      [/2026-W46\.\.2026-W52/g, '2027-W05..2027-W15'],
      [/ {4}by-week: \{ 2026-W51.*\n/, ''],
    );
    const { problem } = await propose(plan);
    const told = problem.leftOut.find(({ what }) => what === 'D1')?.reason ?? '';
    expect(told).toMatch(/no order for Golden Delicious is left from .*; the next is of 2027-W05\./);
  });

  test('bins that no order asks for go to no room', async () => {
    const plan = changed(
      ['R3-golden'],
      [/variety: Golden Delicious\n {4}class/g, 'variety: Braeburn\n    class'],
    );
    const { problem, judged } = await propose(plan);
    expect(judged.result.proposal.rooms).toEqual([]);
    const left = problem.leftOut.filter(({ what }) => what.startsWith('D'));
    expect(left.map(({ what, bins }) => [what, bins])).toEqual([
      ['D1', 97],
      ['D2', 95],
      ['D3', 95],
    ]);
    expect(left[0]?.reason).toContain('no order asks for Golden Delicious');
    expect(left[0]?.reason).toContain('send it to processing');
  });
});

/**
 * One room of long-keeping Gala with places left, and short-keeping Gala without a room: topping it up with all that
 * fits would end the room's time before its customers want it.
 */
test('topping up takes no lot that would cost the schedule more than it brings', async () => {
  const plan = changed(
    ['R1-gala', 'R3-golden', 'R4-braeburn'],
    ['lots: { G4: 78, G5: 81, G6: 76 }', 'lots: { G4: 78, G5: 81 }'],
    [/ {4}open: 2027-W01.*\n/, ''],
    [/^ {2}R1:\n(?: {4}.*\n)*/m, ''],
    [/^ {2}R3:\n(?: {4}.*\n)*/m, ''],
    [/^ {2}R4:\n(?: {4}.*\n)*/m, ''],
  );
  const proposed = await propose(plan, { topUp: true });
  const out = proposed.judged.takenOut;
  expect(out.map(({ room, code }) => [room, code])).toEqual([['R2', 'release-value']]);
  expect(['G1', 'G2', 'G3']).toContain(out[0]?.lot);
  expect(out[0]?.reason).toContain('the room would have to be opened by 2026-W48');
  // Put in all the same, it would cost the schedule that much.
  expect(proposed.judged.waysIn.get(out[0]?.lot ?? '')).toMatchObject({ room: 'R2', codes: [] });
  expect(proposed.judged.waysIn.get(out[0]?.lot ?? '')?.worth).toBeLessThan(-1000);
  const [before, after] = [seasonOf(plan), seasonOf(accepted(proposed))];
  expect(worthOf(after)).toBeGreaterThan(worthOf(before) + 10_000);
  const had = warningsOf(before, proposed);
  expect(warningsOf(after, proposed).filter((one) => !had.includes(one))).toEqual([]);
});

describe('the rules that are asked before fruit goes into rooms', () => {
  test.each(['first-season', 'full-season', 'with-mistakes'])(
    'find the same without the cooling of rooms: %s',
    (name) => {
      const season = computeSeason(readPlan(sampleFiles(name)), { release: 'none' });
      const { plan, fruit } = season;
      const filled = new Map(
        [...season.filled].map(([id, { fill, capacity }]) => [
          id,
          filledRoom(plan, fruit, fill, capacity, { withoutCooling: true }),
        ]),
      );
      const keeping = new Map([...filled].map(([id, room]) => [id, roomKeeping(plan, room)]));
      expect([...season.filled.values()].some(({ peakCooling }) => peakCooling)).toBe(true);
      expect([...filled.values()].filter(({ peakCooling }) => peakCooling)).toEqual([]);
      expect(rulesOfLimits.length).toBeGreaterThan(5);
      const told = (one: typeof season) => rulesOfLimits.flatMap((rule) => foundBy(rule, one));
      expect(told({ ...season, filled, keeping })).toEqual(told(season));
    },
  );
});
