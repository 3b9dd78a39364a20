import { describe, expect, it } from 'vitest';
import { fillProblem } from '../../src/fill/problem';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

/** The first sample with a lot that goes to no room. */
const planWith = (key: string) =>
  readPlan(
    sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: text.replace(
        '  # Golden Delicious\n',
        `  F1: { variety: Gala, picked: 2026-09-18..2026-09-22, bins: 90${key} }\n  # Golden Delicious\n`,
      ),
    })),
  );

describe('a lot in no fill', () => {
  const codes = (key: string) =>
    findingsOf(computeSeason(planWith(key)))
      .filter(({ fingerprint }) => fingerprint.endsWith(':F1'))
      .map(({ code }) => code);

  it('is proposed a room and found, unless it is packed at harvest', () => {
    expect(fillProblem(planWith('')).lots.map(({ id }) => id)).toContain('F1');
    expect(codes('')).toContain('lot-not-placed');
    const packed = ', packed-at-harvest: 14 days';
    expect(fillProblem(planWith(packed)).lots.map(({ id }) => id)).not.toContain('F1');
    expect(codes(packed)).not.toContain('lot-not-placed');
    expect(codes(packed)).not.toContain('harvest-packing-without-demand');
  });

  it('is found where no order asks for it in the weeks in which it is packed', () => {
    const without = readPlan(
      sampleFiles('first-season').map(({ path, text }) => ({
        path,
        text: text
          .replace(
            '  # Golden Delicious\n',
            '  F1: { variety: Braeburn, picked: 2026-09-18..2026-09-22, bins: 90, packed-at-harvest: 7 days }\n  # Golden Delicious\n',
          )
          .replace(/weeks: 2026-W3\d\.\.2026-W4\d/g, 'weeks: 2027-W10..2027-W12'),
      })),
    );
    const found = findingsOf(computeSeason(without)).find(
      ({ code }) => code === 'harvest-packing-without-demand',
    );
    expect(found?.message).toContain('90 bins are to be packed at harvest, 2026-W38 to 2026-W40');
    expect(found?.message).toMatch(/The next order begins in 202\d-W\d\d/);
  });
});
