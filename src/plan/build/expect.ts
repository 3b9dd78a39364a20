import type { Claim, ClaimKind, Expectation, LoadKind, OrdersMeant } from '../expect-model';
import type { Span } from '../span';
import type { MapReader } from './map-reader';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;
type Reader = (map: MapReader, at: Span) => Claim;

const READERS: Readonly<Record<ClaimKind, Reader>> = {
  'no-shortage': (map, at) => ({
    kind: 'no-shortage',
    at,
    ...readOrders(map),
    atMost: undefined,
    atLeast: undefined,
  }),
  shortage: (map, at) => ({
    kind: 'shortage',
    at,
    ...readOrders(map),
    atMost: map.count('at-most', 'cartons short at most', 'cartons'),
    atLeast: map.count('at-least', 'cartons short at least', 'cartons'),
  }),
  opens: (map, at) => ({
    kind: 'opens',
    at,
    room: map.givenText('room'),
    before: map.week('before'),
    after: map.week('after'),
    in: map.weekSpan('in'),
    beforeRoom: map.givenText('before-room'),
  }),
  window: (map, at) => ({
    kind: 'window',
    at,
    room: map.givenText('room'),
    atLeast: map.quantity('at-least', 'window at least', 'long time'),
  }),
  'scrubber-load': loadReader('scrubber-load', 'scrubber'),
  'nitrogen-load': loadReader('nitrogen-load', 'nitrogen'),
  'refrigeration-load': loadReader('refrigeration-load', 'group'),
  'packhouse-use': (map, at) => ({
    kind: 'packhouse-use',
    at,
    atMost: map.quantity('at-most', 'use of the packhouse at most', 'share'),
    from: map.week('from'),
    before: map.week('before'),
  }),
  'in-store': (map, at) => ({
    kind: 'in-store',
    at,
    variety: map.givenText('variety'),
    on: map.day('on'),
    atLeast: map.quantity('at-least', 'share still in store at least', 'share'),
    atMost: map.quantity('at-most', 'share still in store at most', 'share'),
    bins: map.count('bins', 'bins still in store at least', 'bins'),
  }),
  'grower-out': (map, at) => ({
    kind: 'grower-out',
    at,
    grower: map.givenText('grower'),
    by: map.week('by'),
  }),
  'no-finding': (map, at) => ({ kind: 'no-finding', at, code: map.givenText('code') }),
  value: (map, at) => ({
    kind: 'value',
    at,
    atLeast: map.count('at-least', "the schedule's value at least", 'money'),
  }),
};

export function readExpectation(map: MapReader): Body<Expectation> {
  const claims = map.keys().flatMap(({ value: key, at }) => {
    const below = map.map(key);
    return below && isClaim(key) ? [READERS[key](below, at)] : [];
  });
  return { because: map.text('because'), claims };
}

function isClaim(key: string): key is ClaimKind {
  return Object.hasOwn(READERS, key);
}

function readOrders(map: MapReader): OrdersMeant {
  return {
    market: map.givenText('market'),
    variety: map.givenText('variety'),
    packClass: map.givenText('class'),
    from: map.week('from'),
    before: map.week('before'),
  };
}

function loadReader(kind: LoadKind, key: string): Reader {
  return (map, at) => ({
    kind,
    at,
    machine: map.givenText(key),
    atMost: map.quantity('at-most', 'load at most', 'share'),
    from: map.week('from'),
    before: map.week('before'),
  });
}
