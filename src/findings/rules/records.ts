import { formatDay, formatWeek, type Week, weekOfDay } from '../../plan/dates';
import type { Fill, Lot, PackedRun, Plan } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import type { LateRecord } from '../../plan/record-model';
import { stepsInOrder } from '../../plan/record-order';
import { counted, isOrAre, listed } from '../../plan/wording';
import { cautionInShort } from '../../room/caution';
import { ofEntries } from '../each-entry';
import type { ComputedSeason, Rule } from '../types';
import { isReceiptUnread } from '../unknown-fruit';

function* recordsOutOfOrder({ plan }: ComputedSeason): Iterable<Problem> {
  for (const progress of plan.progress.values())
    for (const [first, later] of stepsInOrder(progress)) {
      if (later.on.value >= first.on.value) continue;
      yield {
        code: 'records-out-of-order',
        message: `${progress.id} is recorded as ${later.name} on ${formatDay(later.on.value)}, ${counted(first.on.value - later.on.value, 'day')} before ${first.name} (${formatDay(first.on.value)}). One of the two days is wrong: correct it.`,
        at: later.on.at,
        related: [{ at: first.on.at, message: first.name }],
        about: `${progress.id}/${later.name}`,
      };
    }
  yield* takenBeforePicking(plan);
  yield* packedBeforeOpening(plan);
}

function* takenBeforePicking(plan: Plan): Iterable<Problem> {
  for (const { id, lot, taken } of plan.samples.values()) {
    const picked = lot && plan.lots.get(lot.value)?.picked;
    if (!taken || !picked || taken.value >= picked.value.first) continue;
    yield {
      code: 'records-out-of-order',
      message: `Sample ${id} is recorded as taken on ${formatDay(taken.value)}, ${counted(picked.value.first - taken.value, 'day')} before lot ${lot.value} is picked (${formatDay(picked.value.first)}). One of the two days is wrong: correct it.`,
      at: taken.at,
      related: [{ at: picked.at, message: 'Picked' }],
      about: id,
    };
  }
}

/** Told once a fill: its first day of packing before it was opened. */
function* packedBeforeOpening(plan: Plan): Iterable<Problem> {
  const first = new Map<string, PackedRun>();
  for (const run of plan.packed.values()) {
    const known = run.fill && first.get(run.fill.value);
    if (run.fill && run.day && (!known?.day || run.day.value < known.day.value))
      first.set(run.fill.value, run);
  }
  for (const [fill, { day }] of first) {
    const opened = plan.progress.get(fill)?.opened;
    if (!day || !opened || day.value >= opened.value) continue;
    yield {
      code: 'records-out-of-order',
      message: `Bins of ${fill} are recorded as packed on ${formatDay(day.value)}, ${counted(opened.value - day.value, 'day')} before it was opened (${formatDay(opened.value)}). One of the two days is wrong: correct it.`,
      at: day.at,
      related: [{ at: opened.at, message: 'Opened' }],
      about: `${fill}/packed`,
    };
  }
}

/** Records that were left out, for their day cannot be. */
function* recordsTooLate({ plan }: ComputedSeason): Iterable<Problem> {
  if (!plan.tooLate || plan.stand === undefined) return;
  const stand = formatDay(plan.stand);
  for (const { what, about, day, at, because } of plan.tooLate) {
    const on = formatDay(day);
    const otherwise =
      because.kind === 'season'
        ? `let the season go on to ${on}`
        : `where it is right, look from it with \`--as-of ${on}\`; it also counts once others of those weeks are recorded`;
    yield {
      code: 'record-too-late',
      message: `${what} is recorded on ${on}, ${whyTooLate(because)}. It is left out, and the season is looked at from ${stand}, the last day of all other records. Expected is a day up to today: correct it, or ${otherwise}.`,
      at,
      about,
    };
  }
}

function whyTooLate(because: LateRecord['because']): string {
  switch (because.kind) {
    case 'season':
      return `after the season's end (${formatDay(because.ends)}) and weeks after all others`;
    case 'harvest':
      return `${counted(because.days, 'day')} after all others, and its fruit was to be in by ${formatDay(because.by)}`;
    case 'alone':
      return `${counted(because.days, 'day')} after all others`;
  }
}

