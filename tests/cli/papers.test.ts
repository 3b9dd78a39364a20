import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { nodeFiles } from '../../src/cli/files';
import { visibleWidth } from '../../src/report/table';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

const FIRST = 'sample-plans/first-season';
const READERS = ['packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone'];

/** The first season's files in memory, with whatever else stands beside them. */
function season(others: Readonly<Record<string, string>> = {}) {
  const folder = path.join(root, FIRST);
  const files = fs.readdirSync(folder).map((name) => {
    return [`/plan/${name}`, fs.readFileSync(path.join(folder, name), 'utf8')] as const;
  });
  return { files: inMemory({ ...Object.fromEntries(files), ...others }), cwd: '/' };
}

describe('papers', () => {
  test.each([
    ['packhouse-markdown', ['--for', 'packhouse']],
    ['grower-calendar', ['--grower', 'Larkfield', '--as', 'calendar']],
  ])('of the first season read as they did: %s', async (name, words) => {
    const { out, code } = await lotwright(['papers', FIRST, ...words, '--issued', '2026-11-27']);
    expect(code).toBe(0);
    await expect(out).toMatchFileSnapshot(path.join(root, `tests/cli/golden/papers-${name}.txt`));
  });

  test('keep to weeks published before, and each says where its weeks come from', async () => {
    const report = JSON.stringify({
      format: 'lotwright-release-report',
      rooms: [
        { fill: 'R1-gala', opens: '2026-W41' },
        { fill: 'R2-gala', opens: '2026-W30' },
        { fill: 'R4-braeburn', opens: '2026-W12' },
      ],
    });
    const given = season({ '/weeks.json': report });
    for (const reader of ['packhouse', 'growers']) {
      const words = ['papers', '/plan', '--for', reader, '--keep-weeks', '/weeks.json'];
      const one = reader === 'growers' ? ['--grower', 'Larkfield'] : [];
      const { out, code } = await lotwright([...words, ...one], given);
      expect(code).toBeLessThan(2);
      expect(out).toMatch(reader === 'growers' ? /^Opening weeks are /m : /published before/);
    }
    const { out } = await lotwright(
      ['papers', '/plan', '--keep-weeks', '/weeks.json', '--as', 'json'],
      given,
    );
    const { rooms, basis }: { rooms: { fill: string; opens?: string; setBy?: string }[]; basis: string } =
      JSON.parse(out);
    const of = (fill: string) => rooms.find((room) => room.fill === fill);
    expect(of('R1-gala')).toMatchObject({ opens: '2026-W41', setBy: 'published' });
    // A pin goes before what was published, and a week outside the window is not kept.
    expect(of('R2-gala')).toMatchObject({ opens: '2027-W01', setBy: 'pin' });
    expect(of('R4-braeburn')?.setBy).toBe('quick');
    expect(basis).toBe(
      'Opening weeks are those pinned in the plan, those published before, for other rooms those of the quick schedule, which a search for the best may change.',
    );
  });

  test('of rooms that have been opened say so', async () => {
    const { out } = await lotwright(['papers', 'sample-plans/in-march', '--as', 'json']);
    const { rooms, basis }: { rooms: { setBy?: string }[]; basis: string } = JSON.parse(out);
    expect(new Set(rooms.map(({ setBy }) => setBy))).toEqual(new Set(['opened']));
    expect(basis).toBe('Opening weeks are those in which rooms were opened.');
  });

  test.each(['first-season', 'us-units', 'with-mistakes'])(
    'of %s as JSON fit their schema',
    async (sample) => {
      for (const reader of READERS) {
        const kept: Record<string, string> = {};
        const save = (file: string, content: string | Uint8Array) => {
          kept[file] = String(content);
          return undefined;
        };
        const words = [
          'papers',
          `sample-plans/${sample}`,
          '--for',
          reader,
          '--as',
          'json',
          '--out',
          'nowhere/',
        ];
        const { code } = await lotwright(words, { files: { ...nodeFiles, save } });
        expect(code).toBeLessThan(2);
        expect(Object.keys(kept).length).toBeGreaterThan(0);
        for (const text of Object.values(kept))
          expect(errorsAgainst('papers-report', JSON.parse(text))).toEqual([]);
      }
    },
  );

  test('say nothing of the day they are made on, unless they are issued', async () => {
    const run = (words: readonly string[]) => lotwright(['papers', FIRST, ...words]);
    expect((await run([])).out).not.toContain('2027-03-01T');
    expect((await run([])).out).not.toContain('Issued');
    expect((await run(['--issued', '2026-11-27'])).out).toContain('Issued 2026-11-27.');
  });

  test('are in the units asked for', async () => {
    const { out } = await lotwright(['papers', FIRST, '--for', 'cold-store', '--units', 'us']);
    expect(out).toContain('Temperature (°F)');
    expect(out).toContain('Fruit (lb)');
  });

  test('of one grower hold no lot of another', async () => {
    const { out } = await lotwright(['papers', FIRST, '--grower', 'Larkfield']);
    expect(out).toContain('G6');
    expect(out).not.toMatch(/G[1-5]|Hollow Farm|Weir Orchard/);
    const wrong = await lotwright(['papers', FIRST, '--grower', 'Larkfeld']);
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toContain('Nearest: Larkfield.');
  });

  test('end with 1 where the plan has findings at the failing severity', async () => {
    const { code, err } = await lotwright(['papers', 'sample-plans/with-mistakes', '--for', 'cold-store']);
    expect(code).toBe(1);
    expect(err).toContain('figures may be missing or wrong');
  });
});

