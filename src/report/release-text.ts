import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { acrossLines } from './across-text';
import { LEAST_AMOUNT } from './amounts';
import { fromFieldLines } from './from-field-text';
import { packedWaitText } from './packed-waits-json';
import { noPaint, type Paint } from './paint';
import { notReadText, seasonBefore } from './parts';
import { cureText, reasonText } from './reason-text';
import { withRoomNames } from './release-names';
import { changeTexts, standingText } from './release-standing';
import { countedRooms } from './room-names';
import type { ReleaseReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { weekRanges, whole } from './text-cells';
import { uncertaintyLines } from './uncertainty-text';
import { WEEK_PASSED, weekPassedLines } from './week-passed';

/** The release schedule as text. */
export function releaseText(
  computed: ReleaseReport,
  paint: Paint = noPaint,
  options: { readonly reasons?: boolean | undefined } = {},
): string {
  const season = seasonBefore(computed.plan);
  const report = withRoomNames(computed);
  return [
    paint.bold(`${season}release schedule for ${countedRooms(computed.rooms)}`),
    '',
    ...paragraphs(valueTexts(report)),
    ...violationLines(report, paint),
    ...conflictLines(report, paint),
    ...changeLines(report),
    ...writtenLines(report),
    '',
    paint.bold('Week by week'),
    '',
    ...weekTable(report),
    ...packedAlreadyLines(report),
    ...fromFieldLines(report, paint),
    '',
    paint.bold('Room by room'),
    '',
    ...roomTable(report),
    ...weekPassedLines(
      report.rooms.filter(({ weekPassed }) => weekPassed),
      report.today ?? '',
      report.written ? 'here and written' : 'here',
    ),
    ...shortageLines(report, paint),
    ...(options.reasons ? reasonLines(report, paint) : []),
    ...acrossLines(report, paint),
    ...uncertaintyLines(report, paint),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

function paragraphs(texts: readonly string[]): string[] {
  return texts.flatMap((text) => wrap(text, PAGE_WIDTH, '  '));
}

function valueTexts(report: ReleaseReport): string[] {
  const { totals } = report;
  return [
    ...[notReadText(report.plan)].filter((text) => text !== undefined),
    valueText(report),
    ...[standingText(report)].filter((text) => text !== undefined),
    boundText(report),
    ...(report.stoppedEarly
      ? ['Stopped before the search was done: this is the best schedule found until then.']
      : []),
    `${whole(totals.cartonsSold)} of ${counted(totals.cartonsDemanded, 'carton')} sold, ${whole(totals.cartonsShort)} short; ${whole(totals.binsPacked)} of ${counted(totals.bins, 'bin')} packed; ${counted(totals.cartonsUnsold, 'carton')}' worth unsold (packed and not sold, goes to processing).`,
    ...(report.fruit ? [fruitText(report.fruit)] : []),
    ...[packedWaitText(report)].filter((text) => text !== undefined),
  ];
}

function valueText({ value, valueParts: parts, currency }: ReleaseReport): string {
  const { sales, unsold, shortages, waiting, risk, inAir, changes, unevenWork } = parts;
  const amounts = addingUp(
    [sales, unsold, -shortages, -waiting, -risk, -inAir, -changes, -unevenWork],
    value,
  );
  const [first, second, ...costs] = amounts.map((amount) => whole(Math.abs(amount)));
  // The last three are told only where the planner has put a price to them.
  const named = [
    { name: 'for shortages', told: true },
    { name: 'for waiting', told: true },
    { name: 'for the risk of soft fruit', told: true },
    { name: 'for rooms that wait in air', told: inAir !== 0 },
    { name: 'for changed weeks', told: changes !== 0 },
    { name: 'for uneven work', told: unevenWork !== 0 },
  ];
  const less = named.flatMap(({ name, told }, at) => (told ? [`${costs[at]} ${name}`] : []));
  return `Value ${money(value, currency)}: sales ${first}, plus ${second} for unsold fruit, less ${listed(less)}.`;
}

function fruitText(fruit: NonNullable<ReleaseReport['fruit']>): string {
  const { cartonsInRooms, cartonsSold, cartonsUnsold, cartonsNotPacked, cartonsLeftInRooms } = fruit;
  const { cartonsFromField = 0, cartonsNeverPacked = 0 } = fruit;
  const all = cartonsInRooms + cartonsFromField;
  const [sold, unsold, culls, left, never] = addingUp(
    [cartonsSold, cartonsUnsold, cartonsNotPacked, cartonsLeftInRooms, cartonsNeverPacked],
    all,
    // What is sold and unsold stands in the line above too, and is the same there.
    TOLD_ONCE,
  ).map(whole);
  const shut = cartonsLeftInRooms >= LEAST_AMOUNT ? ` + ${left} in rooms that stay shut` : '';
  const unpacked =
    cartonsNeverPacked >= LEAST_AMOUNT ? ` + ${never} from the field to processing, never packed` : '';
  const which = cartonsFromField > 0 ? 'All fruit in the rooms and from the field' : 'All fruit in the rooms';
  return `${which}, in cartons' worth: ${whole(all)} = ${sold} sold + ${unsold} packed and unsold + ${culls} not packed into a class (culls and storage loss)${shut}${unpacked}.`;
}

/** Of the fruit's account what no other line tells: not packed, left in rooms, never packed. */
const TOLD_ONCE: readonly number[] = [2, 3, 4];

/** Whole numbers that add up as shown: what rounding leaves over goes to the largest, of those `among` if it can. */
function addingUp(parts: readonly number[], total: number, among: readonly number[] = []): number[] {
  const rounded = parts.map((part) => Math.round(part));
  const over = Math.round(total) - rounded.reduce((sum, part) => sum + part, 0);
  const free = among.reduce((best, at) => ((rounded[at] ?? 0) > (rounded[best] ?? -1) ? at : best), -1);
  const takes = free >= 0 && (rounded[free] ?? 0) + over >= 0;
  const largest = takes ? free : rounded.indexOf(Math.max(...rounded));
  // More than rounding is no rounding: it is shown as it is.
  if (Math.abs(over) > parts.length) return rounded;
  return rounded.map((part, at) => (at === largest ? part + over : part));
}

function listed(texts: readonly string[]): string {
  return texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;
}

function boundText(report: ReleaseReport): string {
  const { plan, bound, gap, boundRestsOn, provenOptimal, currency } = report;
  const rests = boundRestsOn === '' ? '' : ` The bound rests on ${boundRestsOn}.`;
  const of = plan.notRead ? ' of what could be read' : '';
  if (provenOptimal) return `Proven${of}: no schedule is worth more.${rests}`;
  if (bound === undefined) return 'No bound was proven for it.';
  if (gap === undefined)
    return `By a proven bound no schedule is worth more than ${money(bound, currency)}${plan.notRead ? ', of what could be read' : ''}; this one is worth nothing, so there is no gap to tell.${rests}`;
  return `Within ${fixed(gap * 100, 2)} % of a proven bound${plan.notRead ? ', of what could be read' : ''}.${rests}`;
}

function money(value: number, currency: string): string {
  return `${currency} ${whole(value)}`;
}

function violationLines({ violations }: ReleaseReport, paint: Paint): string[] {
  if (violations.length === 0) return ['An independent check of the schedule found nothing wrong.'];
  return [
    paint.error('An independent check found the schedule wrong; do not use it, and report this:'),
    ...violations.flatMap(({ kind, message }) => wrap(`  ${kind}: ${message}`, PAGE_WIDTH, '    ')),
  ];
}

/** Each is of one room that no schedule can open, be it by a wish that cannot be kept or because it is too large. */
function conflictLines({ conflicts }: ReleaseReport, paint: Paint): string[] {
  if (conflicts.length === 0) return [];
  return [
    '',
    paint.warning('Rooms that must stay shut, and why:'),
    ...conflicts.flatMap((conflict) => wrap(`  ${conflict}`, PAGE_WIDTH, '    ')),
  ];
}

function changeLines(report: ReleaseReport): string[] {
  const [first, ...moves] = changeTexts(report);
  if (first === undefined) return [];
  return ['', ...paragraphs([first]), ...moves.flatMap((move) => wrap(`  ${move}`, PAGE_WIDTH, '    '))];
}

function writtenLines({ written }: ReleaseReport): string[] {
  if (!written) return [];
  if (written.length === 0)
    return ['', 'Nothing was to be written: every fill that opens has its week already.'];
  return [
    '',
    'Written into the plan:',
    ...written.map(({ file, fill, week }) => `  ${file}: ${fill}: open: ${week}`),
  ];
}

function weekTable({ weeks }: ReleaseReport): string[] {
  const right = 'right' as const;
  // Weeks before the first and after the last with anything in them tell nothing.
  const busy = (week: ReleaseReport['weeks'][number]) =>
    week.opens.length > 0 ||
    week.binsPacked > 0 ||
    week.cartonsDemanded > 0 ||
    week.cartonsSold > 0 ||
    week.cartonsInStock >= LEAST_AMOUNT;
  const [first, last] = [weeks.findIndex(busy), weeks.findLastIndex(busy)];
  const shown = first < 0 ? [] : weeks.slice(first, last + 1);
  return table(
    [
      { title: 'Week' },
      { title: 'Rooms opening', breaks: true },
      { title: 'Bins packed', align: right },
      { title: 'Can pack', align: right },
      { title: 'Wanted', unit: 'cartons', align: right },
      { title: 'Sold', unit: 'cartons', align: right },
      { title: 'Short', unit: 'cartons', align: right },
      { title: 'Unsold', unit: 'cartons', align: right },
      { title: 'In stock', unit: 'cartons', align: right },
    ],
    shown.map((week) => [
      week.week,
      [...week.opens, ...((week.binsFromField ?? 0) >= LEAST_AMOUNT ? ['from the field'] : [])].join(', '),
      some(week.binsPacked),
      whole(week.packingCapacity),
      some(week.cartonsDemanded),
      some(week.cartonsSold),
      some(week.cartonsShort),
      some(week.cartonsUnsold),
      some(week.cartonsInStock),
    ]),
  );
}

/** What the table leaves out, where something packed before fills what is wanted or still waits. */
function packedAlreadyLines({ standing }: ReleaseReport): string[] {
  if (!standing || standing.cartonsInColdStore < LEAST_AMOUNT) return [];
  const { cartonsInColdStore: stock, cartonsFromColdStore: fills, week } = standing;
  const text = `Stock that is packed already is taken off: Wanted and Sold are without the ${counted(fills, 'carton')} that it fills of what is ordered, and In stock counts only what is packed from ${week} on, not the ${counted(stock, 'carton')} that wait now.`;
  return ['', ...wrap(text, PAGE_WIDTH)];
}

/** Nothing is left blank, so that weeks with something stand out. */
function some(amount: number): string {
  return amount >= LEAST_AMOUNT ? whole(amount) : '';
}

function inOrder(rooms: ReleaseReport['rooms']): ReleaseReport['rooms'] {
  return [...rooms].sort((a, b) => {
    const [x, y] = [a.opens ?? '~', b.opens ?? '~'];
    if (x !== y) return x < y ? -1 : 1;
    return a.room < b.room ? -1 : 1;
  });
}

function reasonLines(report: ReleaseReport, paint: Paint): string[] {
  const { rooms, shortages, currency } = report;
  const cures = shortages.flatMap((one) => wrap(cureText(one, currency), PAGE_WIDTH, '  '));
  return [
    '',
    paint.bold('Why these weeks'),
    '',
    ...wrap(
      'What another week would cost with every other room as it is, the bins spread and the cartons sold anew.',
      PAGE_WIDTH,
    ),
    '',
    ...inOrder(rooms).flatMap((room) =>
      wrap(`${room.room}  ${room.opens ?? 'shut'}  ${reasonText(room, currency)}.`, PAGE_WIDTH, '  '),
    ),
    ...(cures.length === 0 ? [] : ['', paint.bold('What would cure the shortages'), '', ...cures]),
  ];
}

function roomTable({ rooms }: ReleaseReport): string[] {
  return table(
    [
      { title: 'Room' },
      { title: 'Variety', breaks: true },
      { title: 'Bins', align: 'right' },
      { title: 'Opens' },
      { title: 'Empty by' },
      { title: 'May open' },
      { title: 'Best before' },
      { title: 'Pinned' },
    ],
    inOrder(rooms).map((room) => [
      room.room,
      room.varieties.join(', '),
      whole(room.bins),
      room.opens ?? 'stays shut',
      room.emptyBy ?? '-',
      room.opened ? '-' : room.noWeek ? 'no week' : `${room.earliest}..${room.latest}`,
      room.bestBefore,
      room.opened ? 'opened' : room.pinned ? 'yes' : room.weekPassed ? WEEK_PASSED : '',
    ]),
  );
}

function shortageLines({ shortages, weeks }: ReleaseReport, paint: Paint): string[] {
  if (shortages.length === 0) return ['', paint.good('No demand is left short.')];
  const index = new Map(weeks.map(({ week }, at) => [week, at]));
  const rangesOf = (one: ReleaseReport['shortages'][number]) =>
    weekRanges(one.weeks.map(({ week }) => ({ index: index.get(week) ?? 0, label: week })));
  const lines = table(
    [
      { title: 'Variety' },
      { title: 'Class' },
      { title: 'Market', breaks: true },
      { title: 'Short', unit: 'cartons', align: 'right' },
      { title: 'Of wanted', unit: '%', align: 'right' },
      { title: 'Weeks', breaks: true },
    ],
    shortages.map((one) => [
      one.variety,
      one.packClass,
      one.market,
      whole(one.cartonsShort),
      fixed((100 * one.cartonsShort) / one.cartonsDemanded, 0),
      rangesOf(one),
    ]),
  );
  return ['', paint.bold('Short'), '', ...lines];
}
