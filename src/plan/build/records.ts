import type { Entry } from '../entry';
import type { Figure } from '../figure';
import type { PackedRun, Progress, Sale, Sample } from '../record-model';
import { lotBins } from './lot-bins';
import type { MapReader } from './map-reader';

export function readProgress(map: MapReader, { id, at, places }: Entry): Progress {
  const named = map.map('lots');
  const lots = lotBins(named, (lot) => `bins of ${lot} that went in`);
  return {
    id,
    at,
    places,
    firstBin: map.day('first-bin'),
    lastBin: map.day('last-bin'),
    lots,
    cool: map.day('cool'),
    sealed: map.day('sealed'),
    lowOxygen: map.day('low-oxygen'),
    setPoint: map.day('set-point'),
    opened: map.day('opened'),
    emptied: map.day('emptied'),
    ...(named && named.size > lots.length && { hasUnreadLots: true }),
  };
}

export function readSample(map: MapReader, { id, at, places }: Entry): Sample {
  return {
    id,
    at,
    places,
    lot: map.givenText('lot'),
    fill: map.givenText('fill'),
    taken: map.day('taken'),
    fruit: map.count('fruit', 'fruit in the sample', '1'),
    firmness: map.quantity('firmness', 'firmness of the sample', 'force'),
    firmnessSpread: map.quantity('firmness-spread', 'spread of firmness from fruit to fruit', 'force'),
    solubleSolids: map.quantity('soluble-solids', 'soluble solids of the sample', 'share'),
    ethylene: map.quantity('ethylene', 'internal ethylene of the sample', 'concentration'),
    disorders: disordersSeen(map.map('disorders')),
  };
}

/** One for all samples that say nothing of disorders: a large plan has thousands. */
const NONE_SEEN: Sample['disorders'] = new Map();

function disordersSeen(disorders: MapReader | undefined): Sample['disorders'] {
  if (!disorders) return NONE_SEEN;
  const seen = new Map<string, Figure<'%'>>();
  for (const { value } of disorders.keys()) {
    const share = disorders.quantity(value, `fruit with ${value} in the sample`, 'share');
    if (share) seen.set(value, share);
  }
  return seen;
}

export function readPackedRun(map: MapReader, { id, at, places }: Entry): PackedRun {
  const cartons = map.map('cartons')?.counts((name) => `cartons packed of class ${name}`, 'cartons') ?? [];
  return {
    id,
    at,
    places,
    lot: map.givenText('lot'),
    fill: map.givenText('fill'),
    day: map.day('day'),
    bins: map.count('bins', 'bins packed', 'bins'),
    cartons: new Map(cartons.map(({ key, count }) => [key.value, count])),
  };
}

export function readSale(map: MapReader, { id, at, places }: Entry): Sale {
  return {
    id,
    at,
    places,
    market: map.givenText('market'),
    variety: map.givenText('variety'),
    packClass: map.givenText('class'),
    week: map.week('week'),
    cartons: map.count('cartons', 'cartons sold', 'cartons'),
    price: map.count('price', 'what a carton brought', 'money'),
  };
}
