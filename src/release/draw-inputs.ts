import type { LotKeeping, RoomKeeping } from '../keeping/types';
import { firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { problemFruit } from './problem';
import { unknownUntil } from './season-whole';
import { type Softening, softenings } from './softening';
import type { ReleaseProblem } from './types';

/** How far things may differ from the plan, as shares: nine seasons of ten lie within so much of it. */
export interface Ranges {
  readonly crop: number;
  readonly storageLife: number;
  readonly packout: number;
  readonly demand: number;
}

/** What drawing seasons needs to know of a room beside the release problem. */
export interface RoomDraw {
  /** Share of its bins that are estimated and not received. */
  readonly estimated: number;
  /** Share of its bins by variety. */
  readonly varieties: ReadonlyMap<string, number>;
  /** Places for bins; absent where they are not known. */
  readonly places?: number;
  /**
   * From picking to the time when its weakest lot has an even chance to be within standard, in weeks of the season with
   * parts; absent where it keeps longer than there is any need to know.
   */
  readonly keeps?: { readonly from: number; readonly until: number };
}

export interface DrawInputs {
  readonly ranges: Ranges;
  /** In the order of the problem's rooms. */
  readonly rooms: readonly RoomDraw[];
  /** Week of the problem before which nobody knows what was delivered: nothing is told as short there. Absent: all is known. */
  readonly toldFrom?: number;
  /** Products that become too soft for a buyer; absent where no buyer asks for firm fruit. */
  readonly softens?: readonly Softening[];
}

const NO_RANGE = { crop: 0, storageLife: 0, packout: 0, demand: 0 };

/** What the plan tells of the ranges and of each room of the problem. */
export function drawInputs(
  plan: Plan,
  keeping: ReadonlyMap<string, RoomKeeping>,
  problem: ReleaseProblem,
): DrawInputs {
  const { uncertainty } = plan.policy;
  const ranges = uncertainty
    ? {
        crop: uncertainty.crop.value / 100,
        storageLife: uncertainty.storageLife.value / 100,
        packout: uncertainty.packout.value / 100,
        demand: uncertainty.demand.value / 100,
      }
    : NO_RANGE;
  const fruit = problemFruit(plan, keeping);
  const softens = fruit ? softenings(plan, problem, fruit) : [];
  const toldFrom = unknownUntil(problem, plan);
  return {
    ranges,
    ...(toldFrom !== undefined && { toldFrom }),
    ...(softens.length > 0 && { softens }),
    rooms: problem.rooms.map((room) =>
      room.fromField ? fieldDraw(plan, room.fromField.lot) : roomDraw(keeping.get(room.fill), problem),
    ),
  };
}

/** A lot packed at harvest: its crop may differ like a room's, and it is packed before it could soften. */
function fieldDraw(plan: Plan, id: string): RoomDraw {
  const lot = plan.lots.get(id);
  return { estimated: lot?.receivedBins ? 0 : 1, varieties: new Map([[lot?.variety?.value ?? '', 1]]) };
}

function roomDraw(keeping: RoomKeeping | undefined, problem: ReleaseProblem): RoomDraw {
  if (!keeping) return { estimated: 1, varieties: new Map() };
  const { lots, capacity } = keeping.filled;
  const bins = lots.reduce((sum, lot) => sum + lot.bins.value, 0);
  const varieties = new Map<string, number>();
  let estimated = 0;
  for (const { lot, bins: ofLot } of lots) {
    const variety = lot.variety?.value ?? '';
    varieties.set(variety, (varieties.get(variety) ?? 0) + ofLot.value / bins);
    if (!lot.receivedBins) estimated += ofLot.value / bins;
  }
  const places = capacity.places?.value;
  const keeps = weakest(keeping.lots.flatMap((lot) => lotKeeps(lot, problem) ?? []));
  return { estimated, varieties, ...(places !== undefined && { places }), ...(keeps && { keeps }) };
}

function weakest(lots: readonly NonNullable<RoomDraw['keeps']>[]): RoomDraw['keeps'] {
  return lots.reduce<RoomDraw['keeps']>(
    (least, one) => (!least || one.until < least.until ? one : least),
    undefined,
  );
}

/** Weeks after the season in which an end of a lot's life is still looked for. */
const BEYOND = 104;

function lotKeeps(lot: LotKeeping, { firstWeek, weeks }: ReleaseProblem): RoomDraw['keeps'] {
  const picked = lot.lot.picked?.value.first ?? lot.inRoom.lot.picked?.value.last;
  if (picked === undefined) return undefined;
  const chance = (week: number) => lot.withinStandard(firstWeek + week);
  let [low, high] = [-1, weeks + BEYOND];
  if (chance(high) >= 0.5) return undefined;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (chance(middle) >= 0.5) low = middle;
    else high = middle;
  }
  // Chances hold for the end of a week, which is where the next one begins.
  const [before, after] = [chance(low), chance(high)];
  const part = before > 0.5 ? (before - 0.5) / (before - after) : 0;
  return { from: (picked - firstDayOfWeek(firstWeek)) / 7, until: low + 1 + part };
}
