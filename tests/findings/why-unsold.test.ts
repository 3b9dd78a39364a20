import { describe, expect, it } from 'vitest';
import { findingsOnExample, readPage } from './page';

/** The room of the page, kept for an export that orders as said. */
function keptForExport(weeks: string, cartons: number): string {
  const [example = ''] = readPage('room-mostly-unsold').wrong;
  return example.replace(
    /export-gala: .*/,
    `export-gala: { market: export, variety: Gala, class: first, weeks: ${weeks}, cartons: ${cartons}, price: 24 }`,
  );
}

function told(example: string): string {
  return findingsOnExample(example).find(({ code }) => code === 'room-mostly-unsold')?.message ?? '';
}

describe('why most of a room is unsold', () => {
  it('is told with the weeks in which it is packed', () => {
    expect(told(keptForExport('2026-W47..2026-W52', 40))).toMatch(
      /to processing, packed in 20\d\d-W\d\d( to 20\d\d-W\d\d)?: orders of these weeks take no more of them\./,
    );
  });

  it('is the orders that end before it', () => {
    const message = told(
      keptForExport('2026-W39..2026-W40', 40).replace(
        'for-markets: [export]',
        'for-markets: [export]\n    open: 2026-W47',
      ),
    );
    expect(message).toContain('no order that may take them asks for any after 2026-W40.');
  });

  it('is the next order, which comes too late for it', () => {
    const message = told(
      keptForExport('2027-W20..2027-W22', 400).replace(
        'for-markets: [export]',
        'for-markets: [export]\n    open: 2026-W40',
      ),
    );
    expect(message).toMatch(
      /the next order asks for them in 2027-W20, and the room is to be opened by \S+\./,
    );
  });
});
