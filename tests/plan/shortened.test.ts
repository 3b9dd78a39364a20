import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shortened } from '../../src/plan/shortened';
import { quoted } from '../../src/plan/text/say';
import { inMemory, lotwright } from '../cli/in-process';
import { sampleFiles } from '../samples/sample';
import { computed } from '../server/plans';

/** A name as a paste gone wrong makes one. */
const LONG = 'Orrowby Vale, harvest 2026 '.repeat(6000).trim();
const files = sampleFiles('first-season').map(({ path, text }) => ({
  path,
  text: text.replace(/^( {2}name:).*$/m, `$1 ${LONG}`),
}));
const inFolder = Object.fromEntries(files.map(({ path, text }) => [`/plan/${path}`, text]));

describe('a season whose name was pasted over and over', () => {
  it('is told by the beginning of its name in the titles of reports and papers', async () => {
    const given = { files: inMemory(inFolder), cwd: '/' };
    for (const words of [['rooms'], ['windows'], ['release'], ['status'], ['papers', '--as', 'markdown']]) {
      const { out } = await lotwright([words[0] ?? '', '/plan', ...words.slice(1)], given);
      expect(out, words[0]).toContain('Orrowby Vale, harvest 2026 Orrowby Vale');
      expect(
        out.split('\n').every((line) => line.length < 2000),
        words[0],
      ).toBe(true);
      expect(out, words[0]).toContain('…');
    }
  });

  it('keeps all of its name in data', async () => {
    const { out } = await lotwright(['rooms', '/plan', '--format', 'json'], {
      files: inMemory(inFolder),
      cwd: '/',
    });
    expect(JSON.parse(out).plan.season).toBe(LONG);
  });
});

describe('a fill that names a room which goes on and on', () => {
  it('is told of by the beginning of the name in findings, and keeps all of it', () => {
    const name = `R2${'x'.repeat(160_000)}`;
    const text = `lotwright: 1\nrooms:\n  R1: {}\nfills:\n  F1: { room: ${name} }\n`;
    const { season, findings } = computed([{ path: 'plan.lotplan.yaml', text }]);
    expect(season.plan.fills.get('F1')?.room?.value).toBe(name);
    const [unknown] = findings.filter(({ code }) => code === 'unknown-reference');
    expect(unknown?.message).toMatch(/^No room `R2x{70,}… /);
    for (const { message } of findings) expect(message.length).toBeLessThan(500);
  });
});

describe('a text cut for show', () => {
  it('is cut between characters as people see them', () => {
    // An e with its acute accent beside it, and a family that is one picture.
    expect(shortened(`ab${'e\u0301'.repeat(9)}`, 6)).toBe('abe\u0301\u2026');
    expect(shortened('Obsthof \u{1F468}\u200D\u{1F469}\u200D\u{1F467} Nord', 12)).toBe('Obsthof…');
    expect(quoted('plastic-1200')).toBe('`plastic-1200`');
  });

  it('is never longer than asked for, and begins as the text does', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 1, max: 30 }), (text, most) => {
        const cut = shortened(text, most);
        expect(cut.length).toBeLessThanOrEqual(most);
        if (text.length <= most) expect(cut).toBe(text);
        else {
          expect(text.startsWith(cut.slice(0, -1))).toBe(true);
          expect(cut.endsWith('…')).toBe(true);
        }
      }),
    );
  });
});
