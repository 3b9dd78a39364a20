import { describe, expect, it } from 'vitest';
import { severitiesIn } from '../../src/server/settings';

describe("the editor's settings", () => {
  it('set severities by code', () => {
    const settings = { findings: { 'lime-dust': 'off', 'room-overfilled': 'warning' } };
    expect([...severitiesIn(settings)]).toEqual([
      ['lime-dust', 'off'],
      ['room-overfilled', 'warning'],
    ]);
  });

  it.each([undefined, null, 3, [], {}, { findings: [] }, { findings: 'off' }, { findings: { a: 'fatal' } }])(
    'are left alone where they make no sense: %j',
    (settings) => {
      expect(severitiesIn(settings).size).toBe(0);
    },
  );
});
