import { LEAST_AMOUNT } from './amounts';
import type { Paint } from './paint';
import type { ReleaseReport } from './schemas';
import { table } from './table';
import { whole } from './text-cells';

/** The lots packed at harvest: when, and what goes to processing. Nothing where there are none. */
export function fromFieldLines({ fromField }: ReleaseReport, paint: Paint): string[] {
  if (!fromField) return [];
  const lines = table(
    [
      { title: 'Lot' },
      { title: 'Variety', breaks: true },
      { title: 'Bins', align: 'right' },
      { title: 'There in' },
      { title: 'Packed', unit: 'bins', breaks: true },
      { title: 'To processing', unit: 'bins', align: 'right' },
    ],
    fromField.map((one) => [
      one.lot,
      one.variety,
      whole(one.bins),
      one.from === one.until ? one.from : `${one.from}..${one.until}`,
      one.weeks.map(({ week, bins }) => `${whole(bins)} in ${week}`).join(', ') || '-',
      one.binsToProcessing >= LEAST_AMOUNT ? whole(one.binsToProcessing) : '',
    ]),
  );
  return ['', paint.bold('From the field, packed at harvest'), '', ...lines];
}
