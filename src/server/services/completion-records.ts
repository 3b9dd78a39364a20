import { type Day, formatDay, formatWeek, type Week } from '../../plan/dates';
import { fixed } from '../../plan/display';
import { lastRecordedDay } from '../../plan/known';
import type { Demand, Fill, Plan } from '../../plan/model';
import { withPlaces } from './completion-entry';
import type { Proposal } from './completion-types';

/** More are more than anybody reads: what comes first is what is due. */
const MOST = 20;

/** Longer spans are slips of the keyboard. */
const MOST_WEEKS = 520;

/** An entry that could be recorded: its name, its text, and what it is about. */
interface Due {
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}

/**
 * Whole entries of a section of records that the plan has need of: for `progress` the fills that have none, for `samples`
 * the lots of closed rooms, the longest untested first, for `packed` the lots of opened rooms with bins left, for `sales`
 * each customer's next week. Lines after the first are indented to stand below a name at `column`.
 */
export function newRecords(
  plan: Plan,
  path: readonly string[],
  column: number,
  isWritten: (name: string) => boolean,
): Proposal[] {
  if (path.length !== 1) return [];
  const [section] = path;
  const due =
    section === 'progress'
      ? progressDue(plan, ' '.repeat(column), isWritten)
      : section === 'samples'
        ? samplesDue(plan)
        : section === 'packed'
          ? packedDue(plan)
          : section === 'sales'
            ? salesDue(plan)
            : [];
  return due.slice(0, MOST).map(({ label, detail, text }) => ({
    label,
    kind: 'entry',
    detail,
    documentation:
      section === 'progress'
        ? 'Takes the planned days and bins, to be written over with what was. All that stands under progress counts as having happened: leave out the lines of what has not.'
        : 'Takes what the plan knows, to be written over with what was.',
    newText: text,
    snippet: withPlaces(text),
  }));
}

function progressDue(plan: Plan, indent: string, isWritten: (name: string) => boolean): Due[] {
  return [...plan.fills.values()]
    .filter(({ id }) => !plan.progress.has(id) && !isWritten(id))
    .sort((a, b) => (a.firstBin?.value ?? 0) - (b.firstBin?.value ?? 0))
    .flatMap((fill) => {
      const lines = stepsOf(fill).map((line) => `${indent}  ${line}`);
      if (lines.length === 0) return [];
      return [
        {
          label: `progress of ${fill.id}`,
          detail: 'with what was planned',
          text: [`${fill.id}:`, ...lines].join('\n'),
        },
      ];
    });
}

function stepsOf({ firstBin, lastBin, lots, sealed }: Fill): string[] {
  const bins = lots.map((one) => `${one.lot.value}: ${one.bins.value}`);
  return [
    firstBin && `first-bin: ${formatDay(firstBin.value)}`,
    lastBin && `last-bin: ${formatDay(lastBin.value)}`,
    bins.length > 0 && `lots: { ${bins.join(', ')} }`,
    sealed && `sealed: ${formatDay(sealed.value)}`,
  ].filter((line) => typeof line === 'string');
}

/** Lots in rooms of which fruit has gone in and that are not open yet. */
function samplesDue(plan: Plan): Due[] {
  const latest = new Map<string, Day>();
  for (const { lot, taken } of plan.samples.values())
    if (lot && taken) latest.set(lot.value, Math.max(latest.get(lot.value) ?? taken.value, taken.value));
  const name = nextName('T', plan.samples);
  const day = dayToWrite(plan);
  return [...plan.fills.values()]
    .filter(({ id }) => {
      const progress = plan.progress.get(id);
      return progress && (progress.lastBin || progress.sealed) && !progress.opened && !progress.emptied;
    })
    .flatMap(({ id, lots }) =>
      lots.map(({ lot }) => ({ fill: id, lot: lot.value, at: latest.get(lot.value) })),
    )
    .sort((a, b) => (a.at ?? 0) - (b.at ?? 0))
    .map(({ fill, lot, at }) => ({
      label: `sample of ${lot} in ${fill}`,
      detail: at === undefined ? 'none taken yet' : `last taken ${formatDay(at)}`,
      text: `${name}: { lot: ${lot}, fill: ${fill}, taken: ${day}, fruit: 20, firmness: 66 N }`,
    }));
}

