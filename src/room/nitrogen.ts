import { compute, type Figure } from '../plan/figure';
import type { NitrogenSource } from '../plan/model';
import { sumOf } from './figures';
import { purgeDilution } from './sources';
import { oxygenInAir } from './tightness';
import type { FlushStep } from './types';

/** A point of a source's delivery, with the oxygen its gas still carries. */
export interface Delivery {
  readonly purity: Figure<'%'>;
  readonly flow: Figure<'m3/h'>;
  readonly oxygen: Figure<'%'>;
}

/** What a flush comes to. */
export interface Flush {
  readonly steps: readonly FlushStep[];
  readonly nitrogen: Figure<'m3'>;
  readonly hours: Figure<'h'>;
}

export function oxygenInNitrogen(purity: Figure<'%'>): Figure<'%'> {
  return compute('oxygen in the nitrogen', '%', '100 - purity', { purity }, (v) => 100 - v.purity);
}

/**
 * Volumes of nitrogen, in volumes of the gas to be flushed, at perfect mixing: ln((C0 - Cp) / (Ct - Cp)).
 * Infinite or not a number where the oxygen in the nitrogen is not below the level to be reached.
 */
export function flushVolumes(
  oxygenFrom: Figure<'%'>,
  oxygenTo: Figure<'%'>,
  oxygenInGas: Figure<'%'>,
): Figure<'1'> {
  return compute(
    'volumes of nitrogen for each volume of gas',
    '1',
    'log((oxygenFrom - oxygenInGas) / (oxygenTo - oxygenInGas))',
    { oxygenFrom, oxygenTo, oxygenInGas },
    (v) => Math.log((v.oxygenFrom - v.oxygenInGas) / (v.oxygenTo - v.oxygenInGas)),
    purgeDilution,
  );
}

/** The level the nitrogen has to reach: the regime's oxygen, or where the planner stops the feed if that is higher. */
export function flushTarget(regimeOxygen: Figure<'%'>, feedStopsAt?: Figure<'%'>): Figure<'%'> {
  if (!feedStopsAt) return regimeOxygen;
  return compute(
    'oxygen the nitrogen has to reach',
    '%',
    'max(regimeOxygen, feedStopsAt)',
    { regimeOxygen, feedStopsAt },
    (v) => Math.max(v.regimeOxygen, v.feedStopsAt),
  );
}

/** What the source delivers, only points that deliver anything. */
export function deliveriesOf(source: NitrogenSource): Delivery[] {
  return source.flows
    .filter(({ purity, flow }) => flow.value > 0 && purity.value > 0 && purity.value <= 100)
    .map(({ purity, flow }) => ({ purity, flow, oxygen: oxygenInNitrogen(purity) }));
}

/** The oxygen in the purest gas of a source; undefined where it delivers none. */
export function leastOxygenInNitrogen(deliveries: readonly Delivery[]): Figure<'%'> | undefined {
  let least: Figure<'%'> | undefined;
  for (const { oxygen } of deliveries) if (!least || oxygen.value < least.value) least = oxygen;
  return least;
}

/**
 * The lowest level worth flushing to: below it the fruit takes oxygen out of the room faster than the nitrogen does.
 * The flush takes out flow * (C - Cp) / 100 an hour, the fruit its use, so they are equal at Cp + 100 * use / flow.
 */
export function lowestSensibleLevel(
  source: NitrogenSource,
  oxygenUse: Figure<'m3/h'>,
  deliveries: readonly Delivery[] = deliveriesOf(source),
): Figure<'%'> | undefined {
  let lowest: Delivery | undefined;
  let level = Number.POSITIVE_INFINITY;
  for (const delivery of deliveries) {
    const own = equalLevel(delivery.oxygen.value, oxygenUse.value, delivery.flow.value);
    if (lowest && !(own < level)) continue;
    [lowest, level] = [delivery, own];
  }
  if (!lowest) return undefined;
  return compute(
    'oxygen below which the fruit is quicker than the nitrogen',
    '%',
    'oxygenInGas + 100 * oxygenUse / flow',
    { oxygenInGas: lowest.oxygen, oxygenUse, flow: lowest.flow },
    (v) => equalLevel(v.oxygenInGas, v.oxygenUse, v.flow),
  );
}

function equalLevel(oxygenInGas: number, oxygenUse: number, flow: number): number {
  return oxygenInGas + (100 * oxygenUse) / flow;
}

