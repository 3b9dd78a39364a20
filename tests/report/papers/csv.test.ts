import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseDay, parseWeek } from '../../../src/plan/dates';
import { csvHeading, csvLines, csvText } from '../../../src/report/papers/csv';
import { papersFor } from '../../../src/report/papers/papers';
import { cautionInShort } from '../../../src/room/caution';
import { accountOf, paperOf } from './seasons';

const read = (text: string): string[][] =>
  parse(text, { record_delimiter: '\r\n', relax_column_count: false, skip_empty_lines: false });

describe('comma-separated values', () => {
  test('of any texts read back as they were', () => {
    const text = fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^["',;\r\n =+-]*$/));
    const rows = fc
      .integer({ min: 1, max: 5 })
      .chain((columns) =>
        fc.array(fc.array(text, { minLength: columns, maxLength: columns }), { minLength: 1 }),
      );
    fc.assert(
      fc.property(rows, (cells) => {
        // Half a pair is no character that a file could hold.
        const whole = cells.map((row) => row.map((cell) => cell.replace(/\p{Surrogate}/gu, '?')));
        // A byte-order mark before all else is taken for one of the file.
        fc.pre(!whole[0]?.[0]?.startsWith('\uFEFF'));
        expect(read(csvLines(whole))).toEqual(whole);
      }),
    );
  });

  test.each(['first-season', 'us-units', 'full-season', 'with-mistakes'])('of %s hold every cell', (name) => {
    const account = accountOf(name);
    for (const reader of ['everyone', 'growers'] as const)
      for (const table of papersFor(account, reader).flatMap(({ tables }) => tables)) {
        const [heading, ...rows] = read(csvText(table));
        expect(heading).toEqual(csvHeading(table));
        expect(rows.length).toBe(table.rows.length);
        for (const [at, row] of rows.entries())
          for (const [index, { kind, decimals = 0 }] of table.columns.entries()) {
            const [cell, told] = [table.rows[at]?.[index], row[index] ?? ''];
            if (cell === null || cell === undefined) expect(told).toBe('');
            else if (kind === 'day') expect(parseDay(told)).toBe(cell);
            else if (kind === 'week') expect(parseWeek(told)).toBe(cell);
            else if (kind === 'number')
              expect(Math.abs(Number(told) - Number(cell))).toBeLessThanOrEqual(0.500001 * 10 ** -decimals);
            else expect(told).toBe(Array.isArray(cell) ? cell.join('; ') : cell);
          }
      }
  });

  test('that speak of opening carry the caution in every row, the others none', () => {
    const tables = paperOf(accountOf('first-season'), 'everyone').tables;
    expect(tables.some(({ opens }) => !opens)).toBe(true);
    for (const table of tables) {
      const rows = read(csvText(table)).slice(1);
      // Rows about samples say first that nobody enters for one.
      for (const row of rows) expect(row.at(-1)?.endsWith(cautionInShort) ?? false).toBe(table.opens);
    }
  });

  test('hold set-points as the regimes have them', () => {
    const paper = paperOf(accountOf('first-season'), 'cold-store');
    const rooms = paper.tables.find(({ key }) => key === 'rooms');
    const [heading = [], ...rows] = read(rooms ? csvText(rooms) : '');
    const at = heading.indexOf('Carbon dioxide (%)');
    const held = rows.map((row) => row[at] ?? '').filter((cell) => cell !== '');
    const written = paper.account.rooms.flatMap((room) =>
      room.carbonDioxide ? [room.carbonDioxide.value] : [],
    );
    expect(held.map(Number)).toEqual(written);
    expect(written).toContain(2.25);
    expect(paper.tasks.map(({ detail }) => detail).join(' ')).toContain(', 2.25 % carbon dioxide,');
  });
});
