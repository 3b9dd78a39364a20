import type { Dropped } from '../../fill/drop';
import type { NewFill } from '../../plan/add-fills';
import type { ClaimKind } from '../../plan/expect-model';
import type { Plan, Room } from '../../plan/model';
import type { ComputedSeason, Finding } from '../types';

/**
 * What of a proposal is to blame for a finding: the lot it names, the lot that sets the edge of an empty window, the
 * fill or room it is about, or of the fills on a piece of shared equipment the smallest. Empty where nothing of the
 * proposal can be named.
 */
export function culpritsOf(
  season: ComputedSeason,
  fills: readonly NewFill[],
  { code, fingerprint }: Finding,
): Dropped[] {
  const [named = '', part] = fingerprint
    .slice(code.length + 1)
    .replace(/#\d+$/, '')
    .split('/');
  const about = code === 'expectation-broken' ? (promisedOf(season.plan, named) ?? named) : named;
  const mine = fills.find(({ id, room }) => id === about || room === about);
  if (mine) return [{ room: mine.room, lot: lotToBlame(season, mine, code, part) }];
  const lot = fills.filter(({ lots }) => lots.some((one) => one.lot === about));
  if (lot.length > 0) return lot.map(({ room }) => ({ room, lot: about }));
  const onIt = fills.filter(({ room }) => uses(season.plan.rooms.get(room), about));
  const beside = onIt.length > 0 ? onIt : ofOneVariety(season, fills, about);
  const [smallest] = [...(beside.length > 0 ? beside : fills)].sort(
    (a, b) => binsOf(a) - binsOf(b) || (a.room < b.room ? -1 : 1),
  );
  return smallest ? [{ room: smallest.room }] : [];
}

/** The room or piece of equipment that a promise is about. */
function promisedOf({ expectations }: Plan, id: string): string | undefined {
  const [claim] = expectations.get(id)?.claims ?? [];
  if (claim && 'machine' in claim) return claim.machine?.value;
  return claim && 'room' in claim ? claim.room?.value : undefined;
}

/** Findings that the week makes in which a schedule opens a room, or how it deals out fruit: another schedule may not. */
const OF_SCHEDULE = new Set(['demand-short', 'weight-loss-high']);

/** Promises of what the weeks and sales of a schedule come to. */
const CLAIMS_OF_SCHEDULE: ReadonlySet<ClaimKind> = new Set([
  'no-shortage',
  'shortage',
  'opens',
  'packhouse-use',
  'in-store',
  'grower-out',
  'value',
] as const);

/** Findings that no fruit put into a room can make: that nothing is stored for an order is told once anything is stored. */
const NOT_OF_FILLS = new Set(['demand-without-supply']);

export function mayComeOfFills({ code }: Finding): boolean {
  return !NOT_OF_FILLS.has(code);
}

/**
 * Whether a finding hangs on the release schedule alone: by its kind, because it is a promise of weeks and sales, or
 * because it is about a fill, room or equipment that the proposal has nothing to do with, so that only other weeks can
 * have made it.
 */
export function isOfSchedule(
  { plan }: ComputedSeason,
  fills: readonly NewFill[],
  { code, fingerprint }: Finding,
): boolean {
  if (OF_SCHEDULE.has(code)) return true;
  const about = aboutOf(code, fingerprint);
  if (code === 'expectation-broken')
    return plan.expectations.get(about)?.claims.some(({ kind }) => CLAIMS_OF_SCHEDULE.has(kind)) === true;
  if (fills.some(({ id, room }) => id === about || room === about)) return false;
  if (plan.fills.has(about) || plan.rooms.has(about)) return true;
  const equipment = [plan.scrubbers, plan.nitrogenSources, plan.refrigerationGroups];
  if (equipment.some((one) => one.has(about)))
    return !fills.some(({ room }) => uses(plan.rooms.get(room), about));
  return false;
}

/** What a finding is about: an identifier of the plan, mostly. */
export function aboutOf(code: string, fingerprint: string): string {
  return fingerprint.slice(code.length + 1).split(/[/#]/)[0] ?? '';
}

function lotToBlame(
  { keeping }: ComputedSeason,
  fill: NewFill,
  code: string,
  part: string | undefined,
): string | undefined {
  const isAdded = (lot: string | undefined) => fill.lots.some((one) => one.lot === lot);
  if (isAdded(part)) return part;
  if (code !== 'window-empty' && code !== 'pin-outside-window') return undefined;
  const weakest = keeping.get(fill.id)?.window?.latest.lot?.id;
  return isAdded(weakest) ? weakest : undefined;
}

function uses(room: Room | undefined, equipment: string): boolean {
  return [room?.scrubber, room?.nitrogen, room?.refrigerationGroup].some((one) => one?.value === equipment);
}

/** Fills that hold a variety which the fill that the finding is about holds too: they are sold to the same orders. */
function ofOneVariety({ filled }: ComputedSeason, fills: readonly NewFill[], about: string): NewFill[] {
  const varieties = new Set(filled.get(about)?.lots.map(({ variety }) => variety.name));
  return fills.filter(({ id }) => filled.get(id)?.lots.some(({ variety }) => varieties.has(variety.name)));
}

function binsOf({ lots }: NewFill): number {
  return lots.reduce((sum, { bins }) => sum + bins, 0);
}
