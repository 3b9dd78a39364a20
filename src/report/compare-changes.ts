import { ownChangesFirst, type Told } from '../compare/own-changes';
import { thingName } from '../compare/things';
import type { Edit, PlanChange, PlanValue, Thing } from '../compare/types';
import { type DisplayUnits, showApart, showFigure, significant } from '../plan/display';
import { type Figure, referenceFigure } from '../plan/figure';

/** An edit in a line: its chief change, of what follows from it the one that is about that, and how many more go with it. */
export function editText(edit: Edit, units: DisplayUnits, follows?: Told): string {
  const [first, ...rest] = follows ? ownChangesFirst(edit, follows) : edit.changes;
  const more = rest.length === 0 ? '' : ` (and ${rest.length} more)`;
  return `${changeText(first, units)}${more}`;
}

/** A change in a line, without a full stop: `lot G5 moved from R2-gala to R4-braeburn, 81 bins`. */
export function changeText(change: PlanChange, units: DisplayUnits): string {
  const { kind, things, before, after, amount } = change;
  const [first, second, third] = things;
  const name = thingName(first);
  const size = amount === undefined ? '' : `, ${show(amount, units)}`;
  switch (kind) {
    case 'added':
      return `${name} added${after ? withMoved(after, amount, 'into', units) : size}`;
    case 'removed':
      return `${name} removed${before ? withMoved(before, amount, 'out of', units) : size}`;
    case 'lot-moved':
      return `${name} moved from ${second?.id ?? ''} to ${third?.id ?? ''}${size}`;
    case 'bins-changed':
      return binsText(change, first, second, units);
    case 'demand-shifted': {
      const weeks = Number(amount?.value ?? 0);
      const by = `${Math.abs(weeks)} ${Math.abs(weeks) === 1 ? 'week' : 'weeks'}`;
      return `${name} ${by} ${weeks > 0 ? 'later' : 'earlier'}, ${show(before, units)} to ${show(after, units)}`;
    }
    case 'demand-changed':
      return `${name}: ${fromTo(before, after, units)} in all, ${change.key ?? ''}`;
    case 'pin-changed':
      return pinText(first, before, after, units);
    case 'fill-moved':
      return `${name} moved from room ${show(before, units)} to room ${show(after, units)}`;
    case 'allowance-changed':
      return `${name}: findings that comments allow: ${fromTo(before, after, units)}`;
    default:
      return `${name}: ${change.key ?? ''} ${fromTo(before, after, units)}`;
  }
}

/** Bins of a fill that came or went, some or all of which are told as moved. */
function withMoved(
  all: PlanValue,
  own: PlanValue | undefined,
  way: 'into' | 'out of',
  units: DisplayUnits,
): string {
  const moved = Number(all.value) - Number(own?.value ?? 0);
  const told = moved === all.value ? 'all' : `${show({ ...all, value: moved }, units)} of them`;
  return `, ${show(all, units)}, ${told} moved ${way} it`;
}

function binsText(
  { key, before, after, amount }: PlanChange,
  lot: Thing,
  fill: Thing | undefined,
  units: DisplayUnits,
): string {
  const name = thingName(lot);
  if (!fill) return `${name}: ${key === 'received' ? 'received ' : ''}${fromTo(before, after, units)}`;
  if (amount) {
    const more = Number(amount.value);
    const bins = show({ ...amount, value: Math.abs(more) }, units).replace(' ', ' more ');
    return `${name}: ${bins} ${more > 0 ? 'put into' : 'taken out of'} ${fill.id}`;
  }
  if (!before) return `${name} put into ${fill.id}, ${show(after, units)}`;
  if (!after) return `${name} taken out of ${fill.id}, ${show(before, units)}`;
  return `${name} in ${fill.id}: ${fromTo(before, after, units)}`;
}

function pinText(
  fill: Thing,
  before: PlanValue | undefined,
  after: PlanValue | undefined,
  units: DisplayUnits,
): string {
  const name = thingName(fill);
  if (!before) return `${name} pinned to ${show(after, units)}`;
  if (!after) return `${name}: its pin to ${show(before, units)} taken out`;
  return `${name} pinned to ${show(after, units)}, ${show(before, units)} before`;
}

/** `12 → 14 kW`, `set to 14 kW`, `12 kW left out`. */
function fromTo(before: PlanValue | undefined, after: PlanValue | undefined, units: DisplayUnits): string {
  if (!before) return `set to ${show(after, units)}`;
  if (!after) return `${show(before, units)} left out`;
  const [was, is] = shownApart(before, after, units);
  const [number, ...unit] = was.split(' ');
  // The unit once, where it is the same.
  const isSameUnit = unit.length > 0 && typeof before.value === 'number' && is.endsWith(` ${unit.join(' ')}`);
  return `${isSameUnit ? number : was} → ${is}`;
}

/** Both as a reader wants them; numbers that differ with as many digits as it takes to tell them apart. */
function shownApart(before: PlanValue, after: PlanValue, units: DisplayUnits): readonly [string, string] {
  const [was, is] = [figureOf(before), figureOf(after)];
  return was && is && was.unit === is.unit && was.value !== is.value
    ? showApart(was, is, units)
    : [show(before, units), show(after, units)];
}

function figureOf({ value, unit }: PlanValue): Figure | undefined {
  return typeof value === 'number' && unit !== undefined && unit !== '1'
    ? referenceFigure('', unit, value, SOURCE)
    : undefined;
}

/** A figure made to be shown has no source. */
export const SOURCE = { citation: '', known: 'common practice' } as const;

/** A value of the plan with its unit, as a reader wants it. */
export function show(value: PlanValue | undefined, units: DisplayUnits): string {
  if (!value) return '';
  if (typeof value.value !== 'number') return String(value.value);
  const figure = figureOf(value);
  return figure ? showFigure(figure, units) : significant(value.value);
}
