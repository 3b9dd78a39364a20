import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';

/** The whole small plan as the plan language prints it: its room, its fruit and its nitrogen. */
const README = readFileSync(path.resolve(__dirname, '../../schemas/README.md'), 'utf8');
const WHOLE = /## A whole small plan[\s\S]*?```yaml\n([\s\S]*?)```/.exec(README)?.[1] ?? '';

function toldOf(text: string): Map<string, string> {
  const season = computeSeason(readPlan([{ path: 'whole.lotplan.yaml', text }]), { courses: true });
  return new Map(findingsOf(season).map(({ code, message }) => [code, message]));
}

/** The room with this half-life, filled with so many bins. */
function roomOf(minutes: number, bins: number, more = ''): Map<string, string> {
  return toldOf(
    WHOLE.replace('after: 30 min, tested: 2026-08-12 }', `after: ${minutes} min, tested: 2026-08-12 }${more}`)
      .replace('bins: 140, received: 136', 'bins: 300')
      .replace('L1: 136, L2: 60', `L1: ${bins}`),
  );
}

function minutesIn(message: string | undefined, pattern: RegExp): number {
  const minutes = Number(pattern.exec(message ?? '')?.[1]);
  expect(minutes, `${pattern} in: ${message}`).toBeGreaterThan(0);
  return minutes;
}

describe('the whole small plan', () => {
  it('comes to 5 % oxygen under the rule of Washington though its purity is raised just there', () => {
    const lawful = WHOLE.replace('    nitrogen: N1\n', '    nitrogen: N1\n    law: washington\n');
    expect(lawful).toContain('law: washington');
    expect(toldOf(lawful).has('claim-not-supported')).toBe(false);
  });
});

describe('the tightness that cures a leaky room', () => {
  it.each([190, 180, 170, 160, 150])('is one that does, for both that ask for it, with %i bins', (bins) => {
    const told = roomOf(12, bins);
    const holds = minutesIn(told.get('oxygen-climbs'), /tight to a half-life of (\d+) min/);
    const enough = minutesIn(told.get('room-too-leaky'), /Brought to (\d+) min it is tight enough/);
    expect(roomOf(holds, bins).has('oxygen-climbs')).toBe(false);
    // A little less lets oxygen rise by less than what is called climbing; a good deal less does not do.
    const onTheWay = roomOf(Math.floor(holds * 0.6), bins).get('oxygen-climbs');
    expect(minutesIn(onTheWay, /tight to a half-life of (\d+) min/)).toBe(holds);
    const cured = roomOf(enough, bins);
    expect(cured.has('oxygen-climbs') || cured.has('room-too-leaky')).toBe(false);
  });

  it('is not told where no room is built so tight, and what else does it is', () => {
    const leaky = roomOf(12, 90).get('room-too-leaky') ?? '';
    expect(leaky).toContain(
      'No tightness alone does it: rooms are brought to 60 min at most (common practice)',
    );
    expect(leaky).not.toContain('Brought to');
    expect(roomOf(60, 90).has('oxygen-climbs')).toBe(true);
    const withBag = minutesIn(leaky, /a breather bag that takes up the weather, and (\d+) min\./);
    const cured = roomOf(withBag, 90, '\n    breather-bag: 20 m3');
    expect(cured.has('room-too-leaky') || cured.has('oxygen-climbs')).toBe(false);
    expect(roomOf(12, 3).get('room-too-leaky')).not.toContain('breather bag');
  });
});

describe('a room that no tightness alone holds', () => {
  it.each([
    [12, 110],
    [30, 60],
    [60, 60],
  ])('is told the bag and the fruit that do, at %i min with %i bins', (minutes, bins) => {
    const climbs = roomOf(minutes, bins).get('oxygen-climbs');
    expect(climbs).toContain(
      'No tightness alone holds it. It would hold if you give the room a breather bag',
    );
    const fuller = minutesIn(climbs, /put (\d+) bins of its fruit into it instead of/);
    expect(roomOf(minutes, fuller).has('oxygen-climbs')).toBe(false);
    expect(roomOf(minutes, Math.floor((bins + fuller) / 2)).has('oxygen-climbs')).toBe(true);
    const half = /with a half-life of (\d+) min/.exec(climbs ?? '')?.[1];
    const bagged = roomOf(Number(half ?? minutes), bins, '\n    breather-bag: 20 m3');
    expect(bagged.has('oxygen-climbs')).toBe(false);
  });

  it('is not told a bag where the fruit does not keep up with the leak alone', () => {
    const climbs = roomOf(60, 30).get('oxygen-climbs');
    expect(climbs).not.toContain('breather bag');
    expect(climbs).toContain('It would hold if you put 125 bins of its fruit into it instead of 30.');
  });
});
