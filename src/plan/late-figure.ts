import type { Figure, Origin, Unit } from './figure';

/** For a figure of which nothing can be said any more: the plan has gone on since. */
export const OF_OLDER_PLAN: Origin = {
  kind: 'counted',
  what: 'the plan as it was before its last change',
  places: [],
};

/** Its name is not known any more, but a figure without any would stand in a list as a bare number. */
const NAME_OF_OLDER_PLAN = 'a figure of the plan before its last change';

/**
 * A figure that is held by its value alone: whoever asks for its name or how it came about has it made again. That must
 * give the same value; where it does not, the plan has gone on.
 */
export abstract class FigureByValue<U extends Unit = Unit> implements Figure<U> {
  constructor(
    readonly value: number,
    readonly unit: U,
  ) {}

  /** The figure itself, made again; undefined where it can be made no more. */
  protected abstract made(): Figure | undefined;

  get name(): string {
    return this.#figure?.name ?? NAME_OF_OLDER_PLAN;
  }

  get origin(): Origin {
    return this.#figure?.origin ?? OF_OLDER_PLAN;
  }

  get beside(): Figure['beside'] {
    return this.#figure?.beside;
  }

  /** As a figure that is not held by value. */
  toJSON(): Figure {
    const { name, value, unit, origin, beside } = this;
    return { name, value, unit, origin, ...(beside && { beside }) };
  }

  get #figure(): Figure | undefined {
    const figure = this.made();
    return figure && Object.is(figure.value, this.value) && figure.unit === this.unit ? figure : undefined;
  }
}

/** A figure by value that `make` makes again. */
export class LateFigure<U extends Unit = Unit> extends FigureByValue<U> {
  readonly #make: () => Figure | undefined;

  constructor(value: number, unit: U, make: () => Figure | undefined) {
    super(value, unit);
    this.#make = make;
  }

  protected made(): Figure | undefined {
    return this.#make();
  }
}

/**
 * Part of a larger thing that makes its figures only when somebody asks. What it makes them from it lets go of once the
 * thing can be made again: it then keeps their values, and tells the rest of them from the thing as it is made again.
 */
export abstract class LetsGo<Whole> {
  /** `whole`: the thing made again, not let go of; undefined where there is none any more. */
  abstract letGo(whole: () => Whole | undefined): void;
}
