import { describe, expect, it } from 'vitest';
import { sectionIn, severitiesIn, wrongIn } from '../../src/server/settings';

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

  it.each([
    [{ findings: { 'lime-dust': 'off' } }, []],
    [null, []],
    [[], ['Setting lotwright must be an object, not [].']],
    [
      { findings: 'off' },
      [expect.stringMatching(/^Setting lotwright\.findings must be an object .*, not "off"\.$/)],
    ],
    [
      { findings: { 'lime-dust': 'fatal', 'lime-dist': 'off' } },
      [
        'Setting lotwright.findings.lime-dust must be one of error, warning, notice, off, not "fatal".',
        'Setting lotwright.findings: no finding has the code "lime-dist".',
      ],
    ],
  ])('are told what is wrong with them: %j', (settings, wrong) => {
    expect([...wrongIn(settings)]).toEqual(wrong);
  });

  it('are found in what a client says of all its settings', () => {
    const lotwright = { findings: { 'lime-dust': 'off' } };
    expect(sectionIn({ settings: { yaml: {}, lotwright } })).toBe(lotwright);
    for (const nothing of [
      undefined,
      null,
      {},
      { settings: null },
      { settings: [] },
      { settings: { yaml: {} } },
    ])
      expect(sectionIn(nothing)).toBeUndefined();
  });
});
