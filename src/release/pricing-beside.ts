import type { LikelyOpening } from './ascent';
import { canonicalProblem } from './canonical';
import { findConflicts } from './conflicts';
import { type Pricing, PricingHere, type PricingHooks, type PricingOptions, secondsAhead } from './pricing';
import { wayToProve } from './proof-sizes';
import type { PricedCases, Searched } from './prove-by-prices';
import type { ReleaseProblem } from './types';

/** What the thread that works out prices tells the one that searches, in this order; not every season has all of it. */
export type FromPricing =
  | { readonly kind: 'openings'; readonly answer: readonly LikelyOpening[] }
  | { readonly kind: 'bound'; readonly answer: number }
  | { readonly kind: 'relaxed'; readonly answer: number }
  | { readonly kind: 'share'; readonly answer: number }
  | { readonly kind: 'cases'; readonly answer: PricedCases };

type Answered = Exclude<FromPricing['kind'], 'share'>;
type AnswerOf<Kind extends FromPricing['kind']> = Extract<FromPricing, { kind: Kind }>['answer'];

/** The answers of another thread, as they come in. */
export class PricingElsewhere implements Pricing {
  private readonly answers: { [Kind in Answered]: Later<AnswerOf<Kind>> } = {
    openings: later(),
    bound: later(),
    relaxed: later(),
    cases: later(),
  };
  private onShare: (share: number) => void = () => {};

  constructor(private readonly tell: (searched: Searched) => void) {}

  /** Takes a message of the other thread. */
  take(message: FromPricing): void {
    if (message.kind === 'share') this.onShare(message.answer);
    else if (message.kind === 'openings') this.answers.openings.come(message.answer);
    else if (message.kind === 'bound') this.answers.bound.come(message.answer);
    else if (message.kind === 'relaxed') this.answers.relaxed.come(message.answer);
    else this.answers.cases.come(message.answer);
  }

  openings(): Promise<readonly LikelyOpening[]> {
    return this.answers.openings.promise;
  }

  bound(): Promise<number> {
    return this.answers.bound.promise;
  }

  relaxed(): Promise<number> {
    return this.answers.relaxed.promise;
  }

  cases(searched: Searched, onProgress: (share: number) => void): Promise<PricedCases> {
    this.onShare = onProgress;
    this.answers.cases = later();
    this.tell(searched);
    return this.answers.cases.promise;
  }
}

/** Something that somebody waits for. */
interface Later<T> {
  readonly promise: Promise<T>;
  come(value: T): void;
}

function later<T>(): Later<T> {
  let come: (value: T) => void = () => {};
  const promise = new Promise<T>((resolve) => {
    come = resolve;
  });
  return { promise, come: (value) => come(value) };
}

/** Shares of cases that are told: one in so many. */
const SHARES_TOLD = 50;

/**
 * The thread that works out prices: goes ahead with all that may be asked for, and posts each answer once there is one.
 * Returns what the search's end is told to.
 */
export async function priceBeside(
  given: ReleaseProblem,
  options: PricingOptions,
  hooks: PricingHooks,
  post: (message: FromPricing) => void,
): Promise<(searched: Searched) => Promise<void>> {
  const { problem } = canonicalProblem(given);
  const { unmet } = findConflicts(problem);
  const pricing = new PricingHere(problem, unmet, options, hooks);
  post({ kind: 'openings', answer: await pricing.openings() });
  post({ kind: 'bound', answer: await pricing.bound() });
  const way = wayToProve(problem);
  if (way === 'plain relaxation') post({ kind: 'relaxed', answer: await pricing.relaxed() });
  if (way === 'cases at prices' && secondsAhead(options) > 0) pricing.casesAhead();
  return async (searched) => {
    let told = 0;
    const onProgress = (share: number) => {
      if (share * SHARES_TOLD < told + 1) return;
      told = Math.floor(share * SHARES_TOLD);
      post({ kind: 'share', answer: share });
    };
    post({ kind: 'cases', answer: await pricing.cases(searched, onProgress) });
  };
}
