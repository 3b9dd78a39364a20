import { parseWeek } from '../dates';
import type { Entry } from '../entry';
import { compute, type Figure } from '../figure';
import type {
  CompareThresholds,
  Demand,
  GrowerWish,
  OpenBefore,
  OwnAssumptions,
  Packing,
  Packout,
  Policy,
  Season,
  Uncertainty,
} from '../model';
import type { PlaceNode } from '../span';
import { DAYS_A_WEEK, defaults, SHORTAGE_SOURCE } from './defaults';
import type { MapReader } from './map-reader';
import { readLoading } from './rooms';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;

export function readSeason(map: MapReader): Body<Season> {
  return {
    name: map.givenText('name'),
    starts: map.day('starts'),
    ends: map.day('ends'),
    units: map.word('units') ?? 'metric',
    cartonMass: map.quantity('carton', 'fruit in a carton', 'mass'),
    currency: map.text('currency') ?? 'money',
    powerPrice: map.count('power-price', 'price of a kilowatt-hour', 'money'),
    outsideTemperature:
      map.quantity('outside-temperature', 'outside temperature in harvest', 'temperature') ??
      defaults.outsideTemperature,
    outsideHumidity: map.quantity('outside-humidity', 'relative humidity outside', 'share'),
  };
}

export function readDemand(map: MapReader, { id, at, places }: Entry): Demand {
  const price = map.count('price', 'price of a carton', 'money');
  return {
    id,
    at,
    places,
    market: map.givenText('market'),
    variety: map.givenText('variety'),
    packClass: map.givenText('class'),
    weeks: map.weekSpan('weeks'),
    cartons: map.count('cartons', 'cartons wanted a week', 'cartons/week'),
    byWeek: readByWeek(map.map('by-week')),
    price,
    priceOfShortage:
      map.count('price-of-shortage', 'cost of a carton not delivered', 'money') ??
      (price &&
        compute(
          'cost of a carton not delivered',
          'money',
          'price / 2',
          { price },
          (given) => given.price / 2,
          SHORTAGE_SOURCE,
        )),
    leastFirmness: map.quantity('least-firmness', 'firmness the buyer accepts', 'force'),
  };
}

function readByWeek(map: MapReader | undefined): Demand['byWeek'] {
  const found = new Map<number, Figure<'cartons/week'>>();
  for (const key of map?.keys() ?? []) {
    const week = parseWeek(key.value);
    const cartons = map?.count(key.value, `cartons wanted in ${key.value}`, 'cartons/week');
    if (week !== undefined && cartons) found.set(week, cartons);
  }
  return found;
}

export function readPacking(map: MapReader, places: PlaceNode): Body<Packing> {
  const packout = new Map<string, Packout>();
  const section = map.map('packout');
  for (const { value: id, at } of section?.keys() ?? []) {
    const entry = section?.map(id);
    const entryPlaces = places.entries?.get('packout')?.entries?.get(id);
    if (entry && entryPlaces) packout.set(id, { id, at, places: entryPlaces, ...readPackout(entry) });
  }
  return {
    binsAWeek: map.count('bins-a-week', 'bins the packhouse runs in a full week', 'bins/week'),
    daysAWeek: map.number('days-a-week') ?? DAYS_A_WEEK,
    closed: map.daySpans('closed'),
    daysToEmpty: map.quantity('days-to-empty', 'days to empty a room', 'long time') ?? defaults.daysToEmpty,
    packedWait:
      map.quantity('packed-wait', 'days packed cartons may wait', 'long time') ?? defaults.packedWait,
    costOfWaiting:
      map.count('cost-of-waiting', 'cost of a carton for a week of waiting', 'money') ??
      defaults.costOfWaiting,
    processingPrice:
      map.count('processing-price', 'price of a carton packed and not sold', 'money') ??
      defaults.processingPrice,
    packout,
  };
}

function readPackout(map: MapReader): Body<Packout> {
  const shares = new Map<string, Figure<'%'>>();
  const section = map.map('shares');
  for (const { value } of section?.keys() ?? []) {
    const share = section?.quantity(value, `share of class ${value}`, 'share');
    if (share) shares.set(value, share);
  }
  return {
    shares,
    lossAMonth: map.quantity('loss-a-month', 'packout lost a month', 'share') ?? defaults.packoutLoss,
  };
}

