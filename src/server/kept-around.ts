import type { AroundOffer } from '../release/around';

/** The offer that was made last for a plan. */
export interface KeptAround {
  readonly fill: string;
  readonly week: string;
  readonly offer: AroundOffer;
}
