import { parseDay } from '../dates';
import { compute, type Figure, figureWith } from '../figure';
import type {
  DisorderId,
  Entry,
  Fill,
  Lot,
  Maturity,
  OwnDisorder,
  OwnFirmness,
  RegimeOverride,
  RegimeStage,
  VarietyOverride,
} from '../model';
import { receivedSum } from '../receipts';
import { defaults } from './defaults';
import { lotBins } from './lot-bins';
import type { MapReader } from './map-reader';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;

export function readVariety(map: MapReader): Body<VarietyOverride> {
  const softening = map.quantity('softening', 'firmness lost in a month', 'force');
  return {
    like: map.givenText('like'),
    respiration: readRespiration(map),
    respirationInStore: map.count(
      'respiration-in-store',
      'respiration in the controlled atmosphere, as a share of that in air',
      '1',
    ),
    respiratoryQuotient: map.count('respiratory-quotient', 'respiratory quotient', '1'),
    transpiration: map.quantity('transpiration', 'transpiration coefficient, ng/(kg s Pa)', 'transpiration'),
    specificHeat: map.quantity('specific-heat', 'specific heat of the fruit', 'specific heat'),
    density: map.quantity('density', 'true density of fruit', 'density'),
    storageLifeInAir: map.quantity('storage-life-in-air', 'storage life in air', 'long time'),
    storageLife: map.quantity('storage-life', 'storage life in its regime', 'long time'),
    keepsShorter: map.quantity('keeps-shorter', 'keeps shorter by', 'long time'),
    leastTemperature: map.quantity(
      'least-temperature',
      'lowest temperature without cold injury',
      'temperature',
    ),
    leastOxygen: map.quantity('least-oxygen', 'lowest oxygen', 'share'),
    oxygenBreakpoint: map.quantity('oxygen-breakpoint', 'breakpoint of oxygen', 'share'),
    mostCarbonDioxide: map.quantity('most-carbon-dioxide', 'highest carbon dioxide', 'share'),
    leastExitFirmness: map.quantity('least-exit-firmness', 'least firmness at sale', 'force'),
    softening: softening && aMonth(softening),
    ...readDisorders(map.map('disorders')),
    source: map.text('source'),
  };
}

/** Force lost in a month. */
function aMonth({ name, value, origin }: Figure<'N'>): Figure<'N/month'> {
  return { name, value, unit: 'N/month', origin };
}

const DISORDERS: readonly DisorderId[] = [
  'carbon-dioxide-injury',
  'low-oxygen-injury',
  'chilling-injury',
  'scald',
  'senescent-scald',
  'soft-scald',
  'browning',
  'bitter-pit',
];

function readDisorders(map: MapReader | undefined): { disorders?: OwnDisorder[] } {
  if (!map) return {};
  const disorders = DISORDERS.flatMap((id): OwnDisorder[] => {
    const own = map.map(id);
    if (!own) return [];
    const time = (key: string, name: string) => own.quantity(key, name, 'long time');
    return [
      {
        id,
        watched: own.word('watch') !== 'off',
        from: time('from', 'storage after which it shows'),
        until: time('until', 'storage after which it comes no more'),
        packedBy: time('packed-by', 'storage by which fruit is packed because of it'),
      },
    ];
  });
  return { disorders };
}

function readRespiration(map: MapReader): VarietyOverride['respiration'] {
  const points = (map.maps('respiration') ?? []).flatMap((point) => {
    const at = point.quantity('at', 'fruit temperature', 'temperature');
    const rate = point.quantity('rate', 'respiration in air', 'respiration');
    return at && rate ? [{ at, rate }] : [];
  });
  // A single point is no curve.
  return points.length < 2 ? undefined : points.sort((a, b) => a.at.value - b.at.value);
}

export function readRegime(map: MapReader): Body<RegimeOverride> {
  const varieties = map.texts('varieties');
  const warm = map.map('conditioning');
  const temperature = warm?.quantity('temperature', 'temperature of the warm hold', 'temperature');
  const lasts = warm?.quantity('lasts', 'length of the warm hold', 'long time');
  return {
    like: map.givenText('like'),
    varieties: varieties.length > 0 ? varieties : undefined,
    temperature: map.quantity('temperature', 'holding temperature', 'temperature'),
    oxygen: map.quantity('oxygen', 'oxygen held', 'share'),
    carbonDioxide: map.quantity('carbon-dioxide', 'carbon dioxide held at most', 'share'),
    humidity: map.quantity('humidity', 'relative humidity', 'share'),
    storageLife: map.quantity('storage-life', 'storage life in the regime', 'long time'),
    conditioning: temperature && lasts ? { temperature, lasts } : undefined,
    stages: readStages(map),
    source: map.text('source'),
  };
}

function readStages(map: MapReader): RegimeOverride['stages'] {
  const stages = (map.maps('stages') ?? []).flatMap((stage): RegimeStage[] => {
    const from = stage.quantity('from', 'days from sealing to the stage', 'long time');
    if (!from) return [];
    return [
      {
        from,
        oxygen: stage.quantity('oxygen', 'oxygen of the stage', 'share'),
        carbonDioxide: stage.quantity('carbon-dioxide', 'carbon dioxide of the stage', 'share'),
        temperature: stage.quantity('temperature', 'temperature of the stage', 'temperature'),
      },
    ];
  });
  return stages.length > 0 ? stages.sort((a, b) => a.from.value - b.from.value) : undefined;
}

