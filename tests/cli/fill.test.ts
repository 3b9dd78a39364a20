import { describe, expect, test } from 'vitest';
import type { FileAccess } from '../../src/cli/io';
import { readPlan } from '../../src/plan/read';
import type { FillReport } from '../../src/report/schemas';
import { visibleWidth } from '../../src/report/table';
import { sampleFiles } from '../samples/sample';
import { inMemory, lotwright } from './in-process';
import { errorsAgainst } from './schemas';

/** The first season with the fills from `cut` on taken out of its text. */
function season(cut: RegExp): { files: FileAccess; texts: Record<string, string> } {
  const texts = Object.fromEntries(
    sampleFiles('first-season').map(({ path, text }) => {
      const at = text.search(cut);
      return [`/p/${path}`, at < 0 ? text : text.slice(0, at)];
    }),
  );
  return { files: inMemory(texts), texts };
}

const ALL = /^fills:/m;
/** Golden Delicious and Braeburn still wait for a room. */
const TWO = /^ {2}R3-golden:/m;
const FILE = '/p/fruit.lotplan.yaml';
const PLANT = '/p/orrowby.lotplan.yaml';

async function report(words: readonly string[], files: FileAccess): Promise<FillReport> {
  const { out } = await lotwright(['fill', 'p', '--format', 'json', '--moves', '300', ...words], {
    files,
    cwd: '/',
  });
  return JSON.parse(out);
}

