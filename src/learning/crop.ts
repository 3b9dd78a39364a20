import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { ofLotAlone, partsOfCrop, STATED_DEVIATIONS } from './assumptions';
import type { Interval } from './types';

/** A lot as far as its estimate goes. */
export interface CropLot {
  readonly lot: string;
  readonly block: string | undefined;
  readonly variety: string | undefined;
  readonly grower: string | undefined;
  readonly estimated: number;
  /** Undefined of a lot to come. */
  readonly received: number | undefined;
}

/** What a lot to come is expected to give, as a share of its estimate. */
export interface FittedCrop {
  readonly lot: string;
  readonly share: Interval;
  /** Lots received that share its block, and its grower or variety. */
  readonly ofBlock: number;
  readonly ofOthers: number;
}

/**
 * Estimates of lots to come, corrected by what was received of others. By how much a lot comes out other than it was
 * estimated (the logarithm of received over estimated) is put together of parts: the season's, its variety's, its
 * grower's, its block's and its own, each normal about nothing. Lots that have parts in common tell of each other; how
 * far apart seasons come out is `cropSpread` (standard deviation of the logarithm), shared evenly between the parts.
 * What is known of the lots received gives what to expect of those to come, with its doubt, all at once.
 */
export function fitCrop(lots: readonly CropLot[], cropSpread: number): FittedCrop[] {
  const known = lots.filter(({ received, estimated }) => (received ?? 0) > 0 && estimated > 0);
  const coming = lots.filter(({ received, estimated }) => received === undefined && estimated > 0);
  if (known.length === 0 || coming.length === 0) return [];
  const parts = new CropParts(known, cropSpread ** 2 / partsOfCrop.value, ofLotAlone.value ** 2);
  const ofBlock = countBy(known, ({ block }) => block);
  const ofVariety = countBy(known, ({ variety }) => variety);
  const ofGrower = countBy(known, ({ grower }) => grower);
  const ofBoth = countBy(known, ({ variety, grower }) => pairOf(variety, grower));
  return coming.map((lot) => {
    const { mean, deviation } = parts.expected(lot);
    return {
      lot: lot.lot,
      share: {
        value: Math.exp(mean),
        low: Math.exp(mean - STATED_DEVIATIONS * deviation),
        high: Math.exp(mean + STATED_DEVIATIONS * deviation),
      },
      ofBlock: ofBlock(lot.block),
      ofOthers: ofVariety(lot.variety) + ofGrower(lot.grower) - ofBoth(pairOf(lot.variety, lot.grower)),
    };
  });
}

function pairOf(variety: string | undefined, grower: string | undefined): string | undefined {
  return variety === undefined || grower === undefined ? undefined : JSON.stringify([variety, grower]);
}

/** How many lots have the same of something; none where it is not said. */
function countBy(lots: readonly CropLot[], of: (lot: CropLot) => string | undefined) {
  const counts = new Map<string | undefined, number>();
  for (const lot of lots) counts.set(of(lot), (counts.get(of(lot)) ?? 0) + 1);
  return (name: string | undefined) => (name === undefined ? 0 : (counts.get(name) ?? 0));
}

/** What lots may have in common besides the season. */
const KINDS = ['variety', 'grower', 'block'] as const;
type Kind = (typeof KINDS)[number];

/** Of one block (or of whatever kind there is most of): what its lots add to the equations. */
interface Group {
  weight: number;
  logs: number;
  /** Weights by place of the season's, and of the other kinds' parts. */
  readonly others: Map<number, number>;
}

/**
 * Parts of the crop as the lots received tell of them, each with its doubt: the usual equations of a mixed model
 * (Henderson's), from memory. The kind of which there is most, blocks as a rule, is solved for group by group, so that
 * the matrix is only as large as the season has varieties and growers, however many lots it has.
 */
class CropParts {
  private readonly inner: Kind;
  private readonly outer: readonly Kind[];
  private readonly placeOf = new Map<string, number>();
  private readonly groups = new Map<string, Group>();
  private readonly solved: CholeskyDecomposition;
  private readonly parts: Matrix;

