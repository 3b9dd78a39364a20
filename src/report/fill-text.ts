import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { noPaint, type Paint } from './paint';
import { seasonBefore } from './parts';
import type { FillReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { whole } from './text-cells';

type Row = FillReport['rooms'][number];

/** The fill proposal as text. */
export function fillText(report: FillReport, paint: Paint = noPaint): string {
  const season = seasonBefore(report.plan);
  return [
    paint.bold(`${season}fill proposal for ${roomsText(report)}`),
    '',
    ...fillSummary(report).flatMap((text) => wrap(text, PAGE_WIDTH, '  ')),
    ...violationLines(report, paint),
    ...(report.rooms.length > 0 ? ['', ...roomTable(report)] : []),
    ...report.rooms.flatMap((row) => ['', ...roomLines(row, paint)]),
    ...unplacedLines(report, paint),
    ...leftOutLines(report, paint),
    ...notToppedUpLines(report, paint),
    ...writtenLines(report),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

function roomsText({ totals: { freeRooms, roomsBegun } }: FillReport): string {
  const free = counted(freeRooms, 'free room');
  return roomsBegun === undefined
    ? free
    : `${free} and ${counted(roomsBegun, 'room begun', 'rooms begun')} with places left`;
}

/** How much finds a room, and how good that is, in sentences. */
export function fillSummary(report: FillReport): string[] {
  const { totals } = report;
  if (totals.bins === 0) {
    const none = report.leftOut.some(({ bins }) => bins > 0)
      ? 'No bins are proposed a room; those that wait for one are named below, each with what stands against it.'
      : 'No bins wait for a room: the fills of the plan take all there are.';
    return [none, ...report.remarks];
  }
  if (totals.roomsUsed === 0)
    return [
      `None of ${counted(totals.bins, 'bin')} of ${counted(totals.lots, 'lot')} goes into a room.`,
      ...leftOutText(report),
      ...(report.provenBest ? [provenText(report)] : []),
      ...report.remarks,
    ];
  return [
    `${whole(totals.binsPlaced)} of ${counted(totals.bins, 'bin')} of ${counted(totals.lots, 'lot')} go into ${counted(totals.roomsUsed, 'room')}${partlyText(totals)} ${splitText(totals)}`,
    unplacedText(report),
    ...leftOutText(report),
    provenText(report),
    ...valueText(report),
    ...report.remarks,
  ];
}

function partlyText({ roomsUsed, roomsPartlyFilled: partly }: FillReport['totals']): string {
  if (partly === 0) return ', at least nine tenths full.';
  return partly === roomsUsed
    ? ', less than nine tenths full.'
    : `, ${whole(partly)} of them less than nine tenths full.`;
}

/** How many lots are split, and which of them could not be helped. */
function splitText({ lotsSplit, lotsSplitByIntake, lotsPartlyLeft }: FillReport['totals']): string {
  const forced =
    lotsSplitByIntake === 0
      ? 'so that fewer bins are left over, or fewer rooms used'
      : `${whole(lotsSplitByIntake)} of them because no room could take it whole, by places, days and daily intake`;
  const split =
    lotsSplit === 0
      ? 'No lot is split over rooms.'
      : `${counted(lotsSplit, 'lot is', 'lots are')} split over rooms, ${forced}.`;
  const partly = lotsPartlyLeft === 0 ? '' : ` Of ${counted(lotsPartlyLeft, 'lot')} some bins are left over.`;
  return `${split}${partly}`;
}

/** Bins that were offered to no room. */
function leftOutText({ leftOut, takenOut, totals }: FillReport): string[] {
  const bins = leftOut.reduce((sum, one) => sum + one.bins, 0);
  const out = takenOut.reduce((sum, one) => sum + one.bins, 0);
  return [
    ...(out > 0
      ? [
          `${out === totals.binsUnplaced ? (out === 1 ? 'It' : 'All of them') : `${whole(out)} of them`} would fit: with ${out === 1 ? 'it' : 'them'} the plan would have findings that keep fruit out, or a schedule of less worth.`,
        ]
      : []),
    ...(bins > 0
      ? [`${counted(bins, 'bin is', 'bins are')} offered to no room, each lot with its reason below.`]
      : []),
  ];
}

function valueText({ value }: FillReport): string[] {
  if (!value) return [];
  const money = (amount: number) => `${value.currency} ${whole(Math.round(amount))}`;
  return [
    `The quick release schedule of the plan is worth ${money(value.before)} without the proposal and ${money(value.after)} with it.`,
  ];
}

function unplacedText({ totals, leastUnplaced, leastUnplacedRestsOn }: FillReport): string {
  if (totals.binsUnplaced === 0) return 'No bin is left over.';
  const left = `${counted(totals.binsUnplaced, 'bin is', 'bins are')} left over`;
  if (leastUnplaced === 0) return `${left}.`;
  const least =
    leastUnplaced === totals.binsUnplaced
      ? 'no fill leaves fewer'
      : `no fill leaves fewer than ${whole(leastUnplaced)}`;
  return `${left}; ${least}, by ${leastUnplacedRestsOn}.`;
}

function provenText({ provenBest, bound, cost }: FillReport): string {
  if (provenBest) return "Proven by the solver's branch and bound: no fill does better by these aims.";
  if (bound === undefined) return 'Found by search: a better fill may exist.';
  const gap = cost === 0 ? 0 : (100 * (cost - bound)) / Math.abs(cost);
  return `Found by search; by the solver's bound no fill does better by more than ${fixed(gap, 1)} % of its cost.`;
}

function violationLines({ violations }: FillReport, paint: Paint): string[] {
  if (violations.length === 0) return ['An independent check of the proposal found nothing wrong.'];
  return [
    paint.error('An independent check found the proposal wrong; do not use it, and report this:'),
    ...violations.flatMap(({ kind, message }) => wrap(`  ${kind}: ${message}`, PAGE_WIDTH, '    ')),
  ];
}

function roomTable({ rooms }: FillReport): string[] {
  const right = 'right' as const;
  return table(
    [
      { title: 'Room' },
      { title: 'Regime', breaks: true },
      { title: 'Bins', align: right },
      { title: 'Places', align: right },
      { title: 'First bin' },
      { title: 'Last bin' },
      { title: 'Sealed' },
      { title: 'Terms' },
      { title: 'Lasts to' },
    ],
    rooms.map((row) => [
      row.room,
      row.regime,
      whole(row.bins),
      whole(row.places),
      row.firstBin,
      row.lastBin,
      row.sealed ?? 'air',
      termsOf(row),
      row.leavesBy?.first ?? '-',
    ]),
  );
}

function termsOf({ lots }: Row): string {
  const order = ['long', 'mid', 'short', 'air'] as const;
  const terms = order.filter((term) => lots.some((lot) => lot.term === term));
  return terms.length === 0 ? '-' : terms.join(', ');
}

function roomLines(row: Row, paint: Paint): string[] {
  const lots = row.lots.map(({ lot, variety, bins }) => `${lot} ${variety} ${whole(bins)}`).join(', ');
  const more = row.binsBefore === undefined ? '' : `To the ${counted(row.binsBefore, 'bin')} it holds: `;
  const growers = row.growers.length === 0 ? '' : ` From ${row.growers.join(', ')}.`;
  return [
    `${paint.bold(row.room)}  ${row.fill}`,
    ...[`${more}${lots}.${growers}`, ...row.reasons].flatMap((text) => wrap(`  ${text}`, PAGE_WIDTH, '    ')),
  ];
}

function unplacedLines({ unplaced }: FillReport, paint: Paint): string[] {
  if (unplaced.length === 0) return [];
  const lines = byReason(unplaced).flatMap(({ lots, reason }) =>
    wrap(`  ${lots}: ${reason}`, PAGE_WIDTH, '    '),
  );
  return ['', paint.warning('Without a room'), ...lines];
}

/** Lots that are left over for the same reason, told together: `G1: 54 bins`, or `G1 54, G2 52 bins`. */
export function byReason(unplaced: FillReport['unplaced']): { lots: string; reason: string }[] {
  const groups = new Map<string, FillReport['unplaced'][number][]>();
  for (const one of unplaced) groups.set(one.reason, [...(groups.get(one.reason) ?? []), one]);
  return [...groups].map(([reason, lots]) => {
    const [first] = lots;
    if (first && lots.length === 1) return { lots: `${first.lot}: ${counted(first.bins, 'bin')}`, reason };
    return { lots: `${lots.map(({ lot, bins }) => `${lot} ${whole(bins)}`).join(', ')} bins`, reason };
  });
}

function leftOutLines({ leftOut }: FillReport, paint: Paint): string[] {
  if (leftOut.length === 0) return [];
  const lines = leftOut.flatMap(({ what, bins, reason }) =>
    wrap(`  ${what}${bins > 0 ? `: ${counted(bins, 'bin')}` : ''}: ${reason}`, PAGE_WIDTH, '    '),
  );
  return ['', paint.warning('Not planned with'), ...lines];
}

function notToppedUpLines({ notToppedUp, today }: FillReport, paint: Paint): string[] {
  if (!notToppedUp || notToppedUp.length === 0) return [];
  const by = today === undefined ? '' : ` (by ${today})`;
  const lines = notToppedUp.flatMap(({ fill, room, reason }) =>
    wrap(`  ${room}, ${fill}: ${reason}`, PAGE_WIDTH, '    '),
  );
  return ['', paint.warning(`Not topped up${by}`), ...lines];
}

function writtenLines({ written }: FillReport): string[] {
  if (!written) return [];
  if (written.length === 0) return ['', 'Nothing was to be written.'];
  return ['', 'Written into the plan:', ...written.map(({ file, fill }) => `  ${file}: ${fill}`)];
}
