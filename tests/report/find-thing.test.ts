import { describe, expect, test } from 'vitest';
import { countedFigure } from '../../src/plan/figure';
import { findThing } from '../../src/report/find-thing';
import { figuresIn, named, slugOf } from '../../src/report/named-figures';
import type { Thing } from '../../src/report/thing';

const bins = countedFigure('bins', 'bins', 235, 'bins of 3 lots');
const volume = countedFigure('volume', 'm3', 365, 'for a test');

function thing(kind: string, id: string, figures: Record<string, typeof bins | typeof volume> = {}): Thing {
  return { kind, id, summary: '', at: [], within: [], figures: named(id, figures) };
}

const things = [
  thing('room', 'R1', { volume, bins }),
  thing('fill', 'R1', { bins }),
  thing('fill', 'R2-gala', { bins }),
  thing('lot', 'S1', { bins }),
  thing('scrubber', 'S1', { capacity: volume }),
  thing('variety', 'Golden Delicious', { 'storage-life': bins }),
  thing('lot', 'G1.a', { bins }),
  thing('finding', 'room-overfilled'),
];

describe('what is asked for', () => {
  test('a room by its identifier, also where its fill has the same one', () => {
    expect(findThing(things, 'R1')).toMatchObject({ kind: 'thing', thing: { kind: 'room' } });
  });

  test('a figure after a point or a slash, however it is spelled', () => {
    for (const words of ['R1.bins', 'R1/bins', 'r1.Bins', ' R1.bins '])
      expect(findThing(things, words)).toMatchObject({ kind: 'figure', figure: { figure: { value: 235 } } });
    expect(findThing(things, 'golden delicious.storage life')).toMatchObject({ kind: 'figure' });
  });

  test('a figure of an owner whose identifier itself has a point', () => {
    expect(findThing(things, 'G1.a.bins')).toMatchObject({ kind: 'figure', thing: { id: 'G1.a' } });
  });

  test('an identifier that two kinds share is told apart by the kind before it', () => {
    expect(findThing(things, 'S1')).toEqual({ kind: 'ambiguous', candidates: ['lot:S1', 'scrubber:S1'] });
    expect(findThing(things, 'scrubber:S1')).toMatchObject({ kind: 'thing', thing: { kind: 'scrubber' } });
    expect(findThing(things, 'S1.capacity')).toMatchObject({ kind: 'figure' });
  });

  test('a figure that a thing does not have: the figures it has', () => {
    expect(findThing(things, 'R1.foo')).toEqual({
      kind: 'unknown',
      nearest: [],
      has: { thing: 'R1', figures: ['volume', 'bins'] },
    });
  });

  test('the nearest names for one that is misspelled', () => {
    expect(findThing(things, 'room-overfiled')).toEqual({ kind: 'unknown', nearest: ['room-overfilled'] });
    expect(findThing(things, 'R1.volum')).toMatchObject({ kind: 'unknown', nearest: ['R1.volume'] });
    expect(findThing(things, 'gala')).toEqual({ kind: 'unknown', nearest: ['R2-gala'] });
    expect(findThing(things, '')).toEqual({ kind: 'unknown', nearest: [] });
  });
});

test('figures are named by where they stand in what was computed', () => {
  const places = { span: { file: 'a', start: 0, end: 1 } };
  const found = figuresIn('R1', {
    freeGasVolume: volume,
    places,
    tightness: { from: bins },
    flows: [{ flow: volume }],
  });
  expect(found.map(({ slug }) => slug)).toEqual(['free-gas-volume', 'tightness-from', 'flows-1-flow']);
  expect(slugOf('placesByGeometry')).toBe('places-by-geometry');
});
