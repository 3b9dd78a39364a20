import { nearest } from '../plan/nearest';
import type { FileLayout } from '../plan/table-model';

export const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t' } as const;

/** Why a file cannot be read by its layout: columns the plan does not name and needs, headings the file has not. */
export function headingFaults(
  headings: readonly string[],
  layout: Pick<FileLayout, 'id' | 'columns'>,
  needed: readonly string[],
): string[] {
  const unnamed = needed
    .filter((field) => !layout.columns.has(field))
    .map(
      (field) =>
        `\`${layout.id}\` of the plan names no column for \`${field}\`. Write its heading under \`columns\`.`,
    );
  const absent = [...layout.columns].flatMap(([field, column]) => {
    if (headings.includes(column)) return [];
    const meant = nearest(column, headings);
    const there = headings.map((name) => `"${name}"`).join(', ');
    return [
      `No column is called "${column}" (\`${field}\`). ${meant ? `Is "${meant}" meant?` : `There are ${there}.`}`,
    ];
  });
  return [...unnamed, ...absent];
}
