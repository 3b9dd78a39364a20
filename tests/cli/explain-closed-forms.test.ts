import { describe, expect, test } from 'vitest';
import { visibleWidth } from '../../src/report/table';
import { lotwright } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';

interface Step {
  readonly id: string;
  readonly value: number;
  readonly kind: string;
  readonly beside?: readonly { readonly kind: string; readonly step: string; readonly because: string }[];
}

describe('explain', () => {
  test.each([
    ['R2.pull-down-time', 'R2.hours-to-set-point', 'by the closed form'],
    [
      'R2.highest-carbon-dioxide',
      'R2.highest-carbon-dioxide',
      'terms: carbon dioxide in the room at the end of',
    ],
    ['R2.days-to-cold', 'R2.days-to-cold', 'closed form: days to all fruit cold'],
    ['R2.weight-lost', 'R2.weight-lost', 'closed form: water the fruit gave off'],
    ['S1.duty.2026-W41', 'S1.duty-2026-W41', 'closed form: load of the scrubber'],
    ['N1.queue', 'N1.longest-wait', 'max(fill_R2_gala, fill_R3_golden, fill_R4_braeburn)'],
    ['lime-box.lime-change', 'lime-box.days-charge-lasts', 'takesUp / load'],
    ['engine-room.peak-load', 'engine-room.peak-load', 'fill_R2_gala'],
  ])('%s tells of %s on one page, in text and in JSON', async (words, id, holds) => {
    const text = await lotwright(['explain', words, FIRST]);
    expect(text.code).toBe(0);
    expect(text.out).toContain(`figure ${id} `);
    expect(text.out.replace(/\s+/g, ' ')).toContain(holds);
    expect(text.out.split('\n').filter((line) => visibleWidth(line) > 100)).toEqual([]);
    const report = JSON.parse((await lotwright(['explain', words, FIRST, '--format', 'json'])).out);
    expect(errorsAgainst('explain-report', report)).toEqual([]);
    const steps: readonly Step[] = report.steps;
    const at = new Map(steps.map((step, index) => [step.id, index]));
    // What stands beside a step comes before it, as its inputs do.
    for (const [index, step] of steps.entries())
      for (const beside of step.beside ?? []) expect(at.get(beside.step)).toBeLessThan(index);
  });

  test('the levels at which a room opens carry the caution', async () => {
    for (const figure of ['oxygen-at-end', 'carbon-dioxide-at-end', 'oxygen-balance'])
      expect((await lotwright(['explain', `R2.${figure}`, FIRST])).out).toContain('Sealed rooms kill');
  });

  test('figures lists every name on the page, and as JSON', async () => {
    const { code, out } = await lotwright(['explain', 'figures', FIRST]);
    expect(code).toBe(0);
    expect(out).toMatch(/^hours-to-set-point +hours from sealing to the +pull-down, pull-down-time/m);
    expect(out).toMatch(/^duty-<week> /m);
    expect(out.split('\n').filter((line) => visibleWidth(line) > 100)).toEqual([]);
    const json = JSON.parse((await lotwright(['explain', 'figures', FIRST, '--format', 'json'])).out);
    expect(errorsAgainst('explain-report', json)).toEqual([]);
    expect(json.names.length).toBeGreaterThan(150);
  });
});