export function readPolicy(map: MapReader | undefined): Body<Policy> {
  const findings = new Map<string, NonNullable<ReturnType<Policy['findings']['get']>>>();
  const section = map?.map('findings');
  for (const { value } of section?.keys() ?? []) {
    const severity = section?.givenWord<'error' | 'warning' | 'notice' | 'off'>(value);
    if (severity) findings.set(value, severity);
  }
  return {
    confidence: map?.quantity('confidence', 'confidence of windows', 'share') ?? defaults.confidence,
    roomsOpenAtOnce: map?.count('rooms-open-at-once', 'rooms open at once at most', '1'),
    intakeADay: map?.quantity('intake-a-day', 'intake a day', 'share') ?? defaults.intakeADay,
    loading: readLoading(map?.map('loading')),
    mostScrubberLoad:
      map?.quantity('most-scrubber-load', 'scrubber load at most', 'share') ?? defaults.mostScrubberLoad,
    arrivals: map?.word<'as-picked' | 'evenly'>('arrivals'),
    assumptions: readAssumptions(map?.map('assumptions')),
    openBefore: readOpenBefore(map?.map('open-before')),
    priceOfChange: map?.count('price-of-change', 'price of moving a room by a week', 'money'),
    priceOfUnevenWork: map?.count('price-of-uneven-work', 'price of a bin of uneven work', 'money'),
    priceOfWeekInAir: map?.count('price-of-week-in-air', 'price of a week in air', 'money'),
    uncertainty: readUncertainty(map?.map('uncertainty')),
    growers: readGrowers(map?.map('growers')),
    compare: readCompare(map?.map('compare')),
    findings,
  };
}

function readAssumptions(map: MapReader | undefined): OwnAssumptions | undefined {
  return (
    map && {
      heatPerMilligram: map.quantity(
        'heat-of-respiration',
        'heat of respiration, J per mg CO2',
        'heat of respiration',
      ),
      limeUtilisation: map.quantity('lime-utilisation', 'share of the lime that gets used', 'share'),
      servicePressure: map.quantity('service-pressure', 'mean pressure difference in service', 'pressure'),
      barometerRise: map.quantity('barometer-rise', 'rise of the barometer in a day', 'pressure'),
      airChangesLoading: map.count('air-changes-loading', 'air changes a day while loading', '1'),
      airChangesHolding: map.count('air-changes-holding', 'air changes a day, held in air', '1'),
      humidityAtFruit: map.quantity('humidity-at-fruit', "relative humidity at the fruit's surface", 'share'),
      stepDownADay: map.quantity(
        'step-down-a-day',
        'step down in temperature a day',
        'temperature difference',
      ),
      daysToCold: map.quantity('days-to-cold', 'days from the first bin to all fruit cold', 'long time'),
    }
  );
}

function readGrowers(map: MapReader | undefined): NonNullable<Policy['growers']> {
  const wishes = (map?.keys() ?? []).flatMap(({ value }) => {
    const wish = map?.givenWord<GrowerWish>(value);
    return wish ? [[value, wish] as const] : [];
  });
  return new Map(wishes);
}

function readCompare(map: MapReader | undefined): CompareThresholds | undefined {
  return (
    map && {
      weeks: map.count('weeks', 'least weeks told', 'weeks'),
      cartons: map.count('cartons', 'least cartons told', 'cartons'),
      bins: map.count('bins', 'least bins told', 'bins'),
      load: map.quantity('load', 'least load told', 'share'),
      value: map.quantity('value', 'least share of value told', 'share'),
    }
  );
}

function readOpenBefore(map: MapReader | undefined): OpenBefore[] {
  return (map?.keys() ?? []).flatMap((first) =>
    (map?.texts(first.value) ?? []).map((later) => ({ first, later })),
  );
}

function readUncertainty(map: MapReader | undefined): Uncertainty {
  return {
    crop: map?.quantity('crop', 'range of the crop', 'share') ?? defaults.cropRange,
    storageLife: map?.quantity('storage-life', 'range of storage life', 'share') ?? defaults.storageLifeRange,
    packout: map?.quantity('packout', 'range of packout', 'share') ?? defaults.packoutRange,
    demand: map?.quantity('demand', 'range of demand', 'share') ?? defaults.demandRange,
  };
}
