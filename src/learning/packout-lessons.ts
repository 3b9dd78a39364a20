import { formatDay } from '../plan/dates';
import type { Lot, PackedRun, Packout, Plan } from '../plan/model';
import type { Learned, Lesson, NotLearned } from './lesson';
import { type FittedPackout, fitPackout, type PackedPart } from './packout';

const DAYS_A_MONTH = 365.2425 / 12;

/** The packout of each lot of which bins were packed. */
export function packoutLessons(plan: Plan): Learned {
  const byLot = new Map<string, PackedRun[]>();
  for (const run of plan.packed.values())
    if (run.lot && run.day && run.bins && run.bins.value > 0)
      byLot.set(run.lot.value, [...(byLot.get(run.lot.value) ?? []), run]);
  const lessons: Lesson[] = [];
  const not: NotLearned[] = [];
  for (const [id, runs] of byLot) {
    const lot = plan.lots.get(id);
    if (!lot) continue;
    const made = lessonOf(plan, lot, runs);
    if (typeof made === 'string') not.push({ kind: 'packout', entry: id, reason: made });
    else lessons.push(made);
  }
  return { lessons, not };
}

function lessonOf(plan: Plan, lot: Lot, runs: readonly PackedRun[]): Lesson | string {
  const packout = plan.packing?.packout.get(lot.variety?.value ?? '');
  const carton = plan.season?.cartonMass?.value;
  if (!packout || packout.shares.size === 0) return 'The plan has no packout of its variety.';
  if (!carton) return 'The plan does not say how much fruit a carton holds.';
  const parts = runs.flatMap((run) => {
    const part = partOf(plan, lot, run, packout, carton);
    return part ? [{ run, part }] : [];
  });
  const planned = new Map([...packout.shares].map(([name, { value }]) => [name, value / 100]));
  const fit = fitPackout(
    planned,
    parts.map(({ part }) => part),
  );
  if (!fit) return 'The plan does not say how much fruit its bins hold.';
  return lessonFrom(lot, packout, fit, parts);
}

/** What a run packed, by class, with what store had lost by then added back. */
function partOf(
  plan: Plan,
  lot: Lot,
  run: PackedRun,
  packout: Packout,
  carton: number,
): PackedPart | undefined {
  const netFruit = netFruitOf(plan, lot, run);
  const [bins, day] = [run.bins?.value, run.day?.value];
  if (!netFruit || !bins || day === undefined) return undefined;
  const months = Math.max(0, (day - (lot.picked?.value.last ?? day)) / DAYS_A_MONTH);
  const kept = Math.max(0.05, 1 - (packout.lossAMonth.value / 100) * months);
  const shares = [...run.cartons].map(
    ([name, { value }]) => [name, Math.min(1, (value * carton) / (bins * netFruit) / kept)] as const,
  );
  return { bins, shares: new Map(shares) };
}

/** Of the bins of the room it came from, or of a room the lot is in. */
function netFruitOf(plan: Plan, lot: Lot, run: PackedRun): number | undefined {
  const fills = run.fill ? [plan.fills.get(run.fill.value)] : [...plan.fills.values()];
  for (const fill of fills) {
    if (!run.fill && !fill?.lots.some((one) => one.lot.value === lot.id)) continue;
    const room = fill?.room && plan.rooms.get(fill.room.value);
    const binType = room?.binType && plan.binTypes.get(room.binType.value);
    if (binType?.netFruit) return binType.netFruit.value;
  }
  const [only, more] = [...plan.binTypes.values()];
  return more ? undefined : only?.netFruit?.value;
}

function lessonFrom(
  lot: Lot,
  packout: Packout,
  fit: FittedPackout,
  parts: readonly { readonly run: PackedRun; readonly part: PackedPart }[],
): Lesson {
  const days = parts.flatMap(({ run }) => run.day?.value ?? []).sort((a, b) => a - b);
  const percent = (share: { value: number; low: number; high: number }) => ({
    value: 100 * share.value,
    low: 100 * share.low,
    high: 100 * share.high,
  });
  const shares = [...fit.shares].map(([name, share]) => [name, percent(share)] as const);
  return {
    id: `packout/${lot.id}`,
    kind: 'packout',
    section: 'lots',
    entry: lot.id,
    values: shares.map(([name, fitted]) => ({
      name: `share of class ${name}`,
      unit: '%' as const,
      before: (lot.ownPackout?.get(name) ?? packout.shares.get(name))?.value,
      fitted,
    })),
    series: shares.map(([name, fitted]) => ({
      name: `packed into ${name}, what store had lost added back`,
      unit: '%' as const,
      points: parts.map(({ run, part }) => ({
        from: run.day?.value ?? 0,
        to: run.day?.value ?? 0,
        about: `${part.bins} bins`,
        seen: 100 * (part.shares.get(name) ?? 0),
        fitted,
      })),
    })),
    key: 'packout',
    written: [
      [
        'shares',
        `{ ${tenths(shares.map(([name, { value }]) => [name, value]))
          .map(([name, share]) => `${name}: ${share} %`)
          .join(', ')} }`,
      ],
    ],
    source: `packed of ${fit.bins} bins, ${formatDay(days[0] ?? 0)} to ${formatDay(days.at(-1) ?? 0)}`,
    remarks: ["The plan's shares count as much as 25 bins: the more were packed, the less."],
  };
}

/**
 * Shares in %, written to the tenth as they are shown. Shares that were the whole at most are so when rounded too: the
 * one that was rounded up most gives way.
 */
export function tenths(
  shares: readonly (readonly [name: string, percent: number])[],
): (readonly [string, string])[] {
  const rounded = shares.map(([name, exact]) => ({ name, exact, written: Math.round(10 * exact) }));
  const sum = shares.reduce((total, [, exact]) => total + exact, 0);
  const over = rounded.reduce((total, { written }) => total + written, 0) - 1000;
  if (sum <= 100 + 1e-9)
    [...rounded]
      .sort((a, b) => b.written - 10 * b.exact - (a.written - 10 * a.exact))
      .slice(0, Math.max(0, over))
      .forEach((one) => {
        one.written -= 1;
      });
  return rounded.map(({ name, written }) => [name, String(written / 10)] as const);
}
