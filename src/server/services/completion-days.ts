import { daysToSealing } from '../../fill/weights';
import { warmHoldDays } from '../../findings/later-sealing';
import type { FruitData } from '../../fruit/types';
import { type Day, firstDayOfWeek, formatDay } from '../../plan/dates';
import type { Fill, Plan } from '../../plan/model';
import { progressSteps } from '../../plan/progress-steps';
import type { Progress } from '../../plan/record-model';
import { counted } from '../../plan/wording';
import { cautionInShort } from '../../room/caution';
import type { Proposal } from './completion-types';

/** More are more than anybody reads. */
const MOST = 8;

type Likely = readonly [day: Day, detail: string];

/**
 * Days that the plan makes likely at a place: of a fill those by the picking of its lots, of a record those that were
 * planned and those up to which records go. `stand` is the last recorded day, undefined where it is not at hand: no
 * record is looked through for it. None where the plan knows no better than the language's example.
 */
export function likelyDays(
  plan: Plan,
  fruit: FruitData,
  stand: Day | undefined,
  path: readonly string[],
): Proposal[] {
  const [section, id = '', key = ''] = path;
  if (path.length !== 3) return [];
  if (section === 'fills') return proposals(ofFill(plan, fruit, plan.fills.get(id), key));
  if (section === 'progress') return ofProgress(plan, stand, id, key);
  if (section === 'samples' && key === 'taken') return proposals(upTo(stand));
  if (section !== 'packed' || key !== 'day') return [];
  const from = plan.packed.get(id)?.fill?.value ?? '';
  const opened = plan.progress.get(from)?.opened?.value;
  return proposals(upTo(stand).filter(([day]) => opened === undefined || day >= opened));
}

function ofFill(plan: Plan, fruit: FruitData, fill: Fill | undefined, key: string): Likely[] {
  if (!fill) return [];
  if (key === 'first-bin') return firstBins(plan, fill);
  if (key === 'last-bin') return lastBins(plan, fill);
  const regime = fruit.regime(fill.regime?.value ?? '');
  if (key !== 'sealed' || !fill.lastBin || !regime?.oxygen) return [];
  const days = warmHoldDays(regime) + daysToSealing;
  return [[fill.lastBin.value + days, `${counted(days, 'day')} after the last bin`]];
}

/** The days on which the picking of its lots begins, from that on which its room is ready. */
function firstBins(plan: Plan, fill: Fill): Likely[] {
  const ready = plan.rooms.get(fill.room?.value ?? '')?.ready?.value;
  const begins = pickings(plan, fill, 'first').sort(([a], [b]) => a - b);
  const later = begins.filter(([day]) => ready === undefined || day >= ready);
  const waits = ready !== undefined && later.length < begins.length;
  return [...(waits ? [[ready, 'its room is ready'] as const] : []), ...later];
}

/** The days on which the picking of its lots ends, the last before all others. */
function lastBins(plan: Plan, fill: Fill): Likely[] {
  const from = fill.firstBin?.value ?? Number.NEGATIVE_INFINITY;
  return pickings(plan, fill, 'last')
    .filter(([day]) => day >= from)
    .sort(([a], [b]) => b - a);
}

function pickings(plan: Plan, { lots }: Fill, end: 'first' | 'last'): Likely[] {
  const byDay = new Map<Day, string[]>();
  for (const { lot } of lots) {
    const day = plan.lots.get(lot.value)?.picked?.value[end];
    if (day === undefined) continue;
    const ids = byDay.get(day);
    if (ids) ids.push(lot.value);
    else byDay.set(day, [lot.value]);
  }
  const what = end === 'first' ? 'picking begins' : 'picking ends';
  return [...byDay].map(([day, ids]) => [day, `${what}: ${ids.join(', ')}`]);
}

/** As planned, else as records go, and only between what is recorded of the fill before and after. */
function ofProgress(plan: Plan, stand: Day | undefined, id: string, key: string): Proposal[] {
  const planned = plannedDay(plan.fills.get(id), key);
  const isPossible = between(plan.progress.get(id), key);
  const likely = [...(planned ? [planned] : []), ...upTo(stand)].filter(([day]) => isPossible(day));
  return proposals(likely, key === 'opened' || key === 'emptied' ? cautionInShort : '');
}

function plannedDay(fill: Fill | undefined, key: string): Likely | undefined {
  const { firstBin, lastBin, sealed, open } = fill?.planned ?? fill ?? {};
  if (key === 'opened') return open && [firstDayOfWeek(open.value), 'Monday of the planned week'];
  const given =
    key === 'first-bin' ? firstBin : key === 'last-bin' ? lastBin : key === 'sealed' ? sealed : undefined;
  return given && [given.value, 'as planned'];
}

/** Fruit may be cool before or after its room is sealed: no other step but the first bin is held to it. */
function between(progress: Progress | undefined, key: string): (day: Day) => boolean {
  const at = progressSteps.findIndex(([step]) => step === key);
  if (!progress || at < 0) return () => true;
  const isHeld = (other: string) =>
    key === 'cool' ? other === 'first-bin' : other !== 'cool' || key === 'first-bin';
  const days = (steps: readonly (typeof progressSteps)[number][]) =>
    steps.flatMap(([other, step]) => (isHeld(other) ? (progress[step]?.value ?? []) : []));
  const [from, to] = [
    Math.max(...days(progressSteps.slice(0, at))),
    Math.min(...days(progressSteps.slice(at + 1))),
  ];
  return (day) => from <= day && day <= to;
}

/** The days that a new record is most likely of. */
function upTo(stand: Day | undefined): Likely[] {
  if (stand === undefined) return [];
  return [
    [stand + 1, 'day after the last record'],
    [stand, 'day of the last record'],
  ];
}

/** Each day once, told by what comes first. */
function proposals(likely: readonly Likely[], documentation = ''): Proposal[] {
  const seen = new Set<Day>();
  return likely
    .filter(([day]) => !seen.has(day) && seen.add(day))
    .slice(0, MOST)
    .map(([day, detail]) => {
      const label = formatDay(day);
      return { label, kind: 'value', detail, documentation, newText: label };
    });
}