  constructor(
    known: readonly CropLot[],
    private readonly partVariance: number,
    private readonly ofLot: number,
  ) {
    const named = (kind: Kind) => new Set(known.map((lot) => lot[kind])).size;
    this.inner = [...KINDS].sort((a, b) => named(b) - named(a))[0] ?? 'block';
    this.outer = KINDS.filter((kind) => kind !== this.inner);
    for (const lot of known) for (const kind of this.outer) this.seePart(kind, lot[kind]);
    const size = 1 + this.placeOf.size;
    const matrix = Matrix.eye(size, size, 1 / partVariance);
    const right = Matrix.zeros(size, 1);
    for (const lot of known) this.add(lot, matrix, right);
    for (const group of this.groups.values()) this.takeOut(group, matrix, right);
    this.solved = new CholeskyDecomposition(matrix);
    this.parts = this.solved.solve(right);
  }

  /** What a lot to come is expected to be off its estimate, as a logarithm, and its standard deviation. */
  expected(lot: CropLot): { readonly mean: number; readonly deviation: number } {
    const name = lot[this.inner];
    const group = name === undefined ? undefined : this.groups.get(name);
    const row = Matrix.zeros(this.parts.rows, 1);
    const places = this.placesOf(lot);
    for (const place of places) row.set(place, 0, 1);
    let mean = 0;
    // Of its own and of what it shares with no lot received, nothing is known; the season is shared by all.
    let variance = this.ofLot + this.partVariance * (1 + this.outer.length - places.length);
    if (group) {
      for (const [place, weight] of group.others)
        row.set(place, 0, row.get(place, 0) - weight / group.weight);
      mean += group.logs / group.weight;
      variance += 1 / group.weight;
    } else variance += this.partVariance;
    mean += row.dot(this.parts);
    variance += row.dot(this.solved.solve(row));
    return { mean, deviation: Math.sqrt(Math.max(0, variance)) };
  }

  private seePart(kind: Kind, name: string | undefined): void {
    const key = keyOf(kind, name);
    if (name !== undefined && !this.placeOf.has(key)) this.placeOf.set(key, 1 + this.placeOf.size);
  }

  /** Places of the season's part, and of those of other kinds that a lot received has too. */
  private placesOf(lot: CropLot): number[] {
    return [0, ...this.outer.flatMap((kind) => this.placeOf.get(keyOf(kind, lot[kind])) ?? [])];
  }

  private add(lot: CropLot, matrix: Matrix, right: Matrix): void {
    // What is not said of a lot it shares with no other.
    const unsaid = KINDS.filter((kind) => lot[kind] === undefined).length;
    const weight = 1 / (this.ofLot + unsaid * this.partVariance);
    const log = Math.log((lot.received ?? 0) / lot.estimated);
    const places = this.placesOf(lot);
    for (const row of places) {
      right.set(row, 0, right.get(row, 0) + weight * log);
      for (const column of places) matrix.set(row, column, matrix.get(row, column) + weight);
    }
    const name = lot[this.inner];
    if (name === undefined) return;
    const group = this.groups.get(name) ?? { weight: 1 / this.partVariance, logs: 0, others: new Map() };
    this.groups.set(name, group);
    group.weight += weight;
    group.logs += weight * log;
    for (const place of places) group.others.set(place, (group.others.get(place) ?? 0) + weight);
  }

  /** Leaves a group's part out of the equations, as that value of it would that fits best. */
  private takeOut({ weight, logs, others }: Group, matrix: Matrix, right: Matrix): void {
    for (const [row, one] of others) {
      right.set(row, 0, right.get(row, 0) - (one * logs) / weight);
      for (const [column, other] of others)
        matrix.set(row, column, matrix.get(row, column) - (one * other) / weight);
    }
  }
}

function keyOf(kind: Kind, name: string | undefined): string {
  return `${kind} ${name}`;
}
