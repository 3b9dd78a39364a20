import { describe, expect, test } from 'vitest';
import { inMemory, lotwright } from './in-process';

/** A packer in Europe, whose plan is metric, sends the check to a buyer in the United States. */
const PLAN = `lotwright: 1
season: { name: Orrowby 2026, starts: 2026-09-01, ends: 2027-08-31, units: metric, carton: 18 kg }
bins:
  plastic:
    outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }
    net-fruit: 300 kg
    tare: 42 kg
    material: plastic
rooms:
  R1:
    inside: { length: 13.1 m, width: 4.8 m, height: 5.8 m }
    bin-type: plastic
    stack: 8
lots:
  L1: { variety: Gala, picked: 2026-09-08..2026-09-10, bins: 60, maturity: { starch: 6.5, firmness: 58 N } }
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-08
    last-bin: 2026-09-16
    sealed: 2026-09-18
    lots: { L1: 60 }
`;

const given = { files: inMemory({ '/plan/season.lotplan.yaml': PLAN }), cwd: '/' };
const told = async (...words: string[]) =>
  (await lotwright([...words, '/plan'], given)).out.replace(/\s+/g, ' ');

describe('the units asked for', () => {
  test('reach the words of findings, in text and for programs', async () => {
    expect(await told('check')).toContain('8 bins of 0.78 m stand higher than the room (5.80 m)');
    expect(await told('check', '--units', 'us')).toContain(
      '8 bins of 2.6 ft stand higher than the room (19.0 ft)',
    );
    expect(await told('check', '--units', 'us', '--format', 'sarif')).toContain(
      'higher than the room (19.0 ft)',
    );
  });

  test('reach what is said of a lot that is too ripe', async () => {
    expect(await told('check')).toContain('firmness 58 N is below the short-term 71.2 N');
    expect(await told('check', '--units', 'us')).toContain('firmness 13 lbf is below the short-term 16 lbf');
  });
});
