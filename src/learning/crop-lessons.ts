import type { Figure } from '../plan/figure';
import type { Lot, Plan } from '../plan/model';
import { type CropLot, type FittedCrop, fitCrop } from './crop';
import { digitsFor, type Learned, type Lesson } from './lesson';

/** Nine seasons of ten lie within the plan's range: so many standard deviations either side. */
const DEVIATIONS_OF_RANGE = 1.645;

/** What each lot still to come may be expected to give, by what was received of others. */
export function cropLessons(plan: Plan): Learned {
  const spread = (plan.policy.uncertainty?.crop.value ?? 8) / 100 / DEVIATIONS_OF_RANGE;
  const lots = [...plan.lots.values()].map(cropLot);
  const alike = receivedAlike(plan);
  const lessons = fitCrop(lots, spread).flatMap((fit) => {
    const lot = plan.lots.get(fit.lot);
    return lot && teaches(lot, fit) ? [lessonOf(lot, fit, alike(lot))] : [];
  });
  return { lessons, not: [] };
}

/**
 * Whether there is something to take in: receipts of its block, variety or grower, by which other bins are to be expected
 * than the plan's. Of what other orchards alone tell of the season nothing is offered for a lot.
 */
function teaches(lot: Lot, { share, ofBlock, ofOthers }: FittedCrop): boolean {
  if (ofBlock + ofOthers === 0) return false;
  return lot.cropShare !== undefined || digitsFor(share.value, share) !== '1';
}

function cropLot(lot: Lot): CropLot {
  return {
    lot: lot.id,
    block: lot.block,
    variety: lot.variety?.value,
    grower: lot.grower,
    estimated: estimateOf(lot),
    received: lot.receivedBins?.value,
  };
}

/** Bins as estimated, whatever share of them an earlier lesson made count. */
function estimateOf({ expectedBins, cropShare }: Lot): number {
  if (!expectedBins) return 0;
  const written: Figure | undefined =
    cropShare && expectedBins.origin.kind === 'computed' ? expectedBins.origin.inputs.estimate : undefined;
  return (written ?? expectedBins).value;
}

/** Lots of a variety that a picture of one lot shows beside those of its block. */
const MOST_SHOWN = 40;

/** The lots received that a lot's picture shows: all of its block, and of its variety the last that were picked. */
function receivedAlike(plan: Plan): (lot: Lot) => readonly Lot[] {
  const received = [...plan.lots.values()].filter(({ receivedBins }) => receivedBins);
  received.sort((a, b) => picked(b).last - picked(a).last);
  const ofBlock = grouped(received, ({ block }) => block);
  const ofVariety = grouped(received, ({ variety }) => variety?.value);
  return (lot) => {
    const shown = [...ofBlock(lot.block), ...ofVariety(lot.variety?.value).slice(0, MOST_SHOWN)];
    return [...new Set(shown)].sort((a, b) => picked(a).first - picked(b).first);
  };
}

function grouped(lots: readonly Lot[], of: (lot: Lot) => string | undefined) {
  const groups = new Map<string | undefined, Lot[]>();
  for (const lot of lots) {
    const group = groups.get(of(lot)) ?? [];
    group.push(lot);
    groups.set(of(lot), group);
  }
  return (name: string | undefined) => (name === undefined ? [] : (groups.get(name) ?? []));
}

function picked({ picked: days }: Lot): { readonly first: number; readonly last: number } {
  return days?.value ?? { first: 0, last: 0 };
}

function lessonOf(lot: Lot, { share, ofBlock, ofOthers }: FittedCrop, alike: readonly Lot[]): Lesson {
  const estimated = estimateOf(lot);
  return {
    id: `crop/${lot.id}`,
    kind: 'crop',
    section: 'lots',
    entry: lot.id,
    values: [
      {
        name: 'bins to be expected',
        unit: 'bins',
        before: lot.expectedBins?.value,
        fitted: { value: share.value * estimated, low: share.low * estimated, high: share.high * estimated },
      },
      {
        name: 'the same as a share of the estimate',
        unit: '1',
        before: lot.cropShare?.value ?? 1,
        fitted: share,
      },
    ],
    series: [
      {
        name: 'bins received, as a share of the estimate',
        unit: '1',
        points: alike.map((other) => ({
          from: picked(other).first,
          to: picked(other).last,
          about: `${other.id}${other.block === lot.block ? ', same block' : ''}`,
          seen: (other.receivedBins?.value ?? 0) / Math.max(1, estimateOf(other)),
          fitted: share,
        })),
      },
    ],
    key: 'crop',
    written: [['share', digitsFor(share.value, share)]],
    source: `by receipts of ${ofBlock} lots of its block and ${ofOthers} of its variety or grower, 95 %: ${share.low.toFixed(2)} to ${share.high.toFixed(2)}`,
    remarks: [
      'What lots have in common, season, variety, grower and block, is learned from all that came in; the rest of each estimate stays in doubt.',
    ],
  };
}