/** Written out with its head: thousands are made, and an object that grows takes more room. */
export function readLot(map: MapReader, { id, at, places }: Entry): Lot {
  const share = map.map('crop')?.count('share', 'bins to be expected, as a share of the estimate', '1');
  const byDay = receivedByDay(map);
  return {
    id,
    at,
    places,
    variety: map.givenText('variety'),
    block: map.text('block'),
    grower: map.text('grower'),
    picked: map.daySpan('picked'),
    expectedBins: expectedBins(map, share),
    ownFirmness: readOwnFirmness(map.map('firmness')),
    ownPackout: readOwnPackout(map.map('packout')),
    cropShare: share,
    receivedByDay: byDay,
    receivedBins: receivedBins(map, byDay),
    fieldTemperature:
      map.quantity('field-temperature', 'field temperature', 'temperature') ?? defaults.fieldTemperature,
    maturity: readMaturity(map.map('maturity')),
    treatments: map.texts('treatments') as Lot['treatments'],
    packedAtHarvest: map.quantity(
      'packed-at-harvest',
      'days in which fruit is packed at harvest',
      'long time',
    ),
  };
}

/** The estimate, or what it has turned out to be worth: whole bins. */
function expectedBins(map: MapReader, share: Lot['cropShare']): Figure<'bins'> | undefined {
  const estimate = map.count('bins', 'bins expected', 'bins');
  if (!estimate || !share) return estimate;
  return compute(
    'bins expected',
    'bins',
    'floor(estimate * share + 0.5)',
    { estimate: figureWith(estimate, { name: 'bins estimated' }), share },
    (v) => Math.floor(v.estimate * v.share + 0.5),
  );
}

function readOwnFirmness(map: MapReader | undefined): OwnFirmness | undefined {
  if (!map) return undefined;
  const atHarvest = map.quantity('at-harvest', 'firmness at harvest, as fitted', 'force');
  const softening = map.count('softening', 'firmness lost, as a share of what the variety loses', '1');
  const knownBest = map.day('known-best');
  const spread = map.quantity('spread', 'spread of firmness on the day it is known best', 'force');
  const softeningSpread = map.quantity('softening-spread', 'spread of what is lost, as a share', 'share');
  if (!atHarvest || !softening || !knownBest || !spread || !softeningSpread) return undefined;
  return { at: map.at, atHarvest, softening, knownBest, spread, softeningSpread };
}

function readOwnPackout(map: MapReader | undefined): Lot['ownPackout'] {
  const section = map?.map('shares');
  if (!section) return undefined;
  const shares = section.keys().flatMap(({ value }) => {
    const share = section.quantity(value, `share of class ${value}`, 'share');
    return share ? [[value, share] as const] : [];
  });
  return shares.length === 0 ? undefined : new Map(shares);
}

/** Bins by day of arrival, earliest first. */
function receivedByDay(map: MapReader): Lot['receivedByDay'] {
  const days = map.map('received-by-day');
  if (!days) return undefined;
  const found = days.keys().flatMap(({ value }) => {
    const [day, bins] = [parseDay(value), days.number(value)];
    return day === undefined || bins === undefined ? [] : [[day, bins] as const];
  });
  return found.length === 0 ? undefined : new Map(found.sort(([a], [b]) => a - b));
}

/** The sum of the days where they are given, else what is written. */
function receivedBins(map: MapReader, byDay: Lot['receivedByDay']): Lot['receivedBins'] {
  const at = byDay && map.map('received-by-day')?.at;
  if (!byDay || !at) return map.count('received', 'bins received', 'bins');
  return receivedSum({
    byDay,
    at,
    source: map.text('source'),
    pickedTo: map.daySpan('picked')?.value.last,
    expectedBins: map.number('bins') ?? 0,
  });
}

function readMaturity(map: MapReader | undefined): Maturity | undefined {
  return (
    map && {
      at: map.at,
      tested: map.day('tested'),
      starch: map.count('starch', 'starch index', '1'),
      starchScale: map.word('starch-scale') ?? 'one-to-eight',
      firmness: map.quantity('firmness', 'firmness at harvest', 'force'),
      solubleSolids: map.quantity('soluble-solids', 'soluble solids', 'share'),
      ethylene: map.quantity('ethylene', 'internal ethylene', 'concentration'),
    }
  );
}

export function readFill(map: MapReader, { id, at, places }: Entry): Fill {
  const named = map.map('lots');
  const lots = lotBins(named, binsOf);
  return {
    id,
    at,
    places,
    room: map.givenText('room'),
    regime: map.givenText('regime'),
    firstBin: map.day('first-bin'),
    lastBin: map.day('last-bin'),
    sealed: map.day('sealed'),
    lots,
    respiration: map
      .map('respiration')
      ?.count('share', 'respiration as a share of what the varieties give', '1'),
    forMarkets: map.texts('for-markets'),
    open: map.week('open'),
    ...(named && named.size > lots.length && { hasUnreadLots: true }),
  };
}

function binsOf(lot: string): string {
  return `bins of ${lot}`;
}
