import { z } from 'zod';
import { type Dimension, quantityPattern, unitOf } from '../quantity';
import { IDENTIFIER } from './identifier';
import { type Counted, MOST_COUNTED } from './most-counted';

/**
 * The kinds of value a plan holds. Only constructs that mean the same in zod and in JSON Schema are used: strict
 * objects, patterns without flags, no transforms, no coercion, no refinements.
 */

interface About {
  /** What the value means, in one or two sentences. */
  readonly meaning: string;
  readonly example: string | number | boolean;
  /** What holds where the key is left out. */
  readonly default?: string;
}

/** Facts about a key that travel into the JSON Schema (as `x-` keys) and from there into the reference and hovers. */
function describe<T extends z.ZodType>(type: T, about: About, more: Record<string, unknown> = {}): T {
  return type.meta({
    description: about.meaning,
    examples: [about.example],
    ...(about.default === undefined ? {} : { 'x-default': about.default }),
    ...more,
  }) as T;
}

/** What a quantity must lie within, in the dimension's own unit: what a pattern over its text cannot say. */
interface Limits {
  readonly above?: number;
  readonly least?: number;
  readonly most?: number;
}

const USUAL_LIMITS: Readonly<Record<Dimension, Limits>> = {
  length: { above: 0 },
  volume: { above: 0 },
  mass: { above: 0 },
  // No orchard, room or test goes beyond these.
  temperature: { least: -60, most: 60 },
  'temperature difference': { least: 0 },
  share: { least: 0, most: 100 },
  concentration: { least: 0 },
  pressure: { above: 0 },
  force: { least: 0 },
  power: { above: 0 },
  'heat transfer': { above: 0 },
  flow: { above: 0 },
  removal: { above: 0 },
  respiration: { least: 0 },
  transpiration: { above: 0 },
  // Ice has 2.1, water 4.19 and plastics 1 to 2.5 kJ/kgK; what lies beyond is a slip of the unit.
  'specific heat': { least: 0.3, most: 5 },
  density: { least: 100, most: 3000 },
  'heat of respiration': { least: 5, most: 20 },
  'short time': { above: 0 },
  'long time': { above: 0 },
};

/** A quantity with its unit in the text. `limits` replace those that are usual for its dimension. */
export function quantity(dimension: Dimension, about: About, limits: Limits = USUAL_LIMITS[dimension]) {
  return describe(z.string().regex(new RegExp(quantityPattern(dimension))), about, {
    'x-dimension': dimension,
    'x-unit': unitOf(dimension),
    ...(limits.above === undefined ? {} : { 'x-above': limits.above }),
    ...(limits.least === undefined ? {} : { 'x-least': limits.least }),
    ...(limits.most === undefined ? {} : { 'x-most': limits.most }),
  });
}

export function text(about: About) {
  return describe(z.string().min(1), about);
}

/** Beside values of the planner's own. */
export const sourceText = text({
  meaning: "Where the planner's own values come from. Shown wherever they are used.",
  example: 'own storage trials 2021 to 2025',
});

/** A number of bins or cartons, or of what there are few, from `least` on. */
export function count(of: Counted, least = 0) {
  return z.int().min(least).max(MOST_COUNTED[of]);
}

/** The same where it stands by a key of its own. */
export function wholeNumber(of: Counted, about: About, least = 0) {
  return describe(count(of, least), about);
}

export function number(about: About, least?: number, most?: number) {
  let type = z.number();
  if (least !== undefined) type = type.min(least);
  if (most !== undefined) type = type.max(most);
  return describe(type, about);
}

/** A thousand million: a carton costs less in any currency, and the solver of schedules is at ease with it. */
const MOST_MONEY = 1_000_000_000;

/** An amount of money, in the plan's currency. */
export function money(about: About) {
  return number(about, 0, MOST_MONEY);
}

export function oneOf<const T extends readonly [string, ...string[]]>(values: T, about: About) {
  return describe(z.enum(values), about);
}

const DAY = '\\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\\d|3[01])';
const WEEK = '\\d{4}-W(?:0[1-9]|[1-4]\\d|5[0-3])';

/** An ISO 8601 calendar date. */
export function day(about: About) {
  return describe(z.string().regex(new RegExp(`^${DAY}$`)), about, { 'x-kind': 'day' });
}

/** One day, or the first and last of several: `2026-09-03..2026-09-05`. */
export function daySpan(about: About) {
  return describe(z.string().regex(new RegExp(`^${DAY}(?:\\.\\.${DAY})?$`)), about, { 'x-kind': 'day-span' });
}

/** An ISO 8601 week. */
export function week(about: About) {
  return describe(z.string().regex(new RegExp(`^${WEEK}$`)), about, { 'x-kind': 'week' });
}

/** One week, or the first and last of several: `2026-W40..2027-W20`. */
export function weekSpan(about: About) {
  return describe(z.string().regex(new RegExp(`^${WEEK}(?:\\.\\.${WEEK})?$`)), about, {
    'x-kind': 'week-span',
  });
}

/** The sections whose entries can be named elsewhere in the plan. */
export type ReferableSection =
  | 'bins'
  | 'rooms'
  | 'scrubbers'
  | 'nitrogen'
  | 'refrigeration'
  | 'varieties'
  | 'regimes'
  | 'lots'
  | 'fills';

/** The identifier of an entry of another section. */
export function reference(section: ReferableSection, about: About) {
  return describe(z.string().regex(new RegExp(IDENTIFIER)), about, { 'x-refers-to': section });
}

/** A map from identifier to entry. */
export function entries<T extends z.ZodType>(entry: T, meaning: string, more: Record<string, unknown> = {}) {
  return z.record(z.string().regex(new RegExp(IDENTIFIER)), entry).meta({ description: meaning, ...more });
}
