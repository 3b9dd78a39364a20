import { formatDay, formatWeek } from '../plan/dates';
import type { Figure } from '../plan/figure';
import type { Overlay } from '../plan/scenario-model';
import type { PlaceNode, Span } from '../plan/span';
import type { PlanThing } from './things';
import type { PlanValue } from './types';

/** One value of an entry. */
export interface Field extends PlanValue {
  /** Its place; undefined where the model keeps none. */
  readonly at?: Span | undefined;
  /** False for a default, or what follows from another value of the entry. */
  readonly isGiven: boolean;
}

/** Keys of the model that hold weeks; whole numbers under all other keys of a given day are days. */
const WEEK_KEYS = new Set(['open', 'week', 'weeks', 'from', 'before', 'after', 'in', 'by']);
const DAY_KEYS = new Set([
  'starts',
  'ends',
  'picked',
  'tested',
  'knownBest',
  'firstBin',
  'lastBin',
  'sealed',
  'cool',
  'lowOxygen',
  'setPoint',
  'opened',
  'emptied',
  'taken',
  'day',
  'ready',
  'closed',
  'on',
]);
/** Lists of which the order says nothing. */
const UNORDERED = new Set(['treatments', 'closed', 'varieties', 'forMarkets', 'openBefore']);
/** What says where something stands, not what it says. */
const LEFT_OUT = new Set(['id', 'at', 'places', 'planned']);

/**
 * What an entry says, by the path of each value in the model (`coolerCapacity`, `lots.G4`, `byWeek.2026-W51`), in the
 * tool's own units. Text, order and units that say the same give the same fields; what is undefined is left out.
 */
export function fieldsOf(thing: PlanThing): Map<string, Field> {
  const fields = new Map<string, Field>();
  collect(thing, '', '', fields);
  const received = fields.get('receivedBins');
  // The sum of a lot's days is what its days say once more.
  if (received && 'receivedByDay' in thing && thing.receivedByDay)
    fields.set('receivedBins', { ...received, isGiven: false });
  return fields;
}

/** True where two entries say the same. */
export function sayTheSame(a: ReadonlyMap<string, Field>, b: ReadonlyMap<string, Field>): boolean {
  return differingPaths(a, b).length === 0;
}

/**
 * True where two things are alike value by value, so that their fields need not be collected to be held against each
 * other. What is not alike may still say the same: other units, another order.
 */
export function areAlike(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (isFigure(one) || isFigure(other))
    return isFigure(one) && isFigure(other) && one.value === other.value && one.unit === other.unit;
  if (isOverlay(one) || isOverlay(other))
    return isOverlay(one) && isOverlay(other) && OVERLAY_KEYS.every((key) => one[key] === other[key]);
  if (Array.isArray(one) || Array.isArray(other))
    return (
      Array.isArray(one) &&
      Array.isArray(other) &&
      one.length === other.length &&
      one.every((item, index) => areAlike(item, other[index]))
    );
  if (one instanceof Map || other instanceof Map)
    return (
      one instanceof Map &&
      other instanceof Map &&
      one.size === other.size &&
      [...one].every(([name, item]) => other.has(name) && areAlike(item, other.get(name)))
    );
  return objectsAlike(one as ByKey, other as ByKey);
}

type ByKey = Readonly<Record<string, unknown>>;

const OVERLAY_KEYS = ['how', 'kind', 'id', 'says'] as const;

function objectsAlike(one: ByKey, other: ByKey): boolean {
  for (const key in one) if (!LEFT_OUT.has(key) && !areAlike(one[key], other[key])) return false;
  for (const key in other) if (other[key] !== undefined && !LEFT_OUT.has(key) && !(key in one)) return false;
  return true;
}

/** Paths of the values that differ. A value that follows from another one of the entry is not told by itself. */
export function differingPaths(a: ReadonlyMap<string, Field>, b: ReadonlyMap<string, Field>): string[] {
  const paths = new Set([...a.keys(), ...b.keys()]);
  return [...paths].filter((path) => {
    const [one, other] = [a.get(path), b.get(path)];
    if (one && other && sameValue(one, other)) return false;
    return (one?.isGiven ?? false) || (other?.isGiven ?? false);
  });
}

/** Units that convert leave the last digits different: 61 ft and 18.5928 m are the same. */
const SAME_SHARE = 1e-9;

export function sameValue(a: PlanValue, b: PlanValue): boolean {
  if (typeof a.value !== 'number' || typeof b.value !== 'number') return a.value === b.value;
  return a.unit === b.unit && Math.abs(a.value - b.value) <= SAME_SHARE * Math.max(1, Math.abs(a.value));
}

