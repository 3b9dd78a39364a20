import { carbonDioxideDensity } from '../fruit/conversions';
import { compute, type Figure } from '../plan/figure';
import { type FruitAt, fruitAt } from '../room/course/closed/fruit';
import { airExchanged } from '../room/course/closed/levels';
import type { ClosedPullDown } from '../room/course/closed/pull-down';
import type { RoomCourse } from '../room/course/types';
import { finite } from '../room/figures';
import { oxygenInAir } from '../room/tightness';
import type { FilledRoom } from '../room/types';

/**
 * Hours from sealing until carbon dioxide stands at its set-point and scrubbing begins. It gathers while the room waits
 * for its nitrogen; the nitrogen sweeps out all but made / flow; then it gathers again, at the rate in store. Undefined
 * where the regime has no set-point or the room no nitrogen.
 */
export function hoursToScrubbing(
  filled: FilledRoom,
  course: RoomCourse,
  { parts }: ClosedPullDown,
): Figure<'h'> | undefined {
  const { freeGasVolume: gasVolume, regime } = filled;
  if (!gasVolume || !regime?.oxygen || !regime.carbonDioxide) return undefined;
  const density = carbonDioxideDensity(regime.temperature);
  const { carbonDioxide: setPoint } = regime;
  const [first] = parts;
  const waits = first?.kind === 'waits' ? first : undefined;
  if (waits) {
    const gathered = gathers({ gasVolume, density, setPoint, made: waits.carbonDioxide });
    if (gathered.value <= waits.hours.value) return finite(gathered);
  }
  const flushes = parts.filter(({ flow }) => flow);
  const last = flushes.at(-1);
  if (!last?.flow) return undefined;
  const flushed = flushedAfter(waits?.hours, flushes);
  const fruit = fruitAt(filled, flushed, regime.oxygen);
  if (!fruit) return undefined;
  const left = compute(
    'carbon dioxide left at the end of the nitrogen',
    '%',
    '100 * made / 24 / density / flow',
    { made: last.carbonDioxide, density, flow: last.flow },
    (v) => (100 * v.made) / 24 / v.density / v.flow,
  );
  return rising(filled, course, fruit, {
    gasVolume,
    density,
    setPoint,
    oxygen: regime.oxygen,
    flushed,
    left,
  });
}

/**
 * From what the nitrogen left to the set-point: C(t) = Cs + (C0 - Cs) exp(-t / tau). No scrubber runs yet; what goes out
 * is as much as the air that comes in, and that is the leak or what holds oxygen at its set-point. Undefined where so
 * much goes out that the level never comes there.
 */
function rising(
  filled: FilledRoom,
  course: RoomCourse,
  { carbonDioxide: made, oxygenUse: use }: FruitAt,
  at: {
    readonly gasVolume: Figure<'m3'>;
    readonly density: Figure<'mg/mL'>;
    readonly setPoint: Figure<'%'>;
    readonly oxygen: Figure<'%'>;
    readonly flushed: Figure<'h'>;
    readonly left: Figure<'%'>;
  },
): Figure<'h'> | undefined {
  const { gasVolume, density, setPoint, oxygen, flushed, left } = at;
  const air = compute(
    'air that comes in before scrubbing',
    'm3/h',
    'max(exchanged, 100 * use / (oxygenInAir - oxygen))',
    { exchanged: airExchanged(filled, course.room), use, oxygenInAir, oxygen },
    (v) => Math.max(v.exchanged, (100 * v.use) / (v.oxygenInAir - v.oxygen)),
  );
  const rest = compute(
    'carbon dioxide the room would come to without a scrubber',
    '%',
    '100 * made / 24 / density / air',
    { made, density, air },
    (v) => (100 * v.made) / 24 / v.density / v.air,
  );
  return finite(
    compute(
      'hours from sealing to scrubbing, by the closed form',
      'h',
      'flushed + gasVolume / air * log((rest - left) / (rest - max(left, setPoint)))',
      { flushed, gasVolume, air, rest, left, setPoint },
      (v) =>
        v.flushed +
        (v.gasVolume / v.air) * Math.log((v.rest - v.left) / (v.rest - Math.max(v.left, v.setPoint))),
    ),
  );
}

function gathers(inputs: {
  readonly gasVolume: Figure<'m3'>;
  readonly density: Figure<'mg/mL'>;
  readonly setPoint: Figure<'%'>;
  readonly made: Figure<'kg/day'>;
}): Figure<'h'> {
  return compute(
    'hours from sealing to scrubbing, by the closed form',
    'h',
    'gasVolume * density * setPoint / 100 / made * 24',
    inputs,
    (v) => ((v.gasVolume * v.density * v.setPoint) / 100 / v.made) * 24,
  );
}

function flushedAfter(
  waits: Figure<'h'> | undefined,
  flushes: readonly { readonly hours: Figure<'h'> }[],
): Figure<'h'> {
  const inputs: Record<string, Figure<'h'>> = {
    ...(waits ? { waits } : {}),
    ...Object.fromEntries(flushes.map(({ hours }, index) => [`purity_${index + 1}`, hours])),
  };
  return compute(
    'hours from sealing to the end of the nitrogen',
    'h',
    Object.keys(inputs).join(' + '),
    inputs,
    (values) => Object.values(values).reduce((sum, one) => sum + one, 0),
  );
}
