import { describe, expect, it } from 'vitest';
import { folded } from '../../src/findings/again/folded';
import { LateFigure, LetsGo } from '../../src/plan/late-figure';
import type { FilledRoom } from '../../src/room/types';
import { aPlan, figure, onlyRoom } from './orchard';

/** A room whose lots come in as they are picked, or evenly. */
function rooms(): readonly FilledRoom[] {
  const plan = aPlan();
  const evenly = { ...plan, policy: { ...plan.policy, arrivals: 'evenly' as const } };
  return [onlyRoom(plan), onlyRoom(evenly)];
}

const told = ({ arrivals, intake }: FilledRoom) => JSON.parse(JSON.stringify([arrivals, intake])) as unknown;

describe('days of filling that have let go of what they were made from', () => {
  it('say what they said, figures and all', () => {
    for (const [index, room] of rooms().entries()) {
      const before = told(room);
      let asked = 0;
      const held = folded(room, () => {
        asked++;
        return rooms()[index];
      });
      const heats = held.intake.map(({ heat, fieldHeat, binsIn }) => [
        heat.value,
        fieldHeat.value,
        binsIn.value,
      ]);
      expect(heats).toEqual(
        rooms()[index]?.intake.map(({ heat, fieldHeat, binsIn }) => [
          heat.value,
          fieldHeat.value,
          binsIn.value,
        ]),
      );
      expect(held.intake[0]?.heat).toBeInstanceOf(LateFigure);
      expect(asked).toBe(0);
      expect(told(held)).toEqual(before);
      expect(asked).toBeGreaterThan(0);
    }
  });

  it('say that the plan has gone on where it has', () => {
    const [room] = rooms();
    const held = room && folded(room, () => undefined);
    expect(held?.intake[0]?.heat.name).toBe('a figure of the plan before its last change');
    expect(held?.intake[0]?.heat.origin).toMatchObject({ what: 'the plan as it was before its last change' });
    expect(held?.arrivals[0]?.bins.value).toBeGreaterThan(0);
  });
});

it('a late figure tells nothing of a figure with another value', () => {
  const one = figure('kW', 3);
  expect(new LateFigure(3, 'kW', () => one).name).toBe(one.name);
  expect(new LateFigure(4, 'kW', () => one).name).toBe('a figure of the plan before its last change');
  expect(new LateFigure(3, 'h', () => one).beside).toBeUndefined();
});

it('days of filling are such as let go', () => {
  for (const { arrivals, intake } of rooms())
    for (const one of [...arrivals, ...intake]) expect(one).toBeInstanceOf(LetsGo);
});