function collect(value: unknown, path: string, key: string, into: Map<string, Field>, at?: Span): void {
  if (value === undefined || value === null) return;
  if (typeof value !== 'object') into.set(path, { ...leaf(value, key), at, isGiven: true });
  else if (isFigure(value)) into.set(path, figureField(value));
  else if (Array.isArray(value)) collectList(value, path, key, into);
  else collectMap(value, path, key, into, at);
}

/** Numbers as keys are weeks of demand and days of receipts. */
function dateOf(key: string, name: number): string {
  if (key === 'byWeek') return formatWeek(name);
  return key === 'receivedByDay' ? formatDay(name) : String(name);
}

function collectMap(value: object, path: string, key: string, into: Map<string, Field>, at?: Span): void {
  if (value instanceof Map) {
    for (const [name, one] of value) {
      const inner = typeof name === 'number' ? dateOf(key, name) : String(name);
      collect(one, join(path, inner), inner, into);
    }
    return;
  }
  if (isOverlay(value)) {
    into.set(path, {
      value: `${value.how} ${value.kind} ${value.id} ${value.says}`,
      at: value.at,
      isGiven: true,
    });
    return;
  }
  const given = value as { readonly value?: unknown; readonly at?: Span };
  if ('value' in given && 'at' in given) {
    collect(given.value, path, key, into, given.at);
    return;
  }
  const span = spanText(value, key);
  if (span !== undefined) {
    into.set(path, { value: span, at, isGiven: true });
    return;
  }
  for (const [name, one] of Object.entries(value))
    if (!LEFT_OUT.has(name)) collect(one, join(path, name), name, into);
}

function collectList(list: readonly unknown[], path: string, key: string, into: Map<string, Field>): void {
  if (isFillLots(list)) {
    for (const { lot, bins } of list) {
      const known = into.get(join(path, lot.value));
      const value = bins.value + (typeof known?.value === 'number' ? known.value : 0);
      into.set(join(path, lot.value), { ...figureField(bins), value, at: lot.at });
    }
    return;
  }
  if (list.length === 0) return;
  const items = list.map((item) => {
    const inner = new Map<string, Field>();
    collect(item, '', key, inner);
    return [...inner].map(([name, one]) => textOf(name, one)).join(' ');
  });
  if (UNORDERED.has(key)) items.sort();
  const [first] = list as readonly { readonly at?: Span }[];
  into.set(path, { value: items.join(', '), at: first?.at, isGiven: true });
}

/** An entry that a scenario lays over the plan: what it says counts, not where it stands. */
function isOverlay(value: object): value is Overlay {
  return 'how' in value && 'says' in value;
}

interface FillLotLike {
  readonly lot: { readonly value: string; readonly at: Span };
  readonly bins: Figure;
}

function isFillLots(list: readonly unknown[]): list is readonly FillLotLike[] {
  return (
    list.length > 0 &&
    list.every((one) => typeof one === 'object' && one !== null && 'lot' in one && 'bins' in one)
  );
}

function textOf(name: string, { value, unit }: Field): string {
  const shown = typeof value === 'number' ? Number(value.toPrecision(10)) : value;
  return `${name === '' ? '' : `${name} `}${shown}${unit === undefined || unit === '1' ? '' : ` ${unit}`}`;
}

function isFigure(value: object): value is Figure {
  return 'origin' in value && 'unit' in value && 'value' in value;
}

function figureField({ value, unit, origin }: Figure): Field {
  return origin.kind === 'plan'
    ? { value, unit, at: origin.at, isGiven: true }
    : { value, unit, isGiven: false };
}

function leaf(value: unknown, key: string): PlanValue {
  if (typeof value === 'number' && WEEK_KEYS.has(key)) return { value: formatWeek(value) };
  if (typeof value === 'number' && DAY_KEYS.has(key)) return { value: formatDay(value) };
  return { value: value as PlanValue['value'] };
}

/** Two days or weeks, first and last, as the plan writes them. */
function spanText(value: object, key: string): string | undefined {
  const { first, last } = value as { readonly first?: unknown; readonly last?: unknown };
  if (typeof first !== 'number' || typeof last !== 'number') return undefined;
  const format = WEEK_KEYS.has(key) ? formatWeek : formatDay;
  return first === last ? format(first) : `${format(first)}..${format(last)}`;
}

function join(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}

/** The key of a value in the plan's text, `refrigeration.capacity`; undefined where its place is not known. */
export function keyAt(places: PlaceNode | undefined, at: Span | undefined): string | undefined {
  if (!places || !at) return undefined;
  for (const [name, node] of places.entries ?? []) {
    if (sameSpan(node.span, at) || (node.key && sameSpan(node.key, at))) return name;
    if (!contains(node.span, at)) continue;
    const inner = keyAt(node, at);
    return inner === undefined ? name : `${name}.${inner}`;
  }
  return undefined;
}

function sameSpan(a: Span, b: Span): boolean {
  return a.file === b.file && a.start === b.start && a.end === b.end;
}

function contains(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}
