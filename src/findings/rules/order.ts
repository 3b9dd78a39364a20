import { formatDay } from '../../plan/dates';
import type { Fill, Lot, Scrubber } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import type { PlacedPart } from '../placed';
import type { ComputedSeason } from '../types';
import { testedFarFromPicking } from './test-days';

/** Days of a fill that cannot follow one another. What is on record is not for the tool to correct: it has no fix. */
export function* fillOutOfOrder(season: ComputedSeason, fill: Fill): Iterable<Problem> {
  const { firstBin, lastBin, sealed } = fill;
  const isRecorded = () => season.plan.progress.has(fill.id);
  if (firstBin && lastBin && lastBin.value < firstBin.value)
    yield {
      code: 'dates-out-of-order',
      message: `${fill.id}: the last bin (${formatDay(lastBin.value)}) comes before the first (${formatDay(firstBin.value)}). Correct one of them: the last comes in on ${formatDay(firstBin.value)} or later, or the first on ${formatDay(lastBin.value)} or sooner.`,
      at: lastBin.at,
      related: [{ at: firstBin.at, message: 'First bin' }],
      about: `${fill.id}/last-bin`,
      fixes: isRecorded()
        ? []
        : [
            {
              title: 'Swap the two days',
              edits: [
                { at: firstBin.at, newText: formatDay(lastBin.value) },
                { at: lastBin.at, newText: formatDay(firstBin.value) },
              ],
            },
          ],
    };
  if (lastBin && sealed && sealed.value < lastBin.value) {
    const day = formatDay(lastBin.value);
    yield {
      code: 'dates-out-of-order',
      message: `${fill.id}: the room is sealed (${formatDay(sealed.value)}) before its last bin is in (${day}). Seal it on ${day} or later, or have the last bin in by ${formatDay(sealed.value)}.`,
      at: sealed.at,
      related: [{ at: lastBin.at, message: 'Last bin' }],
      about: `${fill.id}/sealed`,
      fixes: isRecorded() ? [] : [{ title: `Seal it on ${day}`, edits: [{ at: sealed.at, newText: day }] }],
    };
  }
  yield* pickedAfterLastBin(season, fill);
}

/** Lots whose picking begins only after the last bin of a fill that takes them is in. */
function* pickedAfterLastBin(
  { plan }: ComputedSeason,
  { id, lots, firstBin, lastBin }: Fill,
): Iterable<Problem> {
  // A last bin before the first is told already, and makes every lot late.
  if (!lastBin || (firstBin && lastBin.value < firstBin.value)) return;
  for (const { lot } of lots) {
    const picked = plan.lots.get(lot.value)?.picked;
    if (!picked || picked.value.first <= lastBin.value) continue;
    yield {
      code: 'dates-out-of-order',
      message: `${id}: lot ${lot.value} is picked from ${formatDay(picked.value.first)} on, after the last bin of the fill (${formatDay(lastBin.value)}). Move \`last-bin\` to ${formatDay(picked.value.first)} or later, or put the lot into another fill.`,
      at: lot.at,
      related: [
        { at: picked.at, message: 'Picked' },
        { at: lastBin.at, message: 'Last bin' },
      ],
      about: `${id}/${lot.value}`,
    };
  }
}

/** Days of a lot that cannot follow one another. */
export function lotOutOfOrder(season: ComputedSeason, lot: Lot): Problem[] | undefined {
  const received = receivedAfterSealing(season, lot);
  const tested = testedFarFromPicking(lot);
  return received && tested ? [...received, ...tested] : (received ?? tested);
}

/** Bins that came in after every room that takes them was sealed. */
function receivedAfterSealing({ placed }: ComputedSeason, lot: Lot): Problem[] | undefined {
  const { receivedByDay } = lot;
  if (!receivedByDay) return undefined;
  const last = Math.max(...receivedByDay.keys());
  const closes = closingDay(placed?.get(lot.id) ?? []);
  if (!Number.isFinite(last) || last <= closes) return undefined;
  return [
    {
      code: 'dates-out-of-order',
      message: `Lot ${lot.id}: bins are received on ${formatDay(last)}, after the last room that takes them is closed (${formatDay(closes)}). Correct the day, or give these bins another fill.`,
      at: placeAt(lot.places, ['received-by-day', formatDay(last)]).span,
      related: [{ at: lot.at, message: 'The lot' }],
      about: `${lot.id}/received-by-day`,
    },
  ];
}

/** When the last room that takes bins of a lot is closed; never, where none does. */
function closingDay(parts: readonly PlacedPart[]): number {
  if (parts.length === 0) return Number.POSITIVE_INFINITY;
  const closes = ({ sealed, lastBin }: Fill) => sealed?.value ?? lastBin?.value ?? Number.POSITIVE_INFINITY;
  return Math.max(...parts.map(({ fill }) => closes(fill)));
}

/** Rooms whose pressure test is dated after fruit had come in. */
export function* testedAfterFilling({ filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, room } of filled.values()) {
    const tested = room.tightness?.tested;
    if (!tested || !fill.firstBin || tested.value <= fill.firstBin.value) continue;
    yield {
      code: 'tightness-not-tested',
      message: `${room.id} is tested on ${formatDay(tested.value)}, after the first bin of ${fill.id} (${formatDay(fill.firstBin.value)}): a leak found then is hardly mended. Test the empty room before harvest, or correct the date.`,
      at: tested.at,
      related: [{ at: fill.firstBin.at, message: 'First bin' }],
      about: room.id,
    };
  }
}

/** Which kind of scrubber each of these keys says something about. */
const KIND_OF_KEY = [
  { key: 'beds', kind: 'carbon', given: ({ beds }: Scrubber) => beds },
  { key: 'selectivity', kind: 'membrane', given: ({ selectivity }: Scrubber) => selectivity },
  { key: 'charge', kind: 'lime', given: ({ charge }: Scrubber) => charge },
  { key: 'utilisation', kind: 'lime', given: ({ utilisation }: Scrubber) => utilisation },
] as const;

/** Keys that say something about another kind of scrubber than the one they stand in: nothing is computed from them. */
export function* keysWithoutEffect({ plan }: ComputedSeason): Iterable<Problem> {
  for (const scrubber of plan.scrubbers.values())
    for (const { key, kind, given } of KIND_OF_KEY) {
      if (!scrubber.kind || scrubber.kind === kind || !given(scrubber)) continue;
      yield {
        code: 'key-without-effect',
        message: `${scrubber.id} is a ${scrubber.kind} scrubber, and \`${key}\` says something about a ${kind} one only: nothing is computed from it. Take it out, or correct \`kind\`.`,
        at: placeAt(scrubber.places, [key]).span,
        related: [{ at: placeAt(scrubber.places, ['kind']).span, message: 'The kind' }],
        about: `${scrubber.id}/${key}`,
      };
    }
}
