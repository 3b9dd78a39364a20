import { describe, expect, it } from 'vitest';
import type { Paper, Reader } from '../../../src/report/papers/paper';
import { papersFor } from '../../../src/report/papers/papers';
import { accountOf } from './seasons';

/** The last Braeburn goes into the air room that the early Gala has left. */
const AGAIN: readonly [string, string][] = [
  ['lots: { B1: 100, B2: 95, B3: 95 }', 'lots: { B1: 100, B2: 95 }'],
  [
    '  R4-braeburn:\n',
    `  R1-braeburn:
    room: R1
    regime: braeburn-own
    first-bin: 2026-10-12
    last-bin: 2026-10-14
    lots: { B3: 95 }
  R4-braeburn:
`,
  ],
];

function tableOf(papers: readonly Paper[], key: string) {
  const tables = papers.flatMap((paper) => paper.tables).filter((one) => one.key === key);
  return tables.map(({ columns, rows }) => ({
    keys: columns.map((column) => column.key),
    rows: rows.map((row) => Object.fromEntries(columns.map((column, at) => [column.key, row[at]]))),
  }));
}

describe('a room that is filled twice', () => {
  const account = accountOf('first-season', {}, AGAIN);
  it.each<[Reader, string]>([
    ['cold-store', 'rooms'],
    ['cold-store', 'tasks'],
    ['packhouse', 'arrivals'],
    ['lab', 'samples'],
    ['lab', 'lots'],
    ['growers', 'lots'],
    ['growers', 'packing'],
    ['everyone', 'rooms'],
  ])('is told by its fill, too, on the papers of the %s, in the table of %s', (reader, key) => {
    const rows = tableOf(papersFor(account, reader), key).flatMap((table) => table.rows);
    const ofRoom = (room: string) => rows.filter(({ room: one, rooms }) => String(one ?? rooms) === room);
    expect(new Set(ofRoom('R1').map(({ fill }) => fill))).toEqual(new Set(['R1-gala', 'R1-braeburn']));
    expect(ofRoom('R2').length).toBeGreaterThan(0);
    for (const { fill } of ofRoom('R2')) expect(fill ?? null).toBeNull();
  });

  it('and no table has a column for it where each room is filled once', () => {
    const usual = accountOf('first-season');
    for (const reader of ['cold-store', 'packhouse', 'lab', 'growers', 'everyone'] as const)
      for (const { tables } of papersFor(usual, reader))
        for (const { columns } of tables) expect(columns.map(({ key }) => key)).not.toContain('fill');
  });
});
