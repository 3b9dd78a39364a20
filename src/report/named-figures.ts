import type { Day, Week } from '../plan/dates';
import type { Figure } from '../plan/figure';

/** The week that a figure in days comes to, and the day the days count from. */
export interface CountedDays {
  readonly week: Week;
  readonly from: { readonly day: Day; readonly what: string } | undefined;
}

/** A figure with the name it can be asked for by: `R01.free-gas-volume`. */
export interface NamedFigure {
  readonly owner: string;
  /** `free-gas-volume` */
  readonly slug: string;
  readonly figure: Figure;
  /** One of many alike (a day's, a week's, a lot's): can be asked for, is not listed. */
  readonly minor: boolean;
  /** Of days that come to a week. */
  readonly counted?: CountedDays;
}

/** The name a figure is asked for by. */
export function figureId({ owner, slug }: Pick<NamedFigure, 'owner' | 'slug'>): string {
  return `${owner}.${slug}`;
}

/** `freeGasVolume` as `free-gas-volume`. */
export function slugOf(key: string): string {
  return key
    .replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)
    .replace(/[\s_]+/g, '-')
    .replace(/^-/, '');
}

export function isFigure(value: unknown): value is Figure {
  return (
    typeof value === 'object' && value !== null && 'origin' in value && 'unit' in value && 'name' in value
  );
}

/** The figures that are there, by slug. */
export function named(
  owner: string,
  figures: Readonly<Record<string, Figure | undefined>>,
  minor = false,
): NamedFigure[] {
  return Object.entries(figures).flatMap(([slug, figure]) =>
    figure ? [{ owner, slug, figure, minor }] : [],
  );
}

/** One of many alike, worked out when it is first asked for. */
export function namedLater(owner: string, slug: string, make: () => Figure): NamedFigure {
  let made: Figure | undefined;
  return {
    owner,
    slug,
    get figure() {
      made ??= make();
      return made;
    },
    minor: true,
  };
}

/** Keys under which the plan keeps places, never figures. */
const PLACES = new Set(['at', 'places', 'source']);

/** Every figure in an object and in the plain objects and lists inside it, named by its path. */
export function figuresIn(owner: string, values: object, omit: readonly string[] = []): NamedFigure[] {
  return Object.entries(values).flatMap(([key, value]) =>
    PLACES.has(key) && !isFigure(value)
      ? []
      : omit.includes(key)
        ? []
        : figuresUnder(owner, slugOf(key), value),
  );
}

/** The figures that an object itself holds. */
export function figuresOf(owner: string, values: object): NamedFigure[] {
  return Object.entries(values).flatMap(([key, value]) =>
    isFigure(value) ? [{ owner, slug: slugOf(key), figure: value, minor: false }] : [],
  );
}

function figuresUnder(owner: string, slug: string, value: unknown): NamedFigure[] {
  if (isFigure(value)) return [{ owner, slug, figure: value, minor: false }];
  if (Array.isArray(value)) {
    return value.flatMap((item, at) =>
      typeof item === 'object' && item !== null ? figuresUnder(owner, itemSlug(slug, at, item), item) : [],
    );
  }
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype)
    return [];
  return figuresIn(owner, value).map((inner) => ({ ...inner, slug: `${slug}-${inner.slug}` }));
}

/** What has a name of its own goes by it, the others by their number. */
function itemSlug(list: string, at: number, item: object): string {
  return 'id' in item && typeof item.id === 'string' && !('at' in item) ? item.id : `${list}-${at + 1}`;
}