/** A fill that was packed from, of which nobody recorded that it was opened. */
function packedWithoutOpening({ fruit }: ComputedSeason, fill: Fill): Problem[] | undefined {
  const { id, opened, openedByPacking, sealed, regime } = fill;
  if (!openedByPacking || !opened) return undefined;
  const isLow = sealed !== undefined || (regime && fruit.regime(regime.value)?.oxygen) !== undefined;
  const day = formatDay(opened.value);
  const closed = sealed ? `, sealed on ${formatDay(sealed.value)}` : '';
  const mend = `Record \`opened\` of ${id} under \`progress\`, or, where the run came from elsewhere, correct its fill or its day.`;
  return [
    {
      code: 'packed-without-opening',
      message: `Fruit of ${id} is recorded as packed on ${day}, but no opening of its room${closed}. It counts as opened by that day: fruit does not leave a closed room. ${mend}${isLow ? ` ${WHETHER_OPEN} ${cautionInShort}` : ''}`,
      severity: isLow ? 'warning' : 'notice',
      at: opened.at,
      related: sealed ? [{ at: sealed.at, message: 'Sealed' }] : [],
      about: id,
    },
  ];
}

const WHETHER_OPEN = 'Until that is settled treat the room as sealed.';

/** Bins of a lot that went into rooms as recorded, or were packed from the field. */
function goneBins(plan: Plan, lot: string): { readonly rooms: number; readonly field: number } {
  let [rooms, field] = [0, 0];
  for (const progress of plan.progress.values())
    for (const one of progress.lots) if (one.lot.value === lot) rooms += one.bins.value;
  for (const run of plan.packed.values())
    if (run.lot?.value === lot && !run.fill) field += run.bins?.value ?? 0;
  return { rooms, field };
}

function receivedOf({ receivedBins, receivedByDay }: Lot): number | undefined {
  if (receivedBins) return receivedBins.value;
  return receivedByDay && [...receivedByDay.values()].reduce((sum, bins) => sum + bins, 0);
}

function* wentInBeyondReceived({ plan }: ComputedSeason): Iterable<Problem> {
  if (plan.progress.size === 0 && plan.packed.size === 0) return;
  for (const lot of plan.lots.values()) {
    const received = receivedOf(lot);
    if (received === undefined) continue;
    const { rooms, field } = goneBins(plan, lot.id);
    const over = rooms + field - received;
    if (over <= 0 || isReceiptUnread(lot)) continue;
    const places = [...plan.progress.values()].flatMap(({ id, lots }) =>
      lots
        .filter((one) => one.lot.value === lot.id)
        .map((one) => ({ at: one.lot.at, message: `${counted(one.bins.value, 'bin')} in ${id}` })),
    );
    const fromField = field > 0 ? ` and ${field} packed from the field` : '';
    yield {
      code: 'went-in-beyond-received',
      message: `Of lot ${lot.id} ${counted(received, 'bin')} ${received === 1 ? 'is' : 'are'} recorded as received, and ${rooms} as gone into rooms${fromField}: ${counted(over, 'bin')} too many. Add the receipts that are missing, or correct the bins that went in.`,
      at: places.at(-1)?.at ?? lot.at,
      related: [{ at: lot.at, message: `Lot ${lot.id}` }, ...places.slice(0, -1)],
      about: lot.id,
    };
  }
}

function* packedBeyondWentIn({ plan }: ComputedSeason): Iterable<Problem> {
  const runs = new Map<string, PackedRun[]>();
  for (const run of plan.packed.values()) {
    if (!run.fill || !run.lot || !plan.fills.has(run.fill.value)) continue;
    const key = JSON.stringify([run.fill.value, run.lot.value]);
    runs.set(key, [...(runs.get(key) ?? []), run]);
  }
  for (const [key, ofLot] of runs) {
    const [fill, lot] = JSON.parse(key) as [string, string];
    const part = plan.fills.get(fill)?.lots.find((one) => one.lot.value === lot);
    const wentIn = part?.bins.value ?? 0;
    const packed = ofLot.reduce((sum, { bins }) => sum + (bins?.value ?? 0), 0);
    const last = ofLot.at(-1);
    if (packed <= wentIn || !last?.fill) continue;
    const held = part ? `${counted(wentIn, 'bin')} of it went in` : 'none of it is recorded as gone in';
    yield {
      code: 'packed-beyond-what-went-in',
      message: `${counted(packed, 'bin')} of lot ${lot} ${packed === 1 ? 'is' : 'are'} recorded as packed from ${fill}, and ${held}: ${counted(packed - wentIn, 'bin')} too many. Correct the lot, the fill or the bins of a run, or what went in.`,
      at: last.at,
      related: part ? [{ at: part.lot.at, message: 'What went in' }] : [],
      about: `${fill}/${lot}`,
    };
  }
}

