import { counted } from '../plan/wording';
import type { ReleaseReport } from './schemas';
import { whole } from './text-cells';

type Room = ReleaseReport['rooms'][number];
type Other = NonNullable<Room['reason']['earlier']>;
type Shortage = ReleaseReport['shortages'][number];

/** Why a room opens in its week, in a line; of one that has been opened, when it was. */
export function reasonText({ opens, reason }: Pick<Room, 'opens' | 'reason'>, currency: string): string {
  const { earlier, later, instead, closedCosts, opened } = reason;
  if (opened)
    return `was opened ${opened.notRecorded ? 'by' : 'on'} ${opened.on}: its week is no longer a choice`;
  if (opens === undefined) {
    if (!instead) return 'stays shut: it has no week in which it may open';
    return `stays shut: ${otherText('opening it in its best week', instead, currency)}${pinWay(instead)}`;
  }
  const parts = [
    earlier && otherText('a week earlier', earlier, currency),
    later && otherText('a week later', later, currency),
    closedCosts === undefined ? undefined : `left shut ${costText(closedCosts, currency)}`,
  ];
  return parts.filter((part) => part !== undefined).join('; ');
}

/** Where nothing but its pin keeps a room from a week that brings more. */
function pinWay({ week, costs, breaks }: Other): string {
  const isPinAlone = breaks.length > 0 && breaks.every(({ kind }) => kind === 'pin');
  return isPinAlone && costs !== undefined && costs <= -0.5
    ? `: move its pin to ${week}, or take the pin out`
    : '';
}

/** What another week would cost and break. */
export function otherText(what: string, other: Other, currency: string): string {
  const breaks = other.breaks.map(({ message }) => message).join(', and ');
  const inWeek = `${what} (${other.week})`;
  if (other.costs === undefined) return `${inWeek} cannot be: ${breaks}`;
  const cost = `${costText(other.costs, currency)}${shortText(other.short)}`;
  return breaks === '' ? `${inWeek} ${cost}` : `${inWeek} ${cost}, but ${breaks}`;
}

function costText(costs: number, currency: string): string {
  if (Math.abs(costs) < 0.5) return 'costs nothing';
  return costs > 0 ? `costs ${currency} ${whole(costs)}` : `brings ${currency} ${whole(-costs)} more`;
}

/** The demand that goes short by most; the others are counted. */
function shortText(short: Other['short']): string {
  const [most, ...others] = [...short].sort((a, b) => b.cartons - a.cartons);
  if (!most) return '';
  const [first, last] = [most.weeks[0], most.weeks.at(-1)];
  const weeks = first === last ? `in ${first}` : `in ${first} to ${last}`;
  const more = others.reduce((sum, one) => sum + one.cartons, 0);
  return ` (${most.demand} short by ${counted(most.cartons, 'carton')} more ${weeks}${more > 0 ? `, others by ${whole(more)}` : ''})`;
}

/** A second room that must move with the first. */
function alsoText(also: NonNullable<Shortage['weeks'][number]['cure']['room']>['also']): string {
  if (!also) return '';
  const now = also.insteadOf === undefined ? 'which stays shut now' : `not ${also.insteadOf}`;
  return `, and ${also.room} in ${also.opens}, ${now}`;
}

/**
 * What would cure a demand's shortage: a line for its week that is short by most, of weeks as short for one that anything cures. What costs nothing comes
 * first, then more packing, whose cost no plan tells, then a room that costs something, then a pin to let go of; a smaller order cures nothing and is named only for what nothing else does.
 */
export function cureText({ demand, weeks }: Shortage, currency: string): string {
  const isCured = ({ cure: { room, packing, unpin } }: (typeof weeks)[number]) =>
    room || packing || unpin ? 1 : 0;
  const [worst] = [...weeks].sort(
    (a, b) => Math.round(b.cartonsShort) - Math.round(a.cartonsShort) || isCured(b) - isCured(a),
  );
  if (!worst) return '';
  const { room, packing, unpin, smallerOrder, nothingInReach, noSupply } = worst.cure;
  const short = worst.cartonsShort;
  const ways = [
    room && roomWay(room, short, currency),
    packing && packingWay(packing, short),
    unpin && unpinWay(unpin, short, currency),
  ]
    .filter((way) => way !== undefined)
    .sort((a, b) => a.rank - b.rank);
  const texts = ways.map(({ text }) => text);
  const start = `${demand} in ${worst.week}, ${whole(worst.cartonsShort)} short: `;
  if (texts.length === 0) {
    // Something else than another week is the cause: what to do about it goes first.
    if (noSupply)
      return `${start}${noSupply.why}; ${noSupply.cure.replace(/, or buy in$/, '')}; or buy in, or agree on ${counted(smallerOrder, 'carton')} less`;
    const why = nothingInReach
      ? 'no room that may open in time gives it'
      : 'no room moved alone or with one other, and no more packing, makes it noticeably smaller';
    return `${start}${why}; ${policyText(worst.cure, currency)}buy in, or agree on ${counted(smallerOrder, 'carton')} less`;
  }
  return `${start}${texts.join('; or ')}${restText(worst.cure, currency)}`;
}

