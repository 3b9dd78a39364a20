import { expect, test } from 'vitest';
import { panelPage } from '../../extension/panel/page';
import { firstSentence, scrubberWeekText, supplyWeekText } from '../../extension/panel/texts';
import type { TimelineView } from '../../src/report/timeline-types';
import { caution } from '../../src/room/caution';

const html = panelPage({
  cspSource: 'https://*.example.test',
  nonce: 'abc123',
  scriptUri: 'https://x.example.test/dist/panel.js?a=1&b="2"',
  styleUri: 'https://x.example.test/dist/panel.css',
});

test('the page allows its one script and its one style sheet, and nothing else', () => {
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1];
  expect(policy).toBe(
    "default-src 'none'; style-src https://*.example.test; img-src data:; script-src 'nonce-abc123'",
  );
  expect(html.match(/<script/g)).toHaveLength(1);
  expect(html).not.toMatch(/<style|style=|onclick|javascript:|unsafe/);
});

test('addresses cannot leave their attributes', () => {
  expect(html).toContain('src="https://x.example.test/dist/panel.js?a=1&amp;b=&quot;2&quot;"');
});

const view = {
  weeks: ['2026-W50', '2026-W51'],
  scrubbers: [
    { name: 'S1', share: [96.2, null], limit: 95 },
    { name: 'S2', share: [40, null], limit: 95 },
  ],
} as unknown as TimelineView;

test('a week is told in figures', () => {
  const series = {
    name: 'Gala',
    unit: 'cartons a week',
    demand: [1200, 900],
    supply: [1000, 900],
    surplus: [0, 55],
    short: [0],
    description: '',
  };
  expect(supplyWeekText(view, series, 0)).toBe(
    '2026-W50, Gala: 1,200 cartons wanted, 1,000 supplied, 200 short.',
  );
  expect(supplyWeekText(view, series, 1)).toBe(
    '2026-W51, Gala: 900 cartons wanted, 900 supplied, 55 to processing.',
  );
  expect(supplyWeekText(view, { ...series, supply: [] }, 0)).toContain('No release schedule');
  expect(scrubberWeekText(view, 0)).toBe('2026-W50, scrubber load: S1 96 % (limit 95 %), S2 40 %.');
  expect(scrubberWeekText(view, 1)).toBe('2026-W51, scrubber load: not known.');
});

test('the caution leads with the danger and keeps the rest', () => {
  const [danger, rest] = firstSentence(caution);
  expect(danger).toMatch(/^Sealed rooms kill.*dangerous\.$/);
  expect(`${danger} ${rest}`).toBe(caution);
});