describe('what is written', () => {
  const calendar = ['papers', 'plan', '--for', 'packhouse', '--as', 'calendar', '--out', 'packhouse.ics'];

  test('are the files asked for, and nothing else', async () => {
    const given = season();
    const { out, code } = await lotwright(
      ['papers', 'plan', '--for', 'growers', '--as', 'csv', '--out', 'issued'],
      given,
    );
    expect(code).toBe(0);
    const growers = ['hollow-farm', 'larkfield', 'weir-orchard'];
    const names = growers.flatMap((grower) =>
      ['weeks', 'lots', 'packing'].map((one) => `grower-${grower}-${one}.csv`),
    );
    expect(out).toBe(names.map((name) => `Written: issued/${name}\n`).join(''));
    for (const name of names) expect(given.files.kindOf(`/issued/${name}`)).toBe('file');
  });

  test.each(['markdown', 'html', 'csv', 'workbook', 'calendar', 'json'])(
    'is written over as %s by the next issue, and never over anything else',
    async (form) => {
      const given = season({ '/out/note.txt': 'mine' });
      const words = ['papers', 'plan', '--for', 'sales', '--as', form, '--out', 'out/'];
      expect((await lotwright(words, given)).code).toBe(0);
      expect((await lotwright([...words, '--units', 'us'], given)).code).toBe(0);
      const other = form === 'csv' ? ['--table', 'weeks'] : [];
      const over = ['papers', 'plan', '--for', 'sales', '--as', form, ...other, '--out', 'out/note.txt'];
      const refused = await lotwright(over, given);
      expect([refused.code, refused.out]).toEqual([2, '']);
      expect(refused.err).toContain('no earlier issue of the same paper');
      expect(given.files.read('/out/note.txt')).toBe('mine');
      expect((await lotwright([...over, '--force'], given)).code).toBe(0);
      expect(given.files.read('/out/note.txt')).not.toBe('mine');
    },
  );

  test('of another reader is not taken for an earlier issue', async () => {
    const given = season();
    expect((await lotwright(calendar, given)).code).toBe(0);
    const lab = calendar.map((word) => (word === 'packhouse' ? 'lab' : word));
    expect((await lotwright(lab, given)).err).toContain('no earlier issue of the same paper');
  });

  test('a calendar that is written over keeps what has not changed', async () => {
    const given = season();
    await lotwright([...calendar, '--issued', '2026-11-27'], given);
    const first = given.files.read('/packhouse.ics');
    await lotwright([...calendar, '--issued', '2026-12-04'], given);
    expect(given.files.read('/packhouse.ics')).toBe(first);
    const moved = { ...given, files: { ...given.files, read: movedBy(given.files.read) } };
    await lotwright([...calendar, '--issued', '2026-12-11'], moved);
    const next = String(given.files.read('/packhouse.ics'));
    expect(next).toContain('SEQUENCE:1\r\n');
    expect(next).toContain('DTSTAMP:20261127');
    expect(next).toContain('DTSTAMP:20261211');
  });

  test('a last issue may stand elsewhere, and has to be of the same calendar', async () => {
    const given = season({ '/notes.txt': 'mine' });
    await lotwright([...calendar, '--issued', '2026-11-27'], given);
    const again = (previous: string) =>
      lotwright(['papers', 'plan', '--for', 'packhouse', '--as', 'calendar', '--previous', previous], given);
    expect((await again('packhouse.ics')).out).toBe(given.files.read('/packhouse.ics'));
    expect((await again('notes.txt')).err).toContain('not an earlier issue of this calendar');
    expect((await again('gone.ics')).err).toContain('There is no calendar gone.ics.');
  });

  test('on a disk makes the folders it needs', async () => {
    const folder = fs.mkdtempSync(path.join(fs.realpathSync(os.tmpdir()), 'papers '));
    const out = path.join(folder, 'issued', 'für alle');
    const run = () => lotwright(['papers', FIRST, '--as', 'workbook', '--out', `${out}/`]);
    expect((await run()).code).toBe(0);
    const bytes = fs.readFileSync(path.join(out, 'everyone.xlsx'));
    expect(bytes.subarray(0, 2).toString()).toBe('PK');
    expect((await run()).code).toBe(0);
    expect(fs.readFileSync(path.join(out, 'everyone.xlsx')).equals(bytes)).toBe(true);
    fs.rmSync(folder, { recursive: true });
  });

  function movedBy(read: (file: string) => ReturnType<ReturnType<typeof inMemory>['read']>) {
    return (file: string) => {
      const text = read(file);
      return typeof text === 'string' ? text.replace('open: 2027-W01', 'open: 2027-W02') : text;
    };
  }
});

describe('wrong usage', () => {
  test.each([
    [['--for', 'bosses'], 'Allowed choices are packhouse'],
    [['--as', 'pdf'], 'Allowed choices are markdown'],
    [['--as', 'csv'], 'give a folder with --out'],
    [['--for', 'growers'], 'or one grower with --grower'],
    [['--as', 'csv', '--table', 'week'], 'There are: weeks'],
    [['--table', 'weeks'], '--table goes with --as csv.'],
    [['--previous', 'a.ics'], '--previous goes with --as calendar.'],
    [['--for', 'sales', '--grower', 'Larkfield'], '--grower goes with --for growers.'],
    [['--as', 'workbook'], 'A workbook is not text'],
    [['--issued', '2026-02-30'], 'Write a calendar date'],
  ])('%j says what to do', async (words, message) => {
    const { code, out, err } = await lotwright(['papers', FIRST, ...words]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });

  test('help fits the page and says what comes first', async () => {
    const { out } = await lotwright(['papers', '--help']);
    expect(Math.max(...out.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'read oxygen and carbon dioxide, both, with a calibrated instrument',
    );
  });
});
