import { read, type WorkSheet } from '@e965/xlsx';
import fc from 'fast-check';
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { formatWeek } from '../../../src/plan/dates';
import type { Paper, PaperCell } from '../../../src/report/papers/paper';
import { papersFor } from '../../../src/report/papers/papers';
import { sheetsOf } from '../../../src/report/papers/sheets';
import { workbookBytes } from '../../../src/report/papers/workbook';
import { caution } from '../../../src/room/caution';
import { accountOf, paperOf } from './seasons';

const DAY_FORMAT = 'yyyy\\-mm\\-dd';
/** Serial number of 1970-01-01. */
const EPOCH = 25_569;

function cellAt(sheet: WorkSheet | undefined, row: number, column: number) {
  const name = `${String.fromCharCode(65 + column)}${row}`;
  return sheet?.[name] as { t: string; v: unknown; z?: string } | undefined;
}

const readers = ['packhouse', 'sales', 'cold-store', 'lab', 'everyone', 'growers'] as const;

describe.each(['first-season', 'us-units', 'full-season', 'with-mistakes'])('the workbooks of %s', (name) => {
  const account = accountOf(name);

  test.each(readers)('for %s open in another library with their types', (reader) => {
    for (const paper of papersFor(account, reader).slice(0, 3)) {
      const book = read(workbookBytes([paper]), { cellStyles: true, cellNF: true });
      const sheets = sheetsOf([paper]);
      expect(book.SheetNames).toEqual(sheets.map((sheet) => sheet.name));
      for (const { name: sheetName, table, headingRow, cautions } of sheets) {
        const sheet = book.Sheets[sheetName];
        const speaks = table.opens || (table === paper.tables[0] && paper.account.basis !== '');
        expect(cautions.includes(caution)).toBe(speaks);
        for (const [index, text] of cautions.entries()) expect(cellAt(sheet, 2 + index, 0)?.v).toBe(text);
        for (const [column, { title, kind }] of table.columns.entries()) {
          expect(String(cellAt(sheet, headingRow, column)?.v)).toContain(title);
          for (const [row, cells] of table.rows.entries())
            expectCell(cellAt(sheet, headingRow + 1 + row, column), kind, cells[column] ?? null);
        }
      }
    }
  });
});

function expectCell(
  found: { t: string; v: unknown; z?: string } | undefined,
  kind: string,
  cell: PaperCell,
): void {
  if (cell === null || cell === '' || (Array.isArray(cell) && cell.length === 0)) {
    expect(found?.v ?? '').toBe('');
    return;
  }
  if (kind === 'number') {
    expect(found?.t).toBe('n');
    expect(found?.v).toBeCloseTo(Number(cell), 8);
  } else if (kind === 'day') {
    expect(found).toMatchObject({ t: 'n', v: Number(cell) + EPOCH, z: DAY_FORMAT });
  } else {
    const words = typeof cell === 'number' ? formatWeek(cell) : Array.isArray(cell) ? cell.join(', ') : cell;
    expect(found).toMatchObject({ t: 's', v: words });
  }
}

describe('a workbook', () => {
  const paper = paperOf(accountOf('first-season'), 'everyone');
  const files = unzipSync(workbookBytes([paper]));

  test('has a sheet for each reader, and headings that stay in sight', () => {
    const names = sheetsOf([paper]).map(({ name }) => name);
    for (const name of ['Weeks', 'Packhouse', 'Sales', 'Cold store', 'Lab', 'Growers'])
      expect(names).toContain(name);
    for (const [index, { headingRow }] of sheetsOf([paper]).entries()) {
      const xml = strFromU8(files[`xl/worksheets/sheet${index + 1}.xml`] ?? new Uint8Array());
      expect(xml).toContain(`<pane ySplit="${headingRow}" topLeftCell="A${headingRow + 1}"`);
      expect(xml).toContain('state="frozen"');
    }
  });

  test('is the same bytes each time, wherever the clock stands', () => {
    const before = process.env.TZ;
    const first = workbookBytes([paper]);
    process.env.TZ = 'Pacific/Auckland';
    const second = workbookBytes([paper]);
    process.env.TZ = before;
    expect(Buffer.from(second).equals(Buffer.from(first))).toBe(true);
  });

  test('keeps any text of a plan that a workbook can hold', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', minLength: 1 }),
        fc.string({ minLength: 1, maxLength: 40 }),
        (text, title) => {
          const odd: Paper = {
            ...paper,
            tables: [
              {
                key: title,
                title,
                opens: false,
                columns: [{ key: 'a', title: 'A', kind: 'text' }],
                rows: [[text]],
              },
            ],
          };
          const book = read(workbookBytes([odd]));
          const firstRow = 1 + (sheetsOf([odd])[0]?.headingRow ?? 0);
          const found = cellAt(book.Sheets[book.SheetNames[0] ?? ''], firstRow, 0)?.v;
          expect(String(found)).toBe(text);
        },
      ),
      { numRuns: 60 },
    );
  });
});
