import type { Regime } from '../fruit/types';
import { compute, type Figure } from '../plan/figure';
import type { NitrogenSource } from '../plan/model';
import { finite } from './figures';
import { respirationHours } from './gas';
import {
  type Delivery,
  deliveriesOf,
  flushTarget,
  leastOxygenInNitrogen,
  lowestSensibleLevel,
  quickestFlush,
} from './nitrogen';
import type { FilledRoom } from './types';

type PullDown = Pick<
  FilledRoom,
  'flushTo' | 'flush' | 'nitrogenVolume' | 'nitrogenHours' | 'respirationHours' | 'nitrogenShortfall'
>;

const NO_PULL_DOWN: PullDown = { flush: [] };

/**
 * From air to the regime's oxygen: nitrogen down to where the feed stops, the fruit for the rest. The feed stops at
 * the regime's oxygen, or where the planner stops it if that is higher, and never below the level at which the fruit
 * alone is quicker. What the fruit uses during the flush is left out, so the hours are on the long side.
 */
export function pullDown(
  source: NitrogenSource | undefined,
  regime: Regime | undefined,
  gasVolume: Figure<'m3'> | undefined,
  oxygenUse: Figure<'m3/h'> | undefined,
): PullDown {
  if (!source || !regime?.oxygen || !gasVolume) return NO_PULL_DOWN;
  const target = flushTarget(regime.oxygen, source.stopsAt);
  const deliveries = deliveriesOf(source);
  const purest = leastOxygenInNitrogen(deliveries);
  if (!purest) return NO_PULL_DOWN;
  const reachable = purest.value < target.value;
  const flushTo = stopLevel(source, deliveries, target, oxygenUse, reachable);
  const rest = flushTo && oxygenUse && respirationHours(gasVolume, flushTo, regime.oxygen, oxygenUse);
  const flush = flushTo && quickestFlush(source, gasVolume, flushTo, deliveries);
  return {
    flushTo,
    flush: flush?.steps ?? [],
    nitrogenVolume: flush && finite(flush.nitrogen),
    nitrogenHours: flush && finite(flush.hours),
    respirationHours: rest && finite(rest),
    ...(reachable ? {} : { nitrogenShortfall: shortfall(source, purest, target, flushTo, regime, rest) }),
  };
}

/** Undefined where the purity does not reach the target and nothing is known of the fruit that would do the rest. */
function stopLevel(
  source: NitrogenSource,
  deliveries: readonly Delivery[],
  target: Figure<'%'>,
  oxygenUse: Figure<'m3/h'> | undefined,
  reachable: boolean,
): Figure<'%'> | undefined {
  const sensible =
    oxygenUse && oxygenUse.value > 0 ? lowestSensibleLevel(source, oxygenUse, deliveries) : undefined;
  if (!sensible) return reachable ? target : undefined;
  return compute(
    'oxygen to which the nitrogen is run',
    '%',
    'max(target, sensible)',
    { target, sensible },
    (v) => Math.max(v.target, v.sensible),
  );
}

function shortfall(
  source: NitrogenSource,
  purest: Figure<'%'>,
  target: Figure<'%'>,
  flushTo: Figure<'%'> | undefined,
  regime: Regime,
  rest: Figure<'h'> | undefined,
): string {
  const percent = (figure: Figure) => `${Number(figure.value.toFixed(2))} %`;
  const why = `The purest gas of ${source.id} still carries ${percent(purest)} oxygen, so it cannot bring the room to ${percent(target)}`;
  if (!flushTo || !rest || !regime.oxygen || !Number.isFinite(rest.value)) return `${why}.`;
  const hours = Math.round(rest.value);
  return `${why}; it is run to ${percent(flushTo)}, from where the fruit would take about ${hours} h to ${percent(regime.oxygen)} if no air leaked in.`;
}
