import type { PricedSeason } from './priced-season';
import { pricesIn, type Shared, type SharedPrices } from './shared-prices';

/**
 * How much more a way can bring than when it was last asked, for prices that have fallen since. Falls are added up turn
 * by turn, so that one sum for each way tells it, without a look at its slots: a way that cannot have become its room's
 * best need not be asked again. Prices that rise are left out, which only makes the limit on a way higher.
 */
export class PriceFalls {
  /** Group of products sold together that a demand belongs to, or -1 where no room of the season serves it. */
  private readonly groupOfDemand: Int32Array;
  /** Demands that rooms of the season serve. */
  private readonly served: Int32Array;
  private readonly groupOfPart: Int32Array;
  private readonly groups: number;
  /** Week after the last in which anything of a way can be sold. */
  private readonly wayEnd: Int32Array;
  /** Money by which places in demands have become cheaper in all: sums up to each week, `[group * (weeks + 1) + week]`. */
  private readonly wanted: Float64Array;
  /** The same for a bin in the packhouse and for an open room, by week. */
  private readonly bin: Float64Array;
  private readonly open: Float64Array;
  private readonly lastWanted: Float64Array;
  private readonly lastBin: Float64Array;
  private readonly lastDays: Float64Array;
  private readonly lastOpen: Float64Array;
  private readonly sums: Float64Array;
  /** Cartons of each place. */
  private readonly amounts: Float64Array;

  constructor(
    private readonly season: PricedSeason,
    shared: Shared,
  ) {
    const { weeks } = season;
    this.amounts = pricesIn(shared.amounts, weeks).wanted;
    const demands = this.amounts.length / weeks;
    const groups = new Map<number, number>();
    this.groupOfDemand = new Int32Array(demands).fill(-1);
    this.groupOfPart = Int32Array.from(season.partProduct, (product) => {
      const group = groups.get(product) ?? groups.size;
      groups.set(product, group);
      return group;
    });
    this.groups = groups.size;
    this.wayEnd = Int32Array.from(season.wayWeek, (week, way) => week + (season.wayCount[way] ?? 0));
    for (let way = 0; way < this.wayEnd.length; way++) {
      for (let part = season.firstPart[way] ?? 0; part < (season.firstPart[way + 1] ?? 0); part++) {
        for (let slot = season.firstSlot[part] ?? 0; slot < (season.firstSlot[part + 1] ?? 0); slot++) {
          const sold = season.slotWeek[slot] ?? 0;
          this.wayEnd[way] = Math.max(this.wayEnd[way] ?? 0, sold + 1);
          this.groupOfDemand[((season.slotPlace[slot] ?? 0) - sold) / weeks] = this.groupOfPart[part] ?? 0;
        }
      }
    }
    this.served = Int32Array.from(
      [...this.groupOfDemand.keys()].filter((demand) => (this.groupOfDemand[demand] ?? -1) >= 0),
    );
    this.wanted = new Float64Array(this.groups * (weeks + 1));
    this.bin = new Float64Array(weeks + 1);
    this.open = new Float64Array(weeks + 1);
    this.lastWanted = new Float64Array(demands * weeks);
    this.lastBin = new Float64Array(weeks);
    this.lastDays = new Float64Array(weeks);
    this.lastOpen = new Float64Array(weeks);
    this.sums = new Float64Array(this.groups);
  }

  /** Takes note of new prices; `aBin` is what a bin costs by week, all but the last days'. */
  note({ wanted, open, lastDays }: SharedPrices, aBin: Float64Array): void {
    const { groups, groupOfDemand, lastWanted, sums, amounts } = this;
    const { weeks } = this.season;
    let bin = 0;
    let opened = 0;
    sums.fill(0);
    for (let week = 0; week < weeks; week++) {
      bin += fall(this.lastBin, week, aBin[week] as number);
      bin += fall(this.lastDays, week, lastDays[week] as number);
      opened += fall(this.lastOpen, week, open[week] as number);
      this.bin[week + 1] = (this.bin[week + 1] as number) + bin;
      this.open[week + 1] = (this.open[week + 1] as number) + opened;
      for (let served = 0; served < this.served.length; served++) {
        const demand = this.served[served] as number;
        const group = groupOfDemand[demand] as number;
        const at = demand * weeks + week;
        const fell = fall(lastWanted, at, wanted[at] as number);
        if (fell > 0) sums[group] = (sums[group] as number) + fell * (amounts[at] as number);
      }
      for (let group = 0; group < groups; group++) {
        const at = group * (weeks + 1) + week + 1;
        this.wanted[at] = (this.wanted[at] as number) + (sums[group] as number);
      }
    }
  }

  /** All falls so far that a way could gain by; what it was before taken off is the most that it brings more. */
  of(way: number): number {
    const { season, wanted } = this;
    const week = season.wayWeek[way] as number;
    const end = this.wayEnd[way] as number;
    const packed = week + (season.wayCount[way] as number);
    let sum =
      (season.wayBins[way] as number) * ((this.bin[packed] as number) - (this.bin[week] as number)) +
      (this.open[packed] as number) -
      (this.open[week] as number);
    const last = season.firstPart[way + 1] as number;
    for (let part = season.firstPart[way] as number; part < last; part++) {
      const at = (this.groupOfPart[part] as number) * (season.weeks + 1);
      sum += (wanted[at + end] as number) - (wanted[at + week] as number);
    }
    return sum;
  }
}

/** By how much a price is lower than the last, which it takes the place of. */
function fall(last: Float64Array, at: number, price: number): number {
  const fell = (last[at] as number) - price;
  last[at] = price;
  return Math.max(fell, 0);
}
