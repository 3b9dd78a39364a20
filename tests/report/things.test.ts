import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { findThing } from '../../src/report/find-thing';
import { figureId } from '../../src/report/named-figures';
import { thingsOf } from '../../src/report/things';

const folder = path.resolve(__dirname, '../../sample-plans/first-season');
const plan = readPlan(
  fs
    .readdirSync(folder)
    .sort()
    .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') })),
);
const season = computeSeason(plan, { release: 'none' });
const things = thingsOf(season);

function figure(words: string) {
  const found = findThing(things, words);
  if (found.kind !== 'figure') throw new Error(`${words}: ${JSON.stringify(found)}`);
  return found.figure.figure;
}

describe('what can be explained of a plan', () => {
  test.each([
    ['R2', 'room'],
    ['R2-gala', 'fill'],
    ['G4', 'lot'],
    ['Gala', 'variety'],
    ['Fuji', 'variety'],
    ['gala-own', 'regime'],
    ['S1', 'scrubber'],
    ['N1', 'nitrogen source'],
    ['engine-room', 'refrigeration group'],
    ['plastic-1200', 'bin type'],
    ['gala-winter', 'demand'],
    ['packing', 'section'],
    ['room-overfilled', 'finding'],
  ])('%s, a %s', (words, kind) => {
    expect(findThing(things, words)).toMatchObject({ kind: 'thing', thing: { kind, id: words } });
  });

  test('the figures of a room are those of its capacity and its fill', () => {
    expect(figure('R2.volume')).toBe(season.capacities.get('R2')?.volume);
    expect(figure('R2.free-gas-volume')).toBe(season.filled.get('R2-gala')?.freeGasVolume);
    expect(figure('R2-gala.free-gas-volume')).toBe(season.filled.get('R2-gala')?.freeGasVolume);
    expect(figure('R2.latest')).toEqual(season.keeping.get('R2-gala')?.window?.latest.because);
  });

  test('those of a day, a week or a lot are there to be asked for, and are not listed', () => {
    expect(figure('R2.cooling-2026-09-08')).toBe(season.filled.get('R2-gala')?.intake[0]?.heat);
    expect(figure('S1.load-2026-W45').unit).toBe('kg/day');
    expect(figure('R2.G4-storage-life')).toBe(figure('G4.storage-life'));
    const room = things.find(({ kind, id }) => kind === 'room' && id === 'R2');
    expect(room?.figures.find(({ slug }) => slug === 'cooling-2026-09-08')?.minor).toBe(true);
    expect(room?.figures.find(({ slug }) => slug === 'volume')?.minor).toBe(false);
  });

  test('no two figures of a thing have the same name', () => {
    for (const thing of things) {
      const ids = thing.figures.map(figureId);
      expect(new Set(ids).size, `${thing.kind} ${thing.id}`).toBe(ids.length);
    }
  });

  test('every figure can be asked for by its name', () => {
    for (const thing of things.filter(({ kind }) => kind !== 'fill'))
      for (const named of thing.figures)
        expect(findThing(things, `${thing.kind}:${figureId(named)}`).kind, figureId(named)).toBe('figure');
  });
});