/** What stays short with every pin kept, what of the plan's own policy gives it, and buying in last. */
function restText(cure: CureOfWeek, currency: string): string {
  const { unpin, room, packing, smallerOrder } = cure;
  const cartons = whole(smallerOrder);
  if (cartons === '0') return '';
  const policy = policyText(cure, currency);
  if (unpin && !room && !packing)
    return `; or, with the pin kept, ${policy}buy in, or agree on ${cartons} cartons less`;
  const stay = `; ${unpin ? 'with the pin kept ' : ''}${cartons} stay short`;
  return policy === ''
    ? `${stay}, to buy in or to take off the order`
    : `${stay}: ${policy}buy in, or take them off the order`;
}

/** What another value of the plan would give, each tried; weighed by the planner, for fruit in cold air does not wait for nothing. */
function policyText({ policy = [] }: CureOfWeek, currency: string): string {
  const ways = policy.map(({ key, days, insteadOf, cartonsInWeek, room }) => {
    const value = `with \`${key}: ${days} days\` (now ${insteadOf})`;
    return `${value}${room ? policyRoom(room, currency) : ''} ${counted(cartonsInWeek, 'carton')} of it are met`;
  });
  return ways.map((way) => `${way}; or `).join('');
}

function policyRoom(room: NonNullable<PolicyWay['room']>, currency: string): string {
  if (room.insteadOf === room.opens) return ` and ${room.room} packed out over more weeks`;
  const now = room.insteadOf === undefined ? 'which stays shut now' : `not ${room.insteadOf}`;
  return ` and ${room.room} opened in ${room.opens}, ${now}${alsoText(room.also)} (${costText(room.costs, currency)}),`;
}

type PolicyWay = NonNullable<CureOfWeek['policy']>[number];
type CureOfWeek = Shortage['weeks'][number]['cure'];

/** How much of what is short in the week a way covers, and what it gives the order in all where that is more. */
function coverText(inWeek: number, inAll: number, short: number): string {
  const rest = inAll >= inWeek + 0.5 ? `, ${whole(inAll)} in all its weeks` : '';
  if (inWeek >= short - 0.5) return `all ${counted(short, 'carton')}${rest}`;
  return `${whole(inWeek)} of ${counted(short, 'carton')}${rest}`;
}

function roomWay(room: NonNullable<CureOfWeek['room']>, short: number, currency: string) {
  const now = room.insteadOf === undefined ? 'which stays shut now' : `not ${room.insteadOf}`;
  const text = `${room.room} opened in ${room.opens}, ${now}${alsoText(room.also)} (${coverText(room.cartonsInWeek, room.cartons, short)}, ${costText(room.costs, currency)})`;
  return { text, rank: room.costs < 0.5 ? 0 : 2 };
}

function packingWay({ week, bins, cartons }: NonNullable<CureOfWeek['packing']>, short: number) {
  const text = `${whole(bins)} bins more run in ${week} (${coverText(cartons, cartons, short)}, at what the longer hours cost)`;
  return { text, rank: 1 };
}

function unpinWay(unpin: NonNullable<CureOfWeek['unpin']>, missing: number, currency: string) {
  const { fill, pinned, opens, cartonsStillShort, cartons, cartonsInWeek, costs, also } = unpin;
  const left = whole(cartonsStillShort);
  const short = left === '0' ? '0 stay short' : `${left} stay short in the season`;
  const pins =
    also?.pinned === undefined
      ? `the pin of ${fill} (${pinned})`
      : `the pins of ${fill} (${pinned}) and ${also.fill} (${also.pinned})`;
  const opened =
    also === undefined ? `opened in ${opens}` : `opened in ${opens} and ${also.fill} in ${also.opens}`;
  const text = `take out ${pins}: ${opened}, ${short} (${coverText(cartonsInWeek, cartons, missing)}, ${costText(costs, currency)})`;
  return { text, rank: 3 };
}
