import { formatDay, formatWeek, type Week } from '../plan/dates';
import { showFigure } from '../plan/display';
import type { Claim, LoadKind, OrdersMeant } from '../plan/expect-model';
import type { Figure } from '../plan/figure';
import type { Plan } from '../plan/model';
import type { Given } from '../plan/span';
import { toldUnits } from '../plan/told-units';
import { counted } from '../plan/wording';

export type Show = (figure: Figure) => string;

/** Shows figures in the units asked for, or the plan's own. */
export function showerOf(plan: Plan): Show {
  const units = toldUnits(plan);
  return (figure) => showFigure(figure, units);
}

export const machineNames: Readonly<Record<LoadKind, string>> = {
  'scrubber-load': 'scrubber',
  'nitrogen-load': 'nitrogen source',
  'refrigeration-load': 'refrigeration group',
};

/** A promise in words, without its full stop; what is not written yet is left out. */
export function claimWords(claim: Claim, show: Show): string {
  switch (claim.kind) {
    case 'no-shortage':
      return `no shortage${ofOrders(claim)}${weeksMeant(claim)}`;
    case 'shortage':
      return [
        'cartons short',
        ofOrders(claim),
        weeksMeant(claim),
        `: ${limits(show, claim.atLeast, claim.atMost)}`,
      ].join('');
    case 'opens':
      return [
        `${name(claim.room)} opens`,
        claim.in ? ` in ${weekSpan(claim.in.value)}` : '',
        claim.after ? ` after ${formatWeek(claim.after.value)}` : '',
        claim.before ? ` before ${formatWeek(claim.before.value)}` : '',
        claim.beforeRoom ? ` before ${claim.beforeRoom.value}` : '',
      ].join('');
    case 'window':
      return `the window of ${name(claim.room)} is at least ${claim.atLeast ? counted(wholeWeeks(claim.atLeast), 'week') : '…'} wide`;
    case 'packhouse-use':
      return `the packhouse runs ${limits(show, undefined, claim.atMost)} of its bins${weeksMeant(claim)}`;
    case 'in-store':
      return [
        claim.bins ? `at least ${show(claim.bins)}` : limits(show, claim.atLeast, claim.atMost),
        ` of ${name(claim.variety)} in store on ${claim.on ? formatDay(claim.on.value) : '…'}`,
      ].join('');
    case 'grower-out':
      return `all fruit of ${name(claim.grower)} is packed by ${claim.by ? formatWeek(claim.by.value) : '…'}`;
    case 'no-finding':
      return `no finding ${name(claim.code)}`;
    case 'value':
      return `the schedule is worth ${limits(show, claim.atLeast, undefined)}`;
    default:
      return `${machineNames[claim.kind]} ${name(claim.machine)} is loaded ${limits(show, undefined, claim.atMost)}${weeksMeant(claim)}`;
  }
}

/** `at most 85 %`, `at least 10`, or both. */
function limits(show: Show, atLeast: Figure | undefined, atMost: Figure | undefined): string {
  const told = (figure: Figure) =>
    figure.unit === '%' ? `${Number(figure.value.toFixed(2))} %` : show(figure);
  const parts = [
    ...(atLeast ? [`at least ${told(atLeast)}`] : []),
    ...(atMost ? [`at most ${told(atMost)}`] : []),
  ];
  return parts.length === 0 ? 'any amount' : parts.join(' and ');
}

/** ` of Gala, first, for home`; empty for all orders. */
export function ofOrders({ variety, packClass, market }: OrdersMeant): string {
  const what = [variety?.value, packClass && `class ${packClass.value}`].filter(Boolean).join(', ');
  return `${what === '' ? '' : ` of ${what}`}${market ? ` for ${market.value}` : ''}`;
}

/** ` from 2027-W05 and before 2027-W20`; empty for the whole season. */
export function weeksMeant({ from, before }: Pick<OrdersMeant, 'from' | 'before'>): string {
  const parts = [
    ...(from ? [`from ${formatWeek(from.value)}`] : []),
    ...(before ? [`before ${formatWeek(before.value)}`] : []),
  ];
  return parts.length === 0 ? '' : ` ${parts.join(' and ')}`;
}

export function weekSpan({ first, last }: { readonly first: Week; readonly last: Week }): string {
  return first === last ? formatWeek(first) : `${formatWeek(first)} to ${formatWeek(last)}`;
}

/** Whole weeks: a week that has begun counts. */
export function wholeWeeks({ value }: Figure<'days'>): number {
  return Math.ceil(value / 7 - 1e-9);
}

function name(given: Given<string> | undefined): string {
  return given?.value ?? '…';
}

/** A share of capacity: whole per cent, with a decimal where it lies close to what it is held against. */
export function perCent(share: number, against?: number): string {
  const close = against !== undefined && Math.round(share) === Math.round(against) && share !== against;
  return `${close ? Number(share.toFixed(2)) : Math.round(share)} %`;
}