/** Net fruit of a bin of the room a run came from; from the field, where the plan has one kind of bin only. */
function netFruitOf(plan: Plan, { fill }: PackedRun): number | undefined {
  const room = fill && plan.fills.get(fill.value)?.room;
  const type = room && plan.rooms.get(room.value)?.binType;
  if (type) return plan.binTypes.get(type.value)?.netFruit?.value;
  return plan.binTypes.size === 1 ? [...plan.binTypes.values()][0]?.netFruit?.value : undefined;
}

function* packedMoreThanFits({ plan }: ComputedSeason): Iterable<Problem> {
  const carton = plan.season?.cartonMass?.value;
  if (carton === undefined) return;
  for (const run of plan.packed.values()) {
    const net = netFruitOf(plan, run);
    const bins = run.bins?.value ?? 0;
    const cartons = [...run.cartons.values()].reduce((sum, { value }) => sum + value, 0);
    const fruit = (net ?? 0) * bins;
    if (fruit <= 0 || cartons * carton <= fruit) continue;
    const share = Math.round((100 * cartons * carton) / fruit);
    yield {
      code: 'packed-more-than-bins-hold',
      message: `Run ${run.id}: ${counted(cartons, 'carton')} ${isOrAre(cartons)} recorded of ${counted(bins, 'bin')}, which is ${share} % of their fruit; they hold ${counted(Math.floor(fruit / carton), 'carton')} at most, culls and all. Correct the bins or the cartons.`,
      at: run.at,
      about: run.id,
    };
  }
}

/** By variety and class the first week in which more had been sold than packed by its end. */
function* soldBeyondPacked({ plan }: ComputedSeason): Iterable<Problem> {
  const packed = new Map<string, { week: Week; cartons: number }[]>();
  const varieties = new Set<string>();
  for (const { lot, day, cartons } of plan.packed.values()) {
    const variety = plan.lots.get(lot?.value ?? '')?.variety?.value;
    if (variety === undefined || !day) continue;
    varieties.add(variety);
    for (const [packClass, { value }] of cartons) {
      const key = JSON.stringify([variety, packClass]);
      packed.set(key, [...(packed.get(key) ?? []), { week: weekOfDay(day.value), cartons: value }]);
    }
  }
  const sales = new Map<string, (typeof plan.sales extends ReadonlyMap<string, infer S> ? S : never)[]>();
  for (const sale of plan.sales.values()) {
    if (!sale.variety || !sale.packClass || !sale.week || !varieties.has(sale.variety.value)) continue;
    const key = JSON.stringify([sale.variety.value, sale.packClass.value]);
    sales.set(key, [...(sales.get(key) ?? []), sale]);
  }
  for (const [key, ofProduct] of sales) {
    const [variety, packClass] = JSON.parse(key) as [string, string];
    const inOrder = [...ofProduct].sort((a, b) => (a.week?.value ?? 0) - (b.week?.value ?? 0));
    let [sold, first, most] = [0, undefined as (typeof inOrder)[number] | undefined, 0];
    for (const sale of inOrder) {
      sold += sale.cartons?.value ?? 0;
      const there = (packed.get(key) ?? [])
        .filter(({ week }) => week <= (sale.week?.value ?? 0))
        .reduce((sum, { cartons }) => sum + cartons, 0);
      if (sold - there <= 0.5) continue;
      first ??= sale;
      most = Math.max(most, sold - there);
    }
    if (!first?.week) continue;
    yield {
      code: 'sold-beyond-packed',
      message: `More ${variety}, class ${packClass}, is recorded as sold than as packed, from ${formatWeek(first.week.value)} on: at most ${counted(most, 'carton')} more. Add the packed runs that are missing, or correct the sales.`,
      at: first.at,
      about: `${variety}/${packClass}`,
    };
  }
}

