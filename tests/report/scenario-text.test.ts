import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixedApart } from '../../src/plan/display';
import { whatIfMarkdown } from '../../src/report/scenario-markdown';
import { whatIfText } from '../../src/report/scenario-text';
import type { WhatIfReport } from '../../src/report/schemas';

const totals = (cartonsSold: number): WhatIfReport['base'] => ({
  fills: 3,
  binsStored: 700,
  binsInNoRoom: 0,
  cartonsSold,
  cartonsShort: 0,
  cartonsUnsold: 0,
  value: { value: 48_210, unit: 'EUR' },
  errors: 0,
  warnings: 2,
  promisesBroken: 0,
});

const share = (week: string, value: number) => ({ week, share: { value, unit: '%' } });

const report: WhatIfReport = {
  format: 'lotwright-whatif-report',
  version: 1,
  plan: { files: [] },
  units: 'metric',
  scenario: 'less-crop',
  builtIn: true,
  weeks: 'of the base',
  notApplied: [],
  base: totals(1600),
  over: totals(1600.4),
  consequences: [],
  rooms: [],
  machines: [
    { kind: 'scrubber', id: 'S1', base: share('2026-W40', 71.2), over: share('2026-W40', 71.4) },
    { kind: 'scrubber', id: 'S2', base: share('2026-W40', 71.2), over: share('2026-W41', 71.4) },
    { kind: 'scrubber', id: 'S3', base: share('2026-W40', 71.2), over: share('2026-W40', 80.4) },
  ],
  products: [
    {
      variety: 'Gala',
      packClass: 'first',
      base: { sold: 600.2, short: 0, unsold: 99.5 },
      over: { sold: 600.4, short: 0, unsold: 120.75 },
    },
  ],
  findings: { new: [], gone: [] },
  expectations: { broken: [], mended: [] },
  roomsOverfilled: 0,
  caution: '',
};

describe('the tables of a scenario beside its base', () => {
  it.each([
    ['text', (one: WhatIfReport) => whatIfText(one).replaceAll(/ {2,}/g, ' | ')],
    ['Markdown', whatIfMarkdown],
  ])('tell figures that differ with as many decimals as it takes to see it, as %s', (_, told) => {
    const text = told(report);
    expect(text).toContain('Cartons sold | 1,600.0 | 1,600.4 | +0.4');
    expect(text).toContain('Bins stored | 700 | 700 | =');
    expect(text).toContain('600.2 → 600.4');
    expect(text).toContain('0 → 0');
    expect(text).toContain('100 → 121');
    expect(text).toContain('scrubber S1 | 71.2 % in 2026-W40 | 71.4 % in 2026-W40');
    expect(text).toContain('scrubber S2 | 71 % in 2026-W40 | 71 % in 2026-W41');
    expect(text).toContain('scrubber S3 | 71 % in 2026-W40 | 80 % in 2026-W40');
  });

  it('never tell two numbers as the same that differ by a thousandth or more', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e7, max: 1e7 }),
        fc.integer({ min: -1e7, max: 1e7 }),
        fc.integer({ min: 0, max: 2 }),
        (one, other, decimals) => {
          const [a, b] = fixedApart(one / 1000, other / 1000, decimals);
          expect(a === b).toBe(one === other);
        },
      ),
    );
  });
});
