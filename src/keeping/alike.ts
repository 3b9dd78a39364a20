import type { Regime, StorageTerm, Variety } from '../fruit/types';
import type { Fill, Lot } from '../plan/model';
import { type Threat, threatsOf } from './disorders';
import { isTreated, type Softening, softeningOf } from './firmness';
import { KeptLots } from './kept-lot';
import { Standing, type StandingOf } from './standing';
import { type SharedLife, sharedLife } from './storage-life';

/** What lots of one variety, term and the same treatments share in a fill. */
export interface Alike {
  readonly variety: Variety;
  readonly term: StorageTerm | undefined;
  readonly treatments: Lot['treatments'];
  readonly life: SharedLife;
  readonly softening: Softening;
  readonly threats: readonly Threat[];
}

/** What the lots of one fill share, made once for all that are alike. A room holds few sorts of them. */
export class AlikeLots {
  /** Those that were kept. */
  readonly kept = new KeptLots();
  private readonly made: Alike[] = [];
  private readonly standings: Standing[] = [];

  constructor(
    readonly fill: Fill,
    readonly regime: Regime,
  ) {}

  with(variety: Variety, term: StorageTerm | undefined, treatments: Lot['treatments']): Alike {
    for (const alike of this.made)
      if (alike.variety === variety && alike.term === term && areSame(alike.treatments, treatments))
        return alike;
    const { fill, regime } = this;
    const has = isTreated(treatments);
    const alike = {
      variety,
      term,
      treatments,
      life: sharedLife(variety, fill, regime, term, has),
      softening: softeningOf(has, variety, regime),
      threats: threatsOf({ variety, treatments, fill, regime }),
    };
    this.made.push(alike);
    return alike;
  }

  /** The one with these numbers. */
  standing(of: StandingOf): Standing {
    for (let index = this.standings.length - 1; index >= 0; index--) {
      const standing = this.standings[index] as Standing;
      if (standing.isOf(of)) return standing;
    }
    const standing = new Standing(of);
    this.standings.push(standing);
    return standing;
  }
}

function areSame(a: Lot['treatments'], b: Lot['treatments']): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index++) if (a[index]?.value !== b[index]?.value) return false;
  return true;
}
