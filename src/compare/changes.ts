import { ALLOWED, type Aligned } from './align';
import { demandChange } from './demand-change';
import type { Differing } from './differing';
import { type Field, keyAt } from './fields';
import { type LotMoves, lotMoves } from './lot-moves';
import { placesOf, toldKey } from './places';
import type { PlanThing } from './things';
import type { PlanChange, PlanChangeKind, PlanValue, Thing } from './types';

/** Every change of the plan, a thing after the other; bins that went from fill to fill as one. */
export function planChanges({ differing }: Aligned): PlanChange[] {
  const all = [...differing.values()];
  const moves = lotMoves(all);
  return [...moves.changes, ...all.flatMap((one) => changesOf(one, moves))];
}

/** Changes of one thing, but for those that are told already: `lots.G4` of a fill whose bins were all moved. */
function changesOf(one: Differing, moves: LotMoves): PlanChange[] {
  const { thing, old, now } = one;
  if (!old || !now) return [cameOrWent(one, moves)];
  const demand = thing.kind === 'demand' ? demandChange(one) : undefined;
  const isTold = (path: string) => moves.left.get(toldKey(thing, path)) === 0 || demand?.told.includes(path);
  const left = one.paths.filter((path) => !isTold(path));
  return [...(demand ? [demand.change] : []), ...left.map((path) => fieldChange(one, path, moves))];
}

function cameOrWent({ thing, old, now, oldFields, nowFields }: Differing, moves: LotMoves): PlanChange {
  const fields = now ? nowFields : oldFields;
  return {
    kind: now ? 'added' : 'removed',
    things: [thing],
    ...(thing.kind === 'fills' ? binsOf(thing, fields, moves, now !== undefined) : sizeOf(thing, fields)),
    ...placesOf(old?.at, now?.at),
  };
}

/** Bins of a lot that came or went. */
function sizeOf({ kind }: Thing, fields: ReadonlyMap<string, Field>): Pick<PlanChange, 'amount'> {
  const amount = kind === 'lots' ? (fields.get('receivedBins') ?? fields.get('expectedBins')) : undefined;
  return amount ? { amount } : {};
}

/** Bins of a fill that came or went: how many were not moved from or to another fill, and all, where some were. */
function binsOf(
  fill: Thing,
  fields: ReadonlyMap<string, Field>,
  { left }: LotMoves,
  isNew: boolean,
): Pick<PlanChange, 'amount' | 'before' | 'after'> {
  let [all, own] = [0, 0];
  for (const [path, { value }] of fields) {
    if (!path.startsWith('lots.') || typeof value !== 'number') continue;
    all += value;
    own += Math.abs(left.get(toldKey(fill, path)) ?? value);
  }
  const amount: PlanValue = { value: own, unit: 'bins' };
  if (own === all) return { amount };
  const whole: PlanValue = { value: all, unit: 'bins' };
  return { amount, ...(isNew ? { after: whole } : { before: whole }) };
}

const BINS = new Set(['receivedBins', 'expectedBins']);

function kindOf({ thing }: Differing, path: string): PlanChangeKind {
  if (path === ALLOWED) return 'allowance-changed';
  switch (thing.kind) {
    case 'lots':
      return BINS.has(path) ? 'bins-changed' : 'key-changed';
    case 'fills':
      if (path.startsWith('lots.')) return 'bins-changed';
      if (path === 'open') return 'pin-changed';
      if (path === 'regime') return 'regime-changed';
      return path === 'room' ? 'fill-moved' : 'key-changed';
    case 'varieties':
    case 'regimes':
      return 'override-changed';
    case 'demand':
      return path === 'wanted' ? 'demand-changed' : 'key-changed';
    default:
      return 'key-changed';
  }
}

function fieldChange(one: Differing, path: string, moves: LotMoves): PlanChange {
  const { thing, old, now, oldFields, nowFields } = one;
  const [before, after] = [oldFields.get(path), nowFields.get(path)];
  const lot: Thing[] =
    thing.kind === 'fills' && path.startsWith('lots.')
      ? [{ kind: 'lots', id: path.slice('lots.'.length) }]
      : [];
  const key = path === ALLOWED ? path : (keyIn(now, after) ?? keyIn(old, before) ?? inWords(path));
  const beyondMoved = moves.left.get(toldKey(thing, path));
  return {
    kind: kindOf(one, path),
    things: lot[0] ? [lot[0], thing] : [thing],
    key,
    ...(before && { before: plainValue(before) }),
    ...(after && { after: plainValue(after) }),
    ...(beyondMoved !== undefined && { amount: { value: beyondMoved, unit: 'bins' as const } }),
    ...placesOf(before?.at ?? old?.at, after?.at ?? now?.at),
  };
}

function keyIn(thing: PlanThing | undefined, field: Field | undefined): string | undefined {
  return keyAt(thing?.places, field?.at);
}

/** The model's name of a value as the plan language would spell it. */
function inWords(path: string): string {
  return path.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function plainValue({ value, unit }: Field): PlanValue {
  return { value, ...(unit !== undefined && { unit }) };
}
