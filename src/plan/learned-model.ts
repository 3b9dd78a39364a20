import type { Day } from './dates';
import type { Figure } from './figure';
import type { Given, Span } from './span';

/** What records have taught of a lot. */
export interface LearnedOfLot {
  /** Its own course of firmness, as fitted to its samples. */
  readonly ownFirmness?: OwnFirmness | undefined;
  /** Its own packout, per cent by class. */
  readonly ownPackout?: ReadonlyMap<string, Figure<'%'>> | undefined;
  /** Bins to be expected as a share of those estimated; `expectedBins` has it in it. */
  readonly cropShare?: Figure<'1'> | undefined;
}

/** A lot's own course of firmness: where it starts, how fast it falls, and how well it is known. */
export interface OwnFirmness {
  readonly at: Span;
  readonly atHarvest: Figure<'N'>;
  /** What is lost, as a share of what the plan would count without it. */
  readonly softening: Figure<'1'>;
  readonly knownBest: Given<Day>;
  /** Standard deviation on that day, and of what is lost from then on, as a share. */
  readonly spread: Figure<'N'>;
  readonly softeningSpread: Figure<'%'>;
}
