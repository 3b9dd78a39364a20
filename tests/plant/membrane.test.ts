import { describe, expect, it } from 'vitest';
import { membraneShares } from '../../src/plant/membrane';
import { oxygenBalance } from '../../src/plant/oxygen-balance';
import { removalAt, removalPerLevel, settlingLevel, worksAgainst } from '../../src/plant/scrubber';
import { steadyLevel } from '../../src/plant/steady-level';
import { roomCourse } from '../../src/room/course/room-course';
import { aFill, aPlan, aScrubber, day, figure, known, onlyRoom } from '../room/orchard';

const selectivity = {
  at: { file: 'test', start: 0, end: 0 },
  overOxygen: figure('1' as const, 6),
  overNitrogen: figure('1' as const, 25),
};
const membrane = aScrubber({
  kind: 'membrane',
  removal: figure('kg/day', 60),
  atLevel: figure('%', 3),
  selectivity,
});
const rated = aScrubber({ kind: 'membrane', removal: figure('kg/day', 60), atLevel: figure('%', 3) });
const filled = onlyRoom(aPlan({ fills: [aFill({ lots: { L1: 500, L2: 350 } })] }));

describe('a membrane', () => {
  it('of known selectivity works against outside air', () => {
    const perLevel = removalPerLevel(membrane);
    expect(known(perLevel)).toBeCloseTo(60 / 2.96, 9);
    if (!perLevel) throw new Error('no removal');
    expect(removalAt(perLevel, figure('%', 3), worksAgainst(membrane)).value).toBeCloseTo(60, 9);
    expect(removalAt(perLevel, figure('%', 0.04), worksAgainst(membrane)).value).toBe(0);
    expect(known(settlingLevel(figure('kg/day', 60), perLevel, worksAgainst(membrane)))).toBeCloseTo(3, 9);
  });

  it('without one is taken as rated, in proportion to the level', () => {
    expect(worksAgainst(rated)).toBeUndefined();
    expect(known(removalPerLevel(rated))).toBeCloseTo(20, 9);
    expect(oxygenBalance(filled, rated)?.throughMembrane).toBeUndefined();
  });

  it('lets oxygen in as its partial pressures and selectivity have it', () => {
    const passed = known(oxygenBalance(filled, membrane)?.throughMembrane);
    const [made, oxygen, level] = [
      known(filled.carbonDioxideInStore),
      known(filled.regime?.oxygen),
      known(filled.regime?.carbonDioxide),
    ];
    const density = 44.0095e-3 / ((8.314462618 * (273.15 + known(filled.regime?.temperature))) / 101_325);
    expect(passed).toBeCloseTo(((made / 24 / density) * (20.9 - oxygen)) / (6 * (level - 0.04)), 6);
  });

  it('comes to the same in the balance for a calculator and in the integrated course', () => {
    const course = roomCourse(filled, day('2027-04-05'), {
      scrubbing: {
        kgPerDayPerPercent: known(removalPerLevel(membrane)),
        passive: false,
        bedAirM3h: 0,
        turns: [],
        membrane: membraneShares(membrane),
      },
    });
    const balance = oxygenBalance(filled, membrane);
    expect(known(balance?.surplus) > 0).toBe(
      course?.course.events.some(({ kind }) => kind === 'oxygen-climbs') ||
        !course?.course.events.some(({ kind }) => kind === 'set-point-reached'),
    );
  });

  it('brings a room to rest a little above what its rating alone would', () => {
    const [against, alone] = [membrane, rated].map((one) => known(steadyLevel(filled, one).level));
    expect(against).toBeCloseTo(((alone ?? 0) * 2.96) / 3 + 0.04, 9);
  });
});
