import type { Span } from './span';

/** How well a reference value is known. Shown wherever the value is used. */
export type HowKnown = 'published' | 'common practice' | 'from memory';

/** Where a reference value comes from. `citation` names the publication and, where it has one, its address. */
export interface Source {
  readonly citation: string;
  readonly known: HowKnown;
}

/** The units figures are computed in. US units exist only at the edges: reading a plan and printing a result. */
export type Unit =
  | '1'
  | '%'
  | 'ppm'
  | 'm'
  | 'm2'
  | 'm3'
  | 'kg'
  | 't'
  | 'degC'
  | 'K'
  | 'Pa'
  | 'N'
  | 'W'
  | 'kW'
  | 'kJ'
  | 'MJ'
  | 'W/m2K'
  | 'kJ/kgK'
  | 'kJ/m3'
  | 'W/t'
  | 'min'
  | 'h'
  | 'days'
  | 'weeks'
  | 'months'
  | 'm3/h'
  | 'kg/day'
  | 'kg/t/day'
  | 'kg/m3'
  | 'mg/kg/h'
  | 'mg/mL'
  | 'kg/day/%'
  | '1/h'
  | '1/day'
  | 'N/month'
  | 'places'
  | 'bins'
  | 'bins/week'
  | 'bins/day'
  | 'cartons'
  | 'cartons/week'
  | 'money';

/** Where a figure's value comes from; the whole chain is what `explain` prints. */
export type Origin =
  /** Written in the plan; `text` as the planner wrote it, `source` where the planner says the value is from. */
  | { readonly kind: 'plan'; readonly at: Span; readonly text: string; readonly source?: string }
  /** Counted from the plan (a sum over lots, a number of rooms); `places` are some of what was counted. */
  | { readonly kind: 'counted'; readonly what: string; readonly places: readonly Span[] }
  /** A reference value or a stated default. */
  | { readonly kind: 'reference'; readonly source: Source }
  /** Computed by `formula` from `inputs`; the formula's names are the inputs' keys. */
  | {
      readonly kind: 'computed';
      readonly formula: string;
      readonly inputs: Readonly<Record<string, Figure>>;
      readonly source?: Source;
    };

/** The formula of what stands in the middle of a range that a source gives. */
export const MIDDLE_OF_RANGE = '(low + high) / 2';

/** A number that knows its name, its unit and how it came about. */
export interface Figure<U extends Unit = Unit> {
  readonly name: string;
  readonly value: number;
  readonly unit: U;
  readonly origin: Origin;
  /** For a figure that is integrated or counted step by step: what a pocket calculator can follow. */
  readonly beside?: readonly Beside[];
}

/** What stands beside a figure that is integrated or counted step by step. */
export interface Beside {
  /** The same figure by a formula, to be compared with it; or the terms that are in it. */
  readonly kind: 'closed form' | 'terms';
  readonly figure: Figure;
  /** Where a difference comes from, or what the terms say: a sentence without its full stop. */
  readonly because: string;
}

/** The figure with what stands beside it; what is undefined is left out. */
export function withBeside<U extends Unit>(
  figure: Figure<U>,
  ...beside: readonly (Beside | undefined)[]
): Figure<U> {
  const known = beside.filter((one) => one !== undefined);
  if (known.length === 0) return figure;
  const { name, value, unit, origin, beside: before = [] } = figure;
  return { name, value, unit, origin, beside: [...before, ...known] };
}

/**
 * The figure with another name or value. A figure is not spread: one that the planner wrote is held in a class
 * (`WrittenFigure`), and where it comes from would be left behind.
 */
export function figureWith<U extends Unit>(
  figure: Figure<U>,
  { name = figure.name, value = figure.value }: { readonly name?: string; readonly value?: number },
): Figure<U> {
  const { unit, origin, beside } = figure;
  return beside ? { name, value, unit, origin, beside } : { name, value, unit, origin };
}

/** The same by a formula; undefined where there is none, or where it comes to no number. */
export function closedForm(figure: Figure | undefined, because: string): Beside | undefined {
  return figure && Number.isFinite(figure.value) ? { kind: 'closed form', figure, because } : undefined;
}

/** The terms that are in a figure. */
export function terms(figure: Figure | undefined, because: string): Beside | undefined {
  return figure && Number.isFinite(figure.value) ? { kind: 'terms', figure, because } : undefined;
}

/** A value the planner wrote. */
export function planFigure<U extends Unit>(
  name: string,
  unit: U,
  value: number,
  at: Span,
  text: string,
  source?: string,
): Figure<U> {
  const origin: Origin = source ? { kind: 'plan', at, text, source } : { kind: 'plan', at, text };
  return { name, value, unit, origin };
}

/** A reference value, a physical constant or a default, with its source. */
export function referenceFigure<U extends Unit>(
  name: string,
  unit: U,
  value: number,
  source: Source,
): Figure<U> {
  return { name, value, unit, origin: { kind: 'reference', source } };
}

/** A number counted from the plan. */
export function countedFigure<U extends Unit>(
  name: string,
  unit: U,
  value: number,
  what: string,
  places: readonly Span[] = [],
): Figure<U> {
  return { name, value, unit, origin: { kind: 'counted', what, places } };
}

type Values<I extends Readonly<Record<string, Figure>>> = { readonly [K in keyof I]: number };

/**
 * A figure computed from others. `formula` is what the planner reads; it is written so that a general mathematics
 * library (mathjs) can evaluate it with the inputs' keys as variables: + - * / ^, floor, ceil, min, max, log
 * (natural), exp, sqrt, and `a ? b : c`. A test re-evaluates the formula of every figure of the sample plans that way,
 * so text and computation cannot drift apart.
 */
export function compute<U extends Unit, I extends Readonly<Record<string, Figure>>>(
  name: string,
  unit: U,
  formula: string,
  inputs: I,
  calculate: (values: Values<I>) => number,
  source?: Source,
): Figure<U> {
  // A plain loop: this runs some thousand times for each room.
  const values: { [K in keyof I]?: number } = {};
  for (const key in inputs) {
    const figure = inputs[key];
    if (figure) values[key] = figure.value;
  }
  const value = calculate(values as Values<I>);
  const origin: Origin = source
    ? { kind: 'computed', formula, inputs, source }
    : { kind: 'computed', formula, inputs };
  return { name, value, unit, origin };
}
