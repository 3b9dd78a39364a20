import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { htmlText } from '../../../src/report/papers/html';
import { markdownText } from '../../../src/report/papers/markdown';
import { type Paper, type Reader, whereWeeksComeFrom } from '../../../src/report/papers/paper';
import { papersFor } from '../../../src/report/papers/papers';
import { xmlText } from '../../../src/report/papers/xml';
import { caution } from '../../../src/room/caution';
import { browserIsThere, launch, type Page } from '../../panel/browser';
import { accountOf, paperOf } from './seasons';

const readers: readonly Reader[] = ['packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone'];

describe('pages to print', () => {
  test.each(readers)(
    'for %s have no script and no address, and the caution on each that speaks of rooms',
    (reader) => {
      for (const paper of papersFor(accountOf('first-season'), reader)) {
        const html = htmlText(paper, 'a4');
        expect(html).not.toMatch(/<script|<link|<img|https?:|\bon[a-z]+=/);
        expect(html).toContain("default-src 'none'");
        const pages = html.split('<section').slice(1);
        expect(pages.length).toBe(1 + paper.rooms.length);
        const speaks = paper.tables.some(({ opens }) => opens) || whereWeeksComeFrom(paper).length > 0;
        for (const page of pages) expect(page.includes(caution)).toBe(speaks);
      }
    },
  );

  test('hold any text of a plan as text', () => {
    const paper = paperOf(accountOf('first-season'), 'growers');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (title) => {
        const html = htmlText({ ...paper, account: { ...paper.account, title } }, 'a4');
        expect(html).toContain(`<header><h1>${xmlText(paper.title)}</h1><p>${xmlText(title)}</p></header>`);
        expect(xmlText(title)).not.toMatch(/[<>"]|&(?!amp;|lt;|gt;|quot;)/);
      }),
    );
  });
});

describe('Markdown', () => {
  test.each(readers)('for %s has the caution before its tables, and a line a row', (reader) => {
    for (const paper of papersFor(accountOf('first-season'), reader)) {
      const text = markdownText(paper);
      const rows = paper.tables.reduce(
        (sum, table) => sum + (table.rows.length > 0 ? 2 + table.rows.length : 0),
        0,
      );
      expect(text.split('\n').filter((line) => line.startsWith('|')).length).toBe(rows);
      if (paper.tables.some(({ opens }) => opens) || whereWeeksComeFrom(paper).length > 0) {
        expect(text).toContain(caution);
        expect(text.indexOf(caution)).toBeLessThan(text.indexOf('\n|'));
      }
    }
  });

  test('has no cell that breaks out of its table', () => {
    const paper = paperOf(accountOf('first-season'), 'sales');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (words) => {
        const table = {
          key: 'x',
          title: 'X',
          opens: false,
          columns: [
            { key: 'a', title: 'A', kind: 'text' as const },
            { key: 'b', title: 'B', kind: 'text' as const },
          ],
          rows: [[words, 'end']],
        };
        const line = markdownText({ ...paper, tables: [table] })
          .split('\n')
          .find((one) => one.endsWith(' | end |'));
        expect(line?.replace(/\\./gs, '').split('|').length).toBe(4);
      }),
    );
  });
});

describe.skipIf(!browserIsThere())('in Chromium', () => {
  let browser: Page;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  async function printed(paper: Paper, size: 'a4' | 'letter'): Promise<{ pages: number; box: string[] }> {
    const page = await browser.newPage();
    await page.setContent(htmlText(paper, size));
    const pdf: string = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    await page.close();
    const box = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)].map(
      ([, width, height]) => `${Math.round(Number(width))} x ${Math.round(Number(height))}`,
    );
    return { pages: [...pdf.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length, box: [...new Set(box)] };
  }

  test.each([
    ['first-season', 'a4'],
    ['first-season', 'letter'],
    ['full-season', 'a4'],
    ['full-season', 'letter'],
    ['us-units', 'letter'],
  ] as const)('%s on %s prints a page for the season and one for each room', async (name, size) => {
    const account = accountOf(name);
    for (const reader of ['everyone', 'cold-store', 'lab', 'packhouse'] as const) {
      const { pages, box } = await printed(paperOf(account, reader), size);
      expect(pages, reader).toBe(1 + account.rooms.length);
      // In points: 210 by 297 mm, or 8.5 by 11 inches.
      expect(box).toEqual([size === 'a4' ? '595 x 842' : '612 x 792']);
    }
  });

  test("a grower's part of the first season is one page", async () => {
    for (const paper of papersFor(accountOf('first-season'), 'growers'))
      expect((await printed(paper, 'a4')).pages).toBe(1);
  });
});
