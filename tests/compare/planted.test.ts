import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import { readPlan } from '../../src/plan/read';
import { compareMarkdown } from '../../src/report/compare-markdown';
import { sampleFiles } from '../samples/sample';
import { withChanges } from './forty-edits';
import { planted } from './planted';

const files = sampleFiles('first-season');
const old = { name: 'before', plan: readPlan(files) };

/** Text as it reads: without the marks that keep a plan's words from being markup. */
function asRead(line: string | undefined): string {
  return (line ?? '').replaceAll(/\\([\\`*_[\]|#~])/g, '$1');
}

describe('of a planted change the first three lines of the comment name the cause and the gravest consequence', () => {
  test('there are thirty of them and more', () => {
    expect(planted.length).toBeGreaterThanOrEqual(30);
    expect(new Set(planted.map(({ what }) => what)).size).toBe(planted.length);
  });

  test.each(planted)('$what', ({ changes, cause, follows }) => {
    const now = { name: 'after', plan: readPlan(withChanges(files, changes)) };
    const { comparison } = comparePlans(old.plan, now.plan, { seed: 1, courses: true });
    const units = { system: 'metric', currency: 'EUR' } as const;
    const comment = compareMarkdown(
      comparison,
      { old, now },
      { units, linkBase: '', marker: 'plans', most: 60_000 },
    );
    const [marker, headline, because] = comment.split('\n').map(asRead);
    expect(marker).toBe('<!-- lotwright compare plans -->');
    expect(headline).toContain(follows);
    expect(because).toContain(cause);
    expect(because).toMatch(/\[(fruit|orrowby)\.lotplan\.yaml:\d+]\(/);
  });
});
