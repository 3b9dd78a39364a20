import type { StorageTerm } from '../fruit/types';
import type { Week } from '../plan/dates';
import type { Figure } from '../plan/figure';
import { LateFigure, LetsGo } from '../plan/late-figure';
import type { Lot } from '../plan/model';
import type { LotInRoom } from '../room/types';
import { type DisorderRisk, type RisksAgain, risksLetGo } from './disorders';
import type { Standing } from './standing';
import type { LotLife } from './storage-life';
import type { LotKeeping, LotLimit, RoomKeeping } from './types';

type Whole = Pick<RoomKeeping, 'lots'>;

/** The lots of a room that were kept of late, and the room made again once they have let go. */
export class KeptLots {
  #count = 0;
  #whole: (() => Whole | undefined) | undefined;

  /** The place that the next one has among them. */
  next(): number {
    return this.#count++;
  }

  letGo(whole: () => Whole | undefined): void {
    this.#whole = whole;
  }

  lot(place: number): LotKeeping | undefined {
    return this.#whole?.()?.lots[place];
  }
}

/** What there is to be known of a lot's keeping. */
export interface Kept {
  readonly inRoom: LotInRoom;
  readonly term: StorageTerm | undefined;
  readonly life: LotLife;
  readonly standing: Standing;
  readonly latest: Week;
  readonly latestSetBy: LotLimit;
  readonly disorders: readonly DisorderRisk[];
}

/** A lot's keeping, one of thousands: it shares what it can, and holds its figures by value once it has let go. */
export class KeptLot extends LetsGo<Whole> implements LotKeeping, RisksAgain {
  readonly lot: Lot;
  readonly inRoom: LotInRoom;
  readonly term: StorageTerm | undefined;
  readonly latest: Week;
  readonly latestSetBy: LotLimit;
  readonly disorders: readonly DisorderRisk[];
  readonly #standing: Standing;
  #life: LotLife | undefined;
  readonly #among: KeptLots;
  readonly #place: number;

  constructor({ inRoom, term, life, standing, latest, latestSetBy, disorders }: Kept, among: KeptLots) {
    super();
    this.lot = inRoom.lot;
    this.inRoom = inRoom;
    this.term = term;
    this.latest = latest;
    this.latestSetBy = latestSetBy;
    this.#standing = standing;
    this.#life = life;
    this.disorders = disorders;
    this.#among = among;
    this.#place = among.next();
  }

  get storageLife(): Figure<'days'> {
    return this.#life?.life ?? this.#late(this.#standing.standard.life, (lot) => lot.storageLife);
  }

  get spread(): Figure<'days'> {
    return this.#life?.spread ?? this.#late(this.#standing.standard.spread, (lot) => lot.spread);
  }

  get firmnessOn(): LotKeeping['firmnessOn'] {
    return this.#standing.firmnessOn;
  }

  get withinStandard(): LotKeeping['withinStandard'] {
    return this.#standing.withinStandard;
  }

  override letGo(whole: () => Whole | undefined): void {
    if (!this.#life) return;
    this.#among.letGo(whole);
    this.#life = undefined;
    this.#standing.forget();
    risksLetGo(this.disorders, this);
  }

  riskAgain(place: number): DisorderRisk | undefined {
    return this.#among.lot(this.#place)?.disorders[place];
  }

  #late(value: number, of: (lot: LotKeeping) => Figure<'days'>): LateFigure<'days'> {
    return new LateFigure(value, 'days', () => {
      const lot = this.#among.lot(this.#place);
      return lot && of(lot);
    });
  }

  /** As any other lot's keeping. */
  toJSON(): LotKeeping {
    const { lot, inRoom, term, latest, latestSetBy, storageLife, spread, disorders } = this;
    const { firmnessOn, withinStandard } = this;
    return {
      lot,
      inRoom,
      term,
      latest,
      latestSetBy,
      storageLife,
      spread,
      disorders,
      firmnessOn,
      withinStandard,
    };
  }
}
