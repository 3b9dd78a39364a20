import { shortened } from '../../plan/shortened';
import type { Paper, PaperTable } from './paper';

/** A table on a sheet of its own, under its title and, where it speaks of opening, the caution. */
export interface Sheet {
  readonly name: string;
  readonly title: string;
  readonly cautions: readonly string[];
  readonly table: PaperTable;
  /** Counted from 1. */
  readonly headingRow: number;
}

/** Sheets go by their reader where the table is that reader's own. */
const NAMES: Readonly<Record<string, string>> = {
  weeks: 'Weeks',
  arrivals: 'Packhouse',
  cartons: 'Sales',
  short: 'Short weeks',
  products: 'Varieties and classes',
  tasks: 'Cold store',
  rooms: 'Rooms',
  scrubbing: 'Scrubbers',
  samples: 'Lab',
  lots: 'Lots',
  growers: 'Growers',
  packing: 'Packing',
};

const MOST_LETTERS = 31;

export function sheetsOf(papers: readonly Paper[]): Sheet[] {
  const taken = new Set<string>();
  return papers.flatMap((paper) =>
    paper.tables.map((table) => {
      const cautions = table.opens || saysBasis(paper, table) ? paper.cautions : [];
      return {
        name: freeName(NAMES[table.key] ?? table.title, taken),
        title: titleOf(paper, table),
        cautions,
        table,
        headingRow: 2 + cautions.length,
      };
    }),
  );
}

/** The first sheet of a paper says where its opening weeks come from. */
function titleOf(paper: Paper, table: PaperTable): string {
  const { title, account } = paper;
  const named = `${title}, ${shortened(account.title)}: ${table.title}`;
  return saysBasis(paper, table) ? `${named}. ${account.basis}` : named;
}

function saysBasis({ account, tables }: Paper, table: PaperTable): boolean {
  return table === tables[0] && account.basis !== '';
}

/** At most 31 letters, none of those that sheets may not have, and no name twice whatever its case. */
function freeName(wanted: string, taken: Set<string>): string {
  const clean = wanted.replace(/[[\]:*?/\\']/g, ' ').trim() || 'Sheet';
  for (let number = 1; ; number += 1) {
    const ending = number === 1 ? '' : ` ${number}`;
    const name = `${[...clean].slice(0, MOST_LETTERS - ending.length).join('')}${ending}`;
    if (taken.has(name.toLowerCase())) continue;
    taken.add(name.toLowerCase());
    return name;
  }
}
