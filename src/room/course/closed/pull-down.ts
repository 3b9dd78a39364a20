import { compute, countedFigure, type Figure } from '../../../plan/figure';
import { finite, sumOf } from '../../figures';
import { oxygenInNitrogen } from '../../nitrogen';
import { oxygenInAir } from '../../tightness';
import type { FilledRoom, FlushStep } from '../../types';
import type { CourseRoom } from '../types';
import { fruitAt, meanLevel } from './fruit';
import { airExchanged, hoursByFruit, levelAfter } from './levels';

/** One stretch of a pull-down: a wait, nitrogen of one purity, or the fruit alone. */
export interface PullDownPart {
  readonly kind: 'waits' | 'nitrogen' | 'fruit';
  readonly hours: Figure<'h'>;
  readonly oxygenTo: Figure<'%'>;
  readonly carbonDioxide: Figure<'kg/day'>;
  readonly flow?: Figure<'m3/h'>;
}

/** A pull-down in closed form. */
export interface ClosedPullDown {
  readonly hours: Figure<'h'>;
  /** Gas from the nitrogen source. */
  readonly nitrogen: Figure<'m3'>;
  readonly parts: readonly PullDownPart[];
}

/**
 * From sealing to an oxygen level, with the fruit's use all the way: what it uses while the room waits for its
 * nitrogen; then purity by purity volume / flow * ln((C0 - floor) / (Ct - floor)), where the floor is the oxygen in the
 * gas less what the fruit takes out of it; then the fruit alone against the leak. In each stretch the fruit uses what
 * it uses at its mean level. Undefined where a part has no end or the plan lacks what it needs.
 */
export function closedPullDown(
  filled: FilledRoom,
  course: CourseRoom,
  waits: Figure<'h'>,
  to: Figure<'%'>,
): ClosedPullDown | undefined {
  const { freeGasVolume: volume } = filled;
  if (!volume) return undefined;
  const exchanged = airExchanged(filled, course);
  const parts: PullDownPart[] = [];
  let level: Figure<'%'> = oxygenInAir;
  let elapsed: Figure<'h'> = countedFigure('hours since sealing', 'h', 0, 'sealing');
  const add = (part: PullDownPart) => {
    parts.push(part);
    level = part.oxygenTo;
    elapsed = hoursSoFar(parts);
  };
  if (waits.value > 0 && filled.flush.length > 0) {
    const fruit = fruitAt(filled, half(waits), oxygenInAir);
    if (!fruit) return undefined;
    const after = levelAfter(level, fruit.oxygenUse, exchanged, volume, waits);
    if (after.value <= to.value) return undefined;
    add({ kind: 'waits', hours: waits, oxygenTo: after, carbonDioxide: fruit.carbonDioxide });
  }
  for (const step of filled.flush) {
    if (level.value <= Math.max(step.oxygenTo.value, to.value)) continue;
    const part = nitrogenPart(filled, step, level, elapsed, volume, to);
    if (!part) return undefined;
    add(part);
  }
  if (level.value > to.value) {
    const fruit = fruitAt(filled, elapsed, meanLevel(level, to));
    const hours = fruit && hoursByFruit(level, to, fruit.oxygenUse, exchanged, volume);
    if (!fruit || !hours) return undefined;
    add({ kind: 'fruit', hours, oxygenTo: to, carbonDioxide: fruit.carbonDioxide });
  }
  return { hours: hoursSoFar(parts), nitrogen: nitrogenOf(parts), parts };
}

function nitrogenPart(
  filled: FilledRoom,
  step: FlushStep,
  from: Figure<'%'>,
  elapsed: Figure<'h'>,
  volume: Figure<'m3'>,
  end: Figure<'%'>,
): PullDownPart | undefined {
  const to = step.oxygenTo.value < end.value ? end : step.oxygenTo;
  const fruit = fruitAt(filled, elapsed, meanLevel(from, to));
  if (!fruit) return undefined;
  const { flow, purity } = step;
  const floor = compute(
    'oxygen the nitrogen and the fruit would come to',
    '%',
    'oxygenInGas - 100 * use / flow',
    { oxygenInGas: oxygenInNitrogen(purity), use: fruit.oxygenUse, flow },
    (v) => v.oxygenInGas - (100 * v.use) / v.flow,
  );
  const hours = finite(
    compute(
      `hours of ${Number(purity.value.toFixed(2))} % nitrogen, the fruit using oxygen too`,
      'h',
      'volume / flow * log((oxygenFrom - floor) / (oxygenTo - floor))',
      { volume, flow, oxygenFrom: from, oxygenTo: to, floor },
      (v) => (v.volume / v.flow) * Math.log((v.oxygenFrom - v.floor) / (v.oxygenTo - v.floor)),
    ),
  );
  return hours && { kind: 'nitrogen', hours, oxygenTo: to, carbonDioxide: fruit.carbonDioxide, flow };
}

function half(hours: Figure<'h'>): Figure<'h'> {
  return compute('half of the wait', 'h', 'hours / 2', { hours }, (v) => v.hours / 2);
}

function hoursSoFar(parts: readonly PullDownPart[]): Figure<'h'> {
  return sumOf(
    'hours of the pull-down',
    'h',
    parts.map(({ kind, hours }, index) => [keyOf(kind, index), hours] as const),
  );
}

/** `part_1_waits`, `part_2_nitrogen`: the stretches in their order. */
function keyOf(kind: PullDownPart['kind'], index: number): string {
  return `part_${index + 1}_${kind}`;
}

function nitrogenOf(parts: readonly PullDownPart[]): Figure<'m3'> {
  const fed = parts.flatMap(({ flow, hours }) => (flow ? [{ flow, hours }] : []));
  return sumOf(
    'nitrogen fed, by the closed form',
    'm3',
    fed.map(({ flow, hours }, index) => {
      const volume = compute('nitrogen of one purity', 'm3', 'flow * hours', { flow, hours }, (v) => {
        return v.flow * v.hours;
      });
      return [`purity_${index + 1}`, volume] as const;
    }),
  );
}

/** Carbon dioxide made from sealing to opening: stretch by stretch of the pull-down, then at the rate in store. */
export function carbonDioxideMadeClosed(
  pullDown: ClosedPullDown,
  inStore: Figure<'kg/day'>,
  course: CourseRoom,
): Figure<'kg'> {
  const parts = pullDown.parts.map(({ kind, hours, carbonDioxide: rate }, index) => {
    const made = compute(
      'made in a stretch of the pull-down',
      'kg',
      'rate * hours / 24',
      { rate, hours },
      (v) => {
        return (v.rate * v.hours) / 24;
      },
    );
    return [keyOf(kind, index), made] as const;
  });
  const closed = countedFigure(
    'hours from sealing to opening',
    'h',
    course.untilHours,
    'the dates of the fill',
  );
  const kept = compute(
    'made in store',
    'kg',
    'inStore * max(0, closed - pullDown) / 24',
    { inStore, closed, pullDown: pullDown.hours },
    (v) => (v.inStore * Math.max(0, v.closed - v.pullDown)) / 24,
  );
  return sumOf('carbon dioxide made, by the closed form', 'kg', [...parts, ['inStore', kept]]);
}
