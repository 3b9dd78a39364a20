import { describe, expect, it } from 'vitest';
import type { SeasonRun } from '../../src/tools/bench-season';
import { type Bench, benchText, proofText } from '../../src/tools/bench-text';

function run(rooms: number, milliseconds: number): SeasonRun {
  return {
    rooms,
    files: 18,
    kilobytes: 100,
    lines: 2000,
    read: milliseconds,
    keystroke: milliseconds / 200,
    compute: milliseconds,
    quick: milliseconds,
    computeAgain: milliseconds,
    courses: milliseconds,
    keptEachTime: 0.01,
    findings: milliseconds,
    findingsCount: 1,
    peakMemory: 100,
  };
}

const bench: Bench = {
  node: 'v20',
  times: 3,
  seasons: [run(48, 100), run(480, 1000)],
  check: undefined,
  start: undefined,
  solve: { rooms: 48, seconds: 4, processorSeconds: 4, gap: 0.5, quickGap: 2, peakMemory: 180 },
};

describe('the text of the benchmark', () => {
  it('says how everything grows from the smallest season', () => {
    const growth = benchText(bench).split('Growth from 48 rooms')[1] ?? '';
    expect(growth).toMatch(/^rooms +x 1\.0 +x 10\.0$/m);
    expect(growth).toMatch(/^findings +x 1\.0 +x 10\.0$/m);
    expect(growth).toMatch(/^peak memory +x 1\.0 +x 1\.0$/m);
  });

  it('sets a keystroke against the first reading', () => {
    expect(benchText(bench)).toMatch(/share of the first reading +1\/200 +1\/200$/m);
  });

  it('says where the command line has not been built', () => {
    expect(benchText(bench)).toContain('not built: run `npm run build` first');
    const built = { ...bench, check: { user: 0.9, system: 0.06, peakMemory: 108 } };
    expect(benchText(built)).toMatch(/^user and system, s +0\.96$/m);
  });
});

describe('the text of the long part', () => {
  const goal = { seconds: 60, wanted: 0, gap: 0, worstGap: 0.4, proven: 0.9, processor: 3.1, clock: 4 };
  const proofs = [{ rooms: 12, firstPlan: 8, drag: 0.02, around: 150, goals: [goal] }];
  const solver = { seconds: 12, value: 100, bound: 100 };
  const given = { node: 'v20', seeds: 5, proofs, sameFile: { solver, cbc: { seconds: 8, value: 100 } } };

  it('sets each goal beside what was reached', () => {
    expect(proofText(given)).toMatch(/^12 +60 +optimal +0\.00 +0\.40 +90 % +3\.1 +4\.0$/m);
    expect(proofText(given)).toMatch(/^12 +8 +0\.020 +150$/m);
  });

  it('gives the ratio to the other solver on the identical model, or says that there is none', () => {
    expect(proofText(given)).toMatch(/this solver takes +x 1\.50$/m);
    const without = { ...given, sameFile: { solver, cbc: undefined } };
    expect(proofText(without)).toContain('not on this machine');
    expect(proofText(without)).not.toContain('this solver takes');
  });
});
