import { nearest } from '../plan/nearest';
import type { FileLayout } from '../plan/table-model';

export const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t' } as const;

/** What is wrong with a file's headings. */
export interface HeadingFault {
  readonly reason: string;
  /** The column of the layout that the file has not, and the heading that is probably meant; absent for one not named. */
  readonly column?: { readonly field: string; readonly meant: string | undefined };
}

/** Why a file cannot be read by its layout: columns the plan does not name and needs, headings the file has not. */
export function headingFaults(
  headings: readonly string[],
  layout: Pick<FileLayout, 'id' | 'columns'>,
  needed: readonly string[],
): HeadingFault[] {
  const unnamed = needed
    .filter((field) => !layout.columns.has(field))
    .map((field) => ({
      reason: `\`${layout.id}\` of the plan names no column for \`${field}\`. Write its heading under \`columns\`.`,
    }));
  const absent = [...layout.columns].flatMap(([field, column]) => {
    if (headings.includes(column)) return [];
    const meant = nearest(column, headings);
    const there = headings.map((name) => `"${name}"`).join(', ');
    return [
      {
        reason: `No column is called "${column}" (\`${field}\`). ${meant ? `Is "${meant}" meant?` : `There are ${there}.`}`,
        column: { field, meant },
      },
    ];
  });
  return [...unnamed, ...absent];
}