describe('the fill command', () => {
  test('proposes the missing rooms, proven best, in JSON that fits its schema', async () => {
    const found = await report([], season(TWO).files);
    expect(errorsAgainst('fill-report', found)).toEqual([]);
    expect(found.provenBest).toBe(true);
    expect(found.violations).toEqual([]);
    expect(found.rooms.map(({ room, regime, bins }) => [room, regime, bins])).toEqual([
      ['R3', 'golden-delicious-standard', 287],
      ['R4', 'braeburn-own', 290],
    ]);
    expect(found.totals).toMatchObject({ binsUnplaced: 0, freeRooms: 2, roomsUsed: 2, lotsSplit: 0 });
    // Two days after the last bin, as written in the sample; 44 bins a day are 15 % of 295 places.
    const [golden] = found.rooms;
    expect(golden).toMatchObject({
      firstBin: '2026-09-16',
      lastBin: '2026-09-25',
      sealed: '2026-09-27',
      binsADayAllowed: 44,
    });
    expect(golden?.reasons.join(' ')).toContain('Without it');
  });

  test('keeps to the page, says why, and that a room kept in air could not be sealed', async () => {
    const { out, code } = await lotwright(['fill', 'p', '--moves', '300'], {
      files: season(ALL).files,
      cwd: '/',
    });
    expect(code).toBe(0);
    expect(out.split('\n').filter((line) => visibleWidth(line) > 100)).toEqual([]);
    expect(out).toContain('966 of 966 bins of 12 lots go into 4 rooms');
    expect(out).toContain('An independent check of the proposal found nothing wrong.');
    expect(out).toContain('Kept in air: the room has neither scrubber nor nitrogen.');
    expect(out).toContain('Its lots (maturity for short) last to the same week.');
  });

  test('writes all rooms behind the last fill, and then nothing is left to do', async () => {
    const { files, texts } = season(TWO);
    const { written } = await report(['--write'], files);
    expect(written).toEqual([
      { fill: 'R3-golden-delicious', file: 'p/fruit.lotplan.yaml' },
      { fill: 'R4-braeburn', file: 'p/fruit.lotplan.yaml' },
    ]);
    const text = String(files.read(FILE));
    expect(text.startsWith(String(texts[FILE]).trimEnd())).toBe(true);
    expect(text).toContain('    lots: { B1: 100, B2: 95, B3: 95 }\n');
    expect((await report([], files)).totals.bins).toBe(0);
  });

  test('writes one room alone where one is asked for', async () => {
    const { files } = season(TWO);
    const found = await report(['--room', 'R4', '--write'], files);
    expect(found.rooms.map(({ room }) => room)).toEqual(['R4']);
    const fills = readPlan([{ path: 'a', text: String(files.read(FILE)) }]).fills;
    expect([...fills.keys()]).toEqual(['R1-gala', 'R2-gala', 'R4-braeburn']);
  });

  test('begins a section where the plan has none', async () => {
    const { files, texts } = season(ALL);
    await report(['--write'], files);
    const text = String(files.read(FILE));
    expect(text.startsWith(`${texts[FILE]}\nfills:\n  R1-gala:\n    room: R1\n`)).toBe(true);
  });

  test('a room that is not there or in use is said so, and nothing is written', async () => {
    const { files, texts } = season(TWO);
    const wrong = await lotwright(['fill', 'p', '--room', 'R44', '--write'], { files, cwd: '/' });
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toContain('There is no room R44 in the plan. Nearest: R4.');
    const used = await lotwright(['fill', 'p', '--room', 'R1', '--write'], { files, cwd: '/' });
    expect(used.err).toContain('Nothing is proposed for R1');
    expect(files.read(FILE)).toBe(texts[FILE]);
  });

  test('a plan that is full says that there is nothing to place', async () => {
    const { out } = await lotwright(['fill', 'sample-plans/first-season']);
    expect(out).toContain('No bins wait for a room');
  });

  test('bins that find no room are named with the reason', async () => {
    const { files, texts } = season(TWO);
    const small = inMemory({
      ...texts,
      '/p/more.lotplan.yaml': 'lots:\n  X1: { variety: Braeburn, picked: 2026-09-01, bins: 40 }\n',
    });
    expect(files).not.toBe(small);
    const found = await report([], small);
    const reason = 'no room is ready by its picking; it takes another room with 40 places';
    const waysIn = [{ kind: 'room', text: 'it takes another room with 40 places' }];
    expect(found.unplaced).toEqual([{ lot: 'X1', bins: 40, reason, waysIn }]);
    expect(found.leastUnplaced).toBe(40);
  });

  test('more received than expected: with --top-up its bins go into the places left of its own fill', async () => {
    const received = { ...season(/^never$/m).texts };
    received[FILE] = String(received[FILE]).replace('bins: 100, received: 97', 'bins: 100, received: 103');
    // Three bins more and still expected elsewhere: a second lot whose bins have no fill yet.
    received[PLANT] = String(received[PLANT]).replace('cartons: 360', 'cartons: 400');
    const withD4 = (picked: string) =>
      inMemory({
        ...received,
        '/p/more.lotplan.yaml': `lots:\n  D4: { variety: Golden Delicious, grower: Larkfield, picked: ${picked}, bins: 2 }\n`,
      });
    const files = withD4('2026-09-25..2026-09-25');
    const before = ['--today', '2026-09-20', '--top-up'];
    const plain = await report([], files);
    expect([plain.totals.freeRooms, plain.totals.binsUnplaced]).toEqual([0, 8]);
    const found = await report([...before, '--write'], files);
    expect(found.violations).toEqual([]);
    expect(errorsAgainst('fill-report', found)).toEqual([]);
    expect(found.totals).toMatchObject({ freeRooms: 0, roomsBegun: 1, binsUnplaced: 0 });
    expect(found.rooms.map(({ room, fill, bins, binsBefore }) => [room, fill, bins, binsBefore])).toEqual([
      ['R3', 'R3-golden', 295, 287],
    ]);
    const text = String(files.read(FILE));
    // By its last day and sealed as planned.
    expect(text).toContain('    last-bin: 2026-09-25\n    sealed: 2026-09-27\n');
    expect(text).toContain('    lots: { D1: 103, D2: 95, D3: 95, D4: 2 }\n');
    expect(text).toContain('regime: golden-delicious-standard # built in\n');
    expect((await report([], files)).totals.bins).toBe(0);
    // A bin of the day after would have the others sealed a day later: it is left over, and told so.
    const [left] = (await report(before, withD4('2026-09-26..2026-09-26'))).unplaced;
    expect(left).toMatchObject({ lot: 'D4', bins: 2 });
    expect(left?.reason).toContain('R3 could take it, were it sealed on 2026-09-28 instead of 2026-09-27');
    expect(left?.waysIn).toMatchObject([{ kind: 'sealing', room: 'R3' }]);
  });

  test('a room that was ready too late is a cure only as long as the day has not passed', async () => {
    const { texts } = season(TWO);
    const late = String(texts[PLANT]).replace(/^ {2}R3:\n/m, '  R3:\n    ready: 2026-10-20\n');
    const files = inMemory({
      ...texts,
      [PLANT]: late.replace(/^ {2}R4:\n/m, '  R4:\n    ready: 2026-10-20\n'),
    });
    const days = async (day: string) => {
      const { unplaced } = await report(['--as-of', day], files);
      expect(unplaced.length).toBeGreaterThan(0);
      const texts = unplaced.flatMap(({ waysIn }) => waysIn.map(({ text }) => text));
      return texts.flatMap((text) => /ready on (\S+)/.exec(text)?.[1] ?? []).sort();
    };
    // Golden Delicious is picked from 2026-09-16 on.
    const [first] = await days('2026-09-14');
    expect(first).toBe('2026-09-16');
    for (const day of ['2026-09-20', '2026-10-05'])
      for (const ready of await days(day)) expect(ready >= day).toBe(true);
  });

  test('neither a pinned fill nor a sealed room is topped up', async () => {
    const texts = { ...season(/^never$/m).texts };
    texts[FILE] = String(texts[FILE]).replace('bins: 100, received: 97', 'bins: 100, received: 99');
    const sealed = await report(['--today', '2026-09-27', '--top-up'], inMemory(texts));
    expect(sealed.totals).toMatchObject({ freeRooms: 0, binsUnplaced: 2 });
    texts[FILE] = String(texts[FILE]).replace('sealed: 2026-09-27', 'sealed: 2026-09-27\n    open: 2027-W05');
    const pinned = await report(['--today', '2026-09-20', '--top-up'], inMemory(texts));
    expect(pinned.totals).toMatchObject({ freeRooms: 0, binsUnplaced: 2 });
  });

  test('oxygen that climbs a little is told with the proposal, and keeps fruit out with --strict', async () => {
    const texts = { ...season(/^never$/m).texts };
    // Two of the room's three lots use too little oxygen to hold its level.
    texts[FILE] = String(texts[FILE])
      .replace(/^ {2}R2-gala:\n(?: {4}.*\n)*/m, '')
      .replace(/^ {2}G5:[\s\S]*?(?=^ {2}G6:)/m, '');
    const found = await report([], inMemory(texts));
    expect(errorsAgainst('fill-report', found)).toEqual([]);
    expect(found.rooms.map(({ room, bins }) => [room, bins])).toEqual([['R2', 154]]);
    expect(found.remarks.filter((text) => text.startsWith('With this proposal: '))).toEqual([
      expect.stringContaining('oxygen climbs above its 1.5 %, to 1.8 %'),
    ]);
    const strict = await report(['--strict'], inMemory(texts));
    expect(strict.totals).toMatchObject({ roomsUsed: 0, binsUnplaced: 154 });
    expect(strict.takenOut.map(({ lot, code }) => [lot, code])).toEqual([
      ['G4', 'oxygen-climbs'],
      ['G6', 'oxygen-climbs'],
    ]);
    const { out } = await lotwright(['fill', 'p', '--strict'], { files: inMemory(texts), cwd: '/' });
    expect(out).toContain('None of 154 bins of 2 lots goes into a room.\nAll of them would fit:');
    expect(out).not.toContain('no fill leaves fewer');
    expect(out).not.toContain('nine tenths');
  });

  test('the name of a variety is the one that the plan writes', async () => {
    const texts = Object.fromEntries(
      Object.entries(season(TWO).texts).map(([path, text]) => [
        path,
        text.replaceAll('variety: Braeburn', 'variety: BRAEBURN'),
      ]),
    );
    const found = await report([], inMemory(texts));
    const names = found.rooms.filter(({ room }) => room === 'R4').flatMap(({ lots }) => lots);
    expect(names.map(({ variety }) => variety)).toEqual(['BRAEBURN', 'BRAEBURN', 'BRAEBURN']);
  });

  test('growers kept apart share no room', async () => {
    const { files, texts } = season(ALL);
    const apart = inMemory({
      ...texts,
      [PLANT]: String(texts[PLANT]).replace('policy:\n', 'policy:\n  growers: { Hollow Farm: apart }\n'),
    });
    const growers = (found: FillReport) => found.rooms.map((row) => row.growers);
    expect(growers(await report([], files)).filter((list) => list.length > 1)).not.toEqual([]);
    const found = await report([], apart);
    expect(found.violations).toEqual([]);
    for (const list of growers(found))
      if (list.includes('Hollow Farm')) expect(list).toEqual(['Hollow Farm']);
    expect(growers(found).flat()).toContain('Hollow Farm');
  });
});