function packedDue(plan: Plan): Due[] {
  const packed = new Map<string, number>();
  const keyOf = (fill: string | undefined, lot: string | undefined) => JSON.stringify([fill, lot]);
  for (const { fill, lot, bins } of plan.packed.values()) {
    const key = keyOf(fill?.value, lot?.value);
    packed.set(key, (packed.get(key) ?? 0) + (bins?.value ?? 0));
  }
  const name = nextName('P', plan.packed);
  const day = dayToWrite(plan);
  return [...plan.fills.values()].flatMap((fill) => {
    const progress = plan.progress.get(fill.id);
    if (!progress?.opened || progress.emptied) return [];
    const wentIn = progress.lots.length > 0 ? progress.lots : fill.lots;
    return wentIn.flatMap(({ lot, bins }) => {
      const left = bins.value - (packed.get(keyOf(fill.id, lot.value)) ?? 0);
      if (left < 1) return [];
      const variety = plan.lots.get(lot.value)?.variety?.value ?? '';
      const classes = [...(plan.packing?.packout.get(variety)?.shares.keys() ?? [])];
      const cartons = classes.map((one) => `${asText(one)}: 0`).join(', ');
      return [
        {
          label: `packed run of ${lot.value} from ${fill.id}`,
          detail: `${fixed(left, 0)} bins not packed yet`,
          text: `${name}: { lot: ${lot.value}, fill: ${fill.id}, day: ${day}, bins: ${left}, cartons: { ${cartons} } }`,
        },
      ];
    });
  });
}

/** For each customer, variety and class the first week without a sale, and what is wanted in it. */
function salesDue(plan: Plan): Due[] {
  const keyOf = (...names: (string | undefined)[]) => JSON.stringify(names);
  const sold = new Set(
    [...plan.sales.values()].map(({ market, variety, packClass, week }) =>
      keyOf(market?.value, variety?.value, packClass?.value, String(week?.value)),
    ),
  );
  const name = nextName('V', plan.sales);
  return [...plan.demand.values()]
    .flatMap((demand) => {
      const { market, variety, packClass } = demand;
      if (!market || !variety || !packClass) return [];
      const isSold = (week: Week) =>
        sold.has(keyOf(market.value, variety.value, packClass.value, String(week)));
      const week = firstWeek(demand, (one) => !isSold(one));
      return week === undefined ? [] : [{ demand, market, variety, packClass, week }];
    })
    .sort((a, b) => a.week - b.week)
    .map(({ demand, market, variety, packClass, week }) => {
      const wanted = (demand.byWeek.get(week) ?? demand.cartons)?.value ?? 0;
      const what = [
        `market: ${asText(market.value)}`,
        `variety: ${asText(variety.value)}`,
        `class: ${asText(packClass.value)}`,
        `week: ${formatWeek(week)}`,
        `cartons: ${wanted}`,
        ...(demand.price ? [`price: ${demand.price.value}`] : []),
      ];
      return {
        label: `sale to ${market.value}: ${variety.value} ${packClass.value} in ${formatWeek(week)}`,
        detail: `${fixed(wanted, 0)} cartons wanted`,
        text: `${name}: { ${what.join(', ')} }`,
      };
    });
}

function firstWeek({ weeks }: Demand, isIt: (week: Week) => boolean): Week | undefined {
  if (!weeks) return undefined;
  const { first, last } = weeks.value;
  for (let week = first; week <= Math.min(last, first + MOST_WEEKS); week++) if (isIt(week)) return week;
  return undefined;
}

/** The day records have come to; without any, the first day of the season. */
function dayToWrite(plan: Plan): string {
  return formatDay(lastRecordedDay(plan) ?? plan.season?.starts?.value ?? 0);
}

/** A name that no entry has: one more than the highest number behind the letter. */
function nextName(letter: string, entries: ReadonlyMap<string, unknown>): string {
  let highest = 0;
  for (const id of entries.keys()) {
    const number = new RegExp(`^${letter}(\\d{1,9})`).exec(id)?.[1];
    if (number !== undefined) highest = Math.max(highest, Number(number));
  }
  return `${letter}${String(highest + 1).padStart(2, '0')}`;
}

/** Free text as YAML reads it back. */
function asText(text: string): string {
  const isPlain =
    /^[A-Za-z][A-Za-z0-9 ._/'-]*$/.test(text) && !/^(true|false|null|yes|no|on|off)$/i.test(text);
  return isPlain && text.trim() === text ? text : JSON.stringify(text);
}
