import { describe, expect, test } from 'vitest';
import { newFills } from '../../src/fill/new-fills';
import { fillProblem } from '../../src/fill/problem';
import { proposeFill } from '../../src/fill/propose';
import { reasonsFor, sealingPutOff } from '../../src/fill/reasons';
import { formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

const day = (text: string) => parseDay(text) ?? 0;

/** The first season, its room R2 without G6, whose pin is taken out; late lots of so many bins come on these days. */
function planWith(late: Readonly<Record<string, number>>, more = '') {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: text
      .replace('lots: { G4: 78, G5: 81, G6: 76 }', 'lots: { G4: 78, G5: 81 }')
      .replace(/ {4}open: 2027-W01.*\n/, '')
      .replace(/^ {2}G6:.*(?:\n {4}.*)*\n/m, ''),
  }));
  const lots = Object.entries(late).map(
    ([picked, bins], index) =>
      `  Z${index + 1}: { variety: Gala, picked: ${picked}..${picked}, bins: ${bins}, field-temperature: 18 °C, maturity: { starch: 2.8, firmness: 83 N } }\n`,
  );
  return readPlan([
    ...files,
    { path: 'late.lotplan.yaml', text: `lotwright: 1\nlots:\n${lots.join('')}${more}` },
  ]);
}

async function toppedUp(late: Readonly<Record<string, number>>, more = '') {
  const plan = planWith(late, more);
  const problem = fillProblem(plan, undefined, { topUp: true });
  // Only the room begun; what finds no place there is left over.
  const only = { ...problem, rooms: problem.rooms.filter(({ id }) => id === 'R2') };
  const result = await proposeFill(only, { seed: 1, moves: 40 });
  const [room] = result.proposal.rooms;
  const [fill] = newFills(plan, only, result.proposal.rooms);
  return { plan, problem: only, result, room, fill };
}

describe('the sealing of a fill that is topped up', () => {
  test('stays as written where bins come in by its last day', async () => {
    const { fill, room, problem } = await toppedUp({ '2026-09-15': 20 });
    expect(fill?.lots).toEqual([{ lot: 'Z1', bins: 20 }]);
    expect(fill?.sealed).toBe(day('2026-09-18'));
    expect(room && sealingPutOff(problem, room)).toBeUndefined();
  });

  test('is put off for many bins, and the days and bins are told', async () => {
    const { fill, room, problem, result } = await toppedUp({ '2026-09-15': 20, '2026-09-18': 40 });
    expect(fill?.lastBin).toBeGreaterThan(day('2026-09-16'));
    const days = (fill?.lastBin ?? 0) + 2 - day('2026-09-18');
    expect(fill?.sealed).toBe(day('2026-09-18') + days);
    expect(room && sealingPutOff(problem, room)).toEqual({
      from: day('2026-09-18'),
      to: day('2026-09-18') + days,
      days,
      bins: 60,
      binsAfter: 40,
      binsHeld: 159,
    });
    const reasons = room ? reasonsFor(problem, result, room).join(' ') : '';
    expect(reasons).toContain(
      `Sealing is put off by ${days} days, from 2026-09-18 to ${formatDay(day('2026-09-18') + days)}, for 40 bins`,
    );
  });

  test('is not put off for a few: two days of 159 bins count as much as three bins left over', async () => {
    const few = await toppedUp({ '2026-09-18': 3 });
    expect(few.result.proposal.rooms).toEqual([]);
    expect((await toppedUp({ '2026-09-18': 5 })).fill?.lots).toEqual([{ lot: 'Z1', bins: 5 }]);
  });

  test('is never put off so far that gas comes late, unless the plan lets that pass', async () => {
    // First bin on 8 September, so sealing by the 22nd, two days after the last bin: no bin after the 20th.
    const late = await toppedUp({ '2026-09-21': 60 });
    expect(late.problem.rooms[0]?.held?.sealing?.lastBinBy).toBe(day('2026-09-20'));
    expect(late.result.proposal.rooms).toEqual([]);
    expect((await toppedUp({ '2026-09-20': 40 })).fill?.sealed).toBe(day('2026-09-22'));
    const lax = await toppedUp({ '2026-09-21': 40 }, 'policy:\n  findings: { sealed-late: off }\n');
    expect(lax.fill?.sealed).toBe(day('2026-09-23'));
  });
});
