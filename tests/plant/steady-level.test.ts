import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { steadyLevel } from '../../src/plant/steady-level';

const text = readFileSync(path.resolve(__dirname, '../findings/example-plan.lotplan.yaml'), 'utf8');
const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text }]), { release: 'none' });
const filled = season.filled.get('R1-gala');
const scrubber = season.plan.scrubbers.get('S1');

describe("a room's carbon dioxide with its scrubber", () => {
  if (!filled || !scrubber) throw new Error('the example plan has changed');
  const { level, timeConstant } = steadyLevel(filled, scrubber);

  it('rests where removal, in proportion to the level, balances what the fruit gives off', () => {
    // 60 kg a day at 3 % is 20 kg a day for each per cent.
    expect(level?.value).toBeCloseTo((filled.carbonDioxideInStore?.value ?? 0) / 20, 12);
  });

  it('comes within 5 % of that in three time constants, by the balance itself', () => {
    const volume = filled.freeGasVolume?.value ?? 0;
    // Ideal gas at 101.325 kPa: 44.0095 g/mol over 8.314 J/mol K.
    const density = (101.325 * 44.0095) / 8.314462618 / (273.15 + (filled.regime?.temperature.value ?? 0));
    const load = (filled.carbonDioxideInStore?.value ?? 0) / 24;
    let percent = 0;
    const step = (timeConstant?.value ?? 0) / 2000;
    for (let n = 0; n < 6000; n++)
      percent += (((load - (20 / 24) * percent) * 100) / (volume * density)) * step;
    expect(percent / (level?.value ?? 1)).toBeCloseTo(1 - Math.exp(-3), 3);
  });

  it('is not known without a scrubber', () => {
    expect(steadyLevel(filled, undefined)).toEqual({});
  });
});