/**
 * The quickest flush from air to a level with one room on the source. At each level the point that takes out most
 * oxygen is run: lean gas with much flow first, rich gas with little flow at the end. Since each point's removal,
 * flow * (C - Cp), is a straight line over the level C, the change comes where two lines cross.
 * Undefined where no point's gas is below the level.
 */
export function quickestFlush(
  source: NitrogenSource,
  gasVolume: Figure<'m3'>,
  oxygenTo: Figure<'%'>,
  deliveries: readonly Delivery[] = deliveriesOf(source),
): Flush | undefined {
  if (!deliveries.some(({ oxygen }) => oxygen.value < oxygenTo.value)) return undefined;
  const steps: FlushStep[] = [];
  let level: Figure<'%'> = oxygenInAir;
  while (level.value > oxygenTo.value) {
    const delivery = bestAt(deliveries, level.value);
    const next = nextChange(deliveries, delivery, level, oxygenTo);
    steps.push(flushStep(delivery, level, next, gasVolume));
    level = next;
  }
  const numbered = <K extends 'hours' | 'volumes'>(what: K) =>
    steps.map((step, index) => [`step_${index + 1}`, step[what]] as const);
  const volumes = sumOf('volumes of nitrogen in all', '1', numbered('volumes'));
  return {
    steps,
    hours: sumOf('hours of nitrogen', 'h', numbered('hours')),
    nitrogen: compute(
      'nitrogen to bring the room down',
      'm3',
      'gasVolume * volumes',
      { gasVolume, volumes },
      (v) => v.gasVolume * v.volumes,
    ),
  };
}

function removal({ flow, oxygen }: Delivery, level: number): number {
  return flow.value * (level - oxygen.value);
}

/** The point that takes out most at the level; of equals the one with less flow, which is better below it. */
function bestAt(deliveries: readonly Delivery[], level: number): Delivery {
  return deliveries.reduce((best, other) => {
    const gain = removal(other, level) - removal(best, level);
    const equal = Math.abs(gain) <= 1e-9 * Math.abs(removal(best, level));
    if (equal) return other.flow.value < best.flow.value ? other : best;
    return gain > 0 ? other : best;
  });
}

/** Where another point begins to take out more than the running one, or the end of the flush. */
function nextChange(
  deliveries: readonly Delivery[],
  running: Delivery,
  level: Figure<'%'>,
  end: Figure<'%'>,
): Figure<'%'> {
  let [next, purer]: [number, Delivery | undefined] = [end.value, undefined];
  for (const other of deliveries) {
    if (other.flow.value >= running.flow.value) continue;
    const change = crossing(running.flow.value, running.oxygen.value, other.flow.value, other.oxygen.value);
    if (change < level.value - 1e-9 && change > next) [next, purer] = [change, other];
  }
  return purer ? changeLevel(running, purer) : end;
}

/** The level at which two points take out as much. */
function crossing(flow: number, oxygenInGas: number, purerFlow: number, oxygenInPurerGas: number): number {
  return (flow * oxygenInGas - purerFlow * oxygenInPurerGas) / (flow - purerFlow);
}

function changeLevel(running: Delivery, other: Delivery): Figure<'%'> {
  return compute(
    'oxygen at which the purity is raised',
    '%',
    '(flow * oxygenInGas - purerFlow * oxygenInPurerGas) / (flow - purerFlow)',
    {
      flow: running.flow,
      oxygenInGas: running.oxygen,
      purerFlow: other.flow,
      oxygenInPurerGas: other.oxygen,
    },
    (v) => crossing(v.flow, v.oxygenInGas, v.purerFlow, v.oxygenInPurerGas),
  );
}

function flushStep(
  { purity, flow, oxygen }: Delivery,
  oxygenFrom: Figure<'%'>,
  oxygenTo: Figure<'%'>,
  gasVolume: Figure<'m3'>,
): FlushStep {
  const volumes = flushVolumes(oxygenFrom, oxygenTo, oxygen);
  const hours = compute(
    `hours of ${Number(purity.value.toFixed(2))} % nitrogen`,
    'h',
    'gasVolume * volumes / flow',
    { gasVolume, volumes, flow },
    (v) => (v.gasVolume * v.volumes) / v.flow,
  );
  return { purity, flow, oxygenFrom, oxygenTo, volumes, hours };
}