function* sampleNotOfFill({ plan }: ComputedSeason): Iterable<Problem> {
  for (const { id, lot, fill } of plan.samples.values()) {
    const own: Fill | undefined = fill && plan.fills.get(fill.value);
    if (!lot || !fill || !own || !plan.lots.has(lot.value)) continue;
    const lots = own.lots.map((one) => one.lot.value);
    if (lots.includes(lot.value)) continue;
    const others = [...plan.fills.values()]
      .filter((one) => one.lots.some((part) => part.lot.value === lot.value))
      .map((one) => one.id);
    const where = others.length > 0 ? ` It is in ${listed(others)}.` : '';
    yield {
      code: 'sample-not-of-fill',
      message: `Sample ${id} is said to come from ${own.id}, in which there is nothing of lot ${lot.value} (${listed(lots, 6)}).${where} Correct the lot or the fill: until then it tells nothing of the room.`,
      at: fill.at,
      related: [{ at: own.at, message: own.id }],
      about: id,
    };
  }
}

/** Told once, with the weeks: nothing can be done about it any more but to look at the fruit. */
function* openedOutsideWindow({ keeping }: ComputedSeason): Iterable<Problem> {
  for (const { filled, window } of keeping.values()) {
    const { fill } = filled;
    // Of a day that nobody recorded, `packed-without-opening` tells.
    if (!fill.opened || fill.openedByPacking || !window) continue;
    const week = weekOfDay(fill.opened.value);
    const early = window.earliest.limit !== 'law' ? window.earliest.week - week : 0;
    const late = week - window.latest.week;
    if (early <= 0 && late <= 0) continue;
    const by = early > 0 ? `${counted(early, 'week')} before` : `${counted(late, 'week')} after`;
    const then =
      early > 0
        ? 'Its fruit had not kept as long as was planned for it.'
        : 'Sample its lots before they are packed, and say to buyers what the firmness is.';
    yield {
      code: 'opened-outside-window',
      message: `${fill.id} was opened in ${formatWeek(week)}, ${by} its window (${formatWeek(window.earliest.week)} to ${formatWeek(window.latest.week)}). ${then} ${cautionInShort}`,
      at: fill.opened.at,
      about: fill.id,
    };
  }
}

export const recordRules: readonly Rule[] = [
  {
    code: 'records-out-of-order',
    family: 'plan',
    severity: 'error',
    summary: 'Recorded days that cannot follow one another.',
    find: recordsOutOfOrder,
  },
  {
    code: 'record-too-late',
    family: 'plan',
    severity: 'error',
    summary: 'A record of a day that cannot be yet.',
    find: recordsTooLate,
  },
  {
    code: 'packed-without-opening',
    family: 'plan',
    severity: 'warning',
    summary: 'Fruit was packed from a room that is not recorded as opened.',
    ...ofEntries({ fills: packedWithoutOpening }),
  },
  {
    code: 'went-in-beyond-received',
    family: 'plan',
    severity: 'warning',
    summary: 'More bins of a lot went into rooms than were received.',
    find: wentInBeyondReceived,
  },
  {
    code: 'packed-beyond-what-went-in',
    family: 'plan',
    severity: 'warning',
    summary: 'More bins of a lot were packed from a room than went into it.',
    find: packedBeyondWentIn,
  },
  {
    code: 'packed-more-than-bins-hold',
    family: 'plan',
    severity: 'warning',
    summary: 'A packed run with more fruit in cartons than its bins held.',
    find: packedMoreThanFits,
  },
  {
    code: 'sold-beyond-packed',
    family: 'demand',
    severity: 'warning',
    summary: 'More cartons of a class were sold than packed.',
    find: soldBeyondPacked,
  },
  {
    code: 'sample-not-of-fill',
    family: 'plan',
    severity: 'warning',
    summary: 'A sample of a lot that is not in the fill it names.',
    find: sampleNotOfFill,
  },
  {
    code: 'opened-outside-window',
    family: 'keeping',
    severity: 'notice',
    summary: 'A room was opened before or after its window.',
    find: openedOutsideWindow,
  },
];
