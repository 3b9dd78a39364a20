import { describe, expect, it } from 'vitest';
import { aCourseRoom, eventAt, integrate, scrubbing } from './rooms';

/** Two things that a course is watched for may happen at one level; neither hides the other. */

const pulledDown = (changesAt: number) =>
  integrate(
    aCourseRoom({
      untilHours: 24 * 20,
      feed: {
        startsAtHours: 0,
        steps: [
          { oxygenInGas: 3, flowM3h: 60, untilOxygen: changesAt },
          { oxygenInGas: 1, flowM3h: 30, untilOxygen: 1.5 },
        ],
      },
    }),
  );

describe('what happens at one level', () => {
  it('5 % is told where the purity is raised there, as where it is raised a little above or below', () => {
    const told = [5.001, 5, 4.999].map((level) => eventAt(pulledDown(level), 'five-per-cent'));
    const [above = 0, at = 0, below = 0] = told;
    expect(at).toBeGreaterThanOrEqual(Math.min(above, below) - 0.01);
    expect(at).toBeLessThanOrEqual(Math.max(above, below) + 0.01);
    expect(eventAt(pulledDown(5), 'purity-raised')).toBeCloseTo(at, 6);
  });

  it('5 % is told where it is the set-point itself, or where the feed stops', () => {
    const stages = [{ fromHours: 0, oxygen: 5, carbonDioxide: 1.5 }];
    const atSetPoint = integrate(aCourseRoom({ untilHours: 24 * 60, stages }));
    expect(eventAt(atSetPoint, 'five-per-cent')).toBeCloseTo(eventAt(atSetPoint, 'set-point-reached'), 6);
    const steps = [{ oxygenInGas: 1, flowM3h: 60, untilOxygen: 5 }];
    const fed = integrate(aCourseRoom({ untilHours: 24 * 20, feed: { startsAtHours: 0, steps } }));
    expect(eventAt(fed, 'five-per-cent')).toBeCloseTo(eventAt(fed, 'feed-stops'), 6);
  });

  it('a room held at what its fruit just bears is within it, and carbon dioxide that leaves it is told', () => {
    const limits = { leastOxygen: 1.5, mostCarbonDioxide: 1.5 };
    const kindsOf = (kgPerDayPerPercent: number) =>
      integrate(
        aCourseRoom({ untilHours: 24 * 100, limits, scrubbing: scrubbing(kgPerDayPerPercent) }),
      ).events.map(({ kind }) => kind);
    expect(kindsOf(60)).toContain('set-point-reached');
    expect(kindsOf(60)).not.toContain('oxygen-below-limit');
    const tooWeak = kindsOf(2);
    expect(tooWeak).toContain('carbon-dioxide-above-limit');
  });
});
