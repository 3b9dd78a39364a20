import { describe, expect, it } from 'vitest';
import type { SeasonRun } from '../../src/tools/bench-season';
import { type Bench, benchText } from '../../src/tools/bench-text';

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
