import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { findingsOnExample } from './page';

/** The room of the plan around the examples, with this pressure test or none. */
function roomWith(test: string): string {
  return `rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 45 kW, group: engine-room }
    scrubber: S1
    nitrogen: N1
${test ? `    tightness: ${test}\n` : ''}`;
}

function found(test: string) {
  return findingsOnExample(roomWith(test));
}

function notTested(test: string) {
  return found(test).filter(({ code }) => code === 'tightness-not-tested');
}

describe('a pressure test that tells no leak', () => {
  it.each([
    ['{ from: 250 Pa, to: 0 Pa, after: 30 min }', 'nothing is left of the 250 Pa of its test after 30 min'],
    ['{ from: 250 Pa, to: 250 Pa, after: 30 min }', 'the pressure stays at 250 Pa in its test'],
    ['{ from: 125 Pa, to: 250 Pa, after: 30 min }', 'the pressure rises from 125 Pa to 250 Pa in its test'],
  ])('%s is told at its end pressure, as a warning', (test, message) => {
    const [finding, ...others] = notTested(test);
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('warning');
    expect(finding?.message).toContain(message);
    expect(finding?.message).toContain('the time after which half of the pressure was left');
    expect(finding?.message).toContain('R1 counts as not tested');
    const start = roomWith(test).indexOf('to: ') + 'to: '.length;
    expect(finding?.at.start).toBe(start);
  });

  it('is told of a room that nothing is filled into yet', () => {
    const plan = readPlan([
      { path: 'a.lotplan.yaml', text: roomWith('{ from: 1 kPa, to: 0 Pa, after: 5 min }') },
    ]);
    const season = computeSeason(plan);
    expect(season.capacities.get('R1')?.pressureHalfLife).toBeUndefined();
    expect(season.filled.size).toBe(0);
    const example = `# the whole plan\n${roomWith('{ from: 1 kPa, to: 0 Pa, after: 5 min }')}`;
    expect(findingsOnExample(example).map(({ code }) => code)).toContain('tightness-not-tested');
  });

  it('is not told of pressure that falls and of which some is left', () => {
    expect(notTested('{ from: 250 Pa, to: 1 Pa, after: 30 min }')).toEqual([]);
  });
});

describe('a pressure test that is not there', () => {
  it('is asked for', () => {
    expect(notTested('').map(({ message }) => message)).toEqual([
      'No pressure test is given for R1: leakage cannot be computed there. Add `tightness` once tested.',
    ]);
  });

  it.each([
    ['{ from: 1 in, to: 125 Pa, after: 30 min }', 'wrong-dimension'],
    ['{ from: 250 Pa, after: 30 min }', 'missing-key'],
    ['tight', 'wrong-type'],
  ])('is not said of %s, which has its own finding', (test, code) => {
    expect(found(test).map((finding) => finding.code)).toContain(code);
    expect(notTested(test)).toEqual([]);
  });
});
