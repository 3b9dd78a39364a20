import type { Lot } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { placeAt, type Span } from '../../plan/span';
import { counted } from '../../plan/wording';
import { ofEntries } from '../each-entry';
import type { ComputedSeason, Rule } from '../types';

/** Difference between receipts and estimate from which the estimate was worth a second look; common practice. */
const RECEIPT_DIFFERENCE = 0.2;

function receiptFarFromEstimate(_: ComputedSeason, lot: Lot): Problem[] | undefined {
  const { expectedBins: expected, receivedBins: received } = lot;
  if (!expected || !received || expected.value === 0) return undefined;
  const difference = received.value / expected.value - 1;
  if (Math.abs(difference) <= RECEIPT_DIFFERENCE) return undefined;
  return [
    {
      code: 'receipt-far-from-estimate',
      message: `Lot ${lot.id}: ${counted(received.value, 'bin')} received against ${expected.value} expected (${difference > 0 ? '+' : ''}${Math.round(difference * 100)} %). If all fruit is in, check the fills that counted on it; if not, wait for the rest.`,
      at: receiptPlace(lot),
      related: [{ at: placeAt(lot.places, ['bins']).span, message: 'The estimate' }],
      about: lot.id,
    },
  ];
}

/** Where a lot's receipts stand. */
function receiptPlace({ places, receivedByDay }: Lot): Span {
  return placeAt(places, [receivedByDay ? 'received-by-day' : 'received']).span;
}

function receiptsDisagree({ plan }: ComputedSeason, lot: Lot): Problem[] | undefined {
  const sum = lot.receivedBins?.value;
  // Places are made when they are asked for: only where there is something to be compared.
  const place = lot.receivedByDay && lot.places.entries?.get('received');
  if (!place || sum === undefined) return undefined;
  // The text last: it changes with every key, and whoever looks at it is run again.
  const text = plan.files.get(lot.at.file)?.text.slice(place.span.start, place.span.end);
  if (text === undefined || Number(text) === sum) return undefined;
  return [
    {
      code: 'receipts-disagree',
      message: `Lot ${lot.id}: \`received\` says ${text}, and its days come to ${counted(sum, 'bin')}, which count. Correct one of them, or take \`received\` out.`,
      at: place.span,
      related: [{ at: receiptPlace(lot), message: 'The days' }],
      about: lot.id,
      fixes: [{ title: `Change to ${sum}`, edits: [{ at: place.span, newText: String(sum) }] }],
    },
  ];
}

export const receiptRules: readonly Rule[] = [
  {
    code: 'receipt-far-from-estimate',
    family: 'plan',
    severity: 'notice',
    summary: 'Bins received are far from the estimate.',
    ...ofEntries({ lots: receiptFarFromEstimate }),
  },
  {
    code: 'receipts-disagree',
    family: 'plan',
    severity: 'warning',
    summary: 'Bins received, and the same by day, differ.',
    ...ofEntries({ lots: receiptsDisagree }),
  },
];
