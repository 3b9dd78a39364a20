import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/findings/types';
import { findingsOnExample, seasonOfExample } from './page';

/** What is said of a scrubber with too much to do: how high its rooms come, what their fruit bears, and what was tried. */

/** Two rooms of Gala on S1, of so much removal and so many hours, and another scrubber where there is one. */
function twoRooms(removal: number, { on = 'S1', other = '', hours = 24 } = {}): string {
  return `rooms:
  R2:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 45 kW, group: engine-room }
    tightness: { from: 250 Pa, to: 125 Pa, after: 32 min }
    scrubber: ${on}
    nitrogen: N1
plant:
  scrubbers:
    S1: { kind: carbon, removal: ${removal} kg/day, at-level: 3 %, hours-a-day: ${hours} }
${other}lots:
  L3: { variety: Gala, picked: 2026-09-05..2026-09-15, bins: 286, maturity: { starch: 2.8, firmness: 82 N } }
fills:
  R2-gala:
    room: R2
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: { L3: 286 }
`;
}

function overloaded(example: string): Finding | undefined {
  return findingsOnExample(example).find(({ code }) => code === 'scrubber-overloaded');
}

describe('how high carbon dioxide comes', () => {
  it('is that of the course of the room nearest to its limit, with what its fruit bears and how that is known', () => {
    const example = twoRooms(9);
    const { message = '' } = overloaded(example) ?? {};
    const highest = Math.max(
      ...(seasonOfExample(example).courses?.scrubbers ?? []).flatMap(({ rooms }) =>
        rooms.map((room) => room.highest.value),
      ),
    );
    expect(message).toContain(
      `its carbon dioxide comes to ${highest.toFixed(1)} % at most, and Gala bears 2.5 % (published).`,
    );
    expect(message).not.toContain('settle');
  });
});

describe('an overloaded scrubber is an error', () => {
  it('where a room stays above what its fruit bears for more than a week', () => {
    const { severity, message } = overloaded(twoRooms(5)) ?? {};
    expect(severity).toBe('error');
    const [, days] = /stays above it for (\d+) days: beyond 7 days/.exec(message ?? '') ?? [];
    expect(Number(days)).toBeGreaterThan(7);
  });

  it('and else a warning', () => {
    expect(overloaded(twoRooms(9))?.severity).toBe('warning');
  });
});

describe('what carries the load', () => {
  it('is no other scrubber where there is none', () => {
    expect(overloaded(twoRooms(10))?.message).not.toMatch(
      /scrubber instead|another scrubber| on S\d instead/,
    );
  });

  it('is another scrubber with the load that both come to, and then the finding goes', () => {
    const other = '    S2: { kind: carbon, removal: 12 kg/day, at-level: 3 % }\n';
    const { message = '' } = overloaded(twoRooms(10, { other })) ?? {};
    expect(message).toMatch(/With R\d on S2 instead, S1 comes to \d+ % and S2 to \d+ %: that is enough\./);
    expect(overloaded(twoRooms(10, { other, on: 'S2' }))).toBeUndefined();
  });

  it('is none that another room would be too much for', () => {
    const other = '    S2: { kind: carbon, removal: 3 kg/day, at-level: 3 % }\n';
    expect(overloaded(twoRooms(10, { other }))?.message).not.toContain('S2');
  });

  it('is more hours a day, and an hour less does not', () => {
    const { message = '' } = overloaded(twoRooms(20, { hours: 12 })) ?? {};
    const hours = Number(/So would (\d+) hours a day instead of 12\./.exec(message)?.[1]);
    expect(overloaded(twoRooms(20, { hours }))).toBeUndefined();
    expect(overloaded(twoRooms(20, { hours: hours - 1 }))).toBeDefined();
  });
});
