import type { Entry } from '../entry';
import type { Figure } from '../figure';
import type {
  BinType,
  CarbonLoading,
  Loading,
  MembraneSelectivity,
  NitrogenSource,
  RefrigerationGroup,
  Room,
  Scrubber,
  ScrubberBeds,
  TightnessTest,
} from '../model';
import { defaults } from './defaults';
import type { MapReader } from './map-reader';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;

export function readBinType(map: MapReader): Body<BinType> {
  const outside = map.map('outside');
  return {
    length: outside?.quantity('length', 'outside length of a bin', 'length'),
    width: outside?.quantity('width', 'outside width of a bin', 'length'),
    height: outside?.quantity('height', 'height of a bin in the stack', 'length'),
    netFruit: map.quantity('net-fruit', 'fruit in a full bin', 'mass'),
    tare: map.quantity('tare', 'empty bin', 'mass'),
    material: map.word('material'),
    solidVolume: map.quantity('solid-volume', "volume of a bin's material", 'volume'),
    specificHeat: map.quantity('specific-heat', "specific heat of the bins' material", 'specific heat'),
  };
}

export function readRoom(map: MapReader, { id, at, places }: Entry): Room {
  const inside = map.map('inside');
  const clearance = map.map('clearance');
  const refrigeration = map.map('refrigeration');
  return {
    id,
    at,
    places,
    length: inside?.quantity('length', 'inside length', 'length'),
    width: inside?.quantity('width', 'inside width', 'length'),
    height: inside?.quantity('height', 'inside height', 'length'),
    equipmentVolume: map.quantity('equipment-volume', 'space taken by equipment', 'volume'),
    binType: map.givenText('bin-type'),
    statedPlaces: map.count('places', 'places as stated', 'places'),
    stack: map.count('stack', 'bins high', 'bins'),
    wallClearance: clearance?.quantity('walls', 'clearance at walls', 'length') ?? defaults.wallClearance,
    ceilingClearance:
      clearance?.quantity('ceiling', 'clearance under the ceiling', 'length') ?? defaults.ceilingClearance,
    binGap: clearance?.quantity('gap', 'gap between bins', 'length') ?? defaults.binGap,
    lostPlaces: map.count('lost-places', 'lost places', 'places') ?? defaults.lostPlaces,
    coolerCapacity: refrigeration?.quantity('capacity', "capacity of the room's cooler", 'power'),
    refrigerationGroup: refrigeration?.givenText('group'),
    coolingHalfTime: inHours(refrigeration?.quantity('half-time', 'half-time of cooling', 'short time')),
    coolingLag: refrigeration?.count('lag', "lag factor of the fruit's cooling", '1'),
    fanPower: refrigeration?.quantity('fans', "power of the cooler's fans", 'power'),
    fansHolding: refrigeration?.quantity('fans-holding', 'share of the fans that runs when holding', 'share'),
    fanMotors: refrigeration?.quantity('fan-motors', "rated power of the fans' motors", 'power'),
    coilDifference: refrigeration?.quantity(
      'coil-difference',
      'difference between the air and the coil',
      'temperature difference',
    ),
    loading: readLoading(map.map('loading')),
    heatTransfer:
      map.quantity('heat-transfer', 'heat transfer of walls, ceiling and floor', 'heat transfer') ??
      defaults.heatTransfer,
    tightness: readTightness(map.map('tightness')),
    leakInService: map.map('leakage')?.quantity('in-service', 'air that leaks and weather bring in', 'flow'),
    breatherBag: map.quantity('breather-bag', 'breather bag', 'volume'),
    scrubber: map.givenText('scrubber'),
    nitrogen: map.givenText('nitrogen'),
    law: map.word('law') ?? 'none',
    ready: map.day('ready'),
  };
}

export function readLoading(map: MapReader | undefined): Loading | undefined {
  return (
    map && {
      at: map.at,
      lights: map.quantity('lights', 'lights while the room is filled', 'power'),
      vehicles: map.count('vehicles', 'vehicles at work in the room', '1'),
      vehicleHeat: map.quantity('vehicle-heat', 'heat of a vehicle at work', 'power'),
      people: map.count('people', 'people at work in the room', '1'),
      hoursADay: map.count('hours-a-day', 'hours a day in which the room is filled', 'h'),
    }
  );
}

function inHours(minutes: Figure<'min'> | undefined): Figure<'h'> | undefined {
  if (!minutes) return undefined;
  const { name, value, origin } = minutes;
  return { name, value: value / 60, unit: 'h', origin };
}

function readTightness(map: MapReader | undefined): TightnessTest | undefined {
  const from = map?.quantity('from', 'pressure at the start of the test', 'pressure');
  const to = map?.quantity('to', 'pressure at the end of the test', 'pressure');
  const after = map?.quantity('after', 'duration of the test', 'short time');
  return map && from && to && after ? { at: map.at, from, to, after, tested: map.day('tested') } : undefined;
}

export function readScrubber(map: MapReader): Body<Scrubber> {
  return {
    kind: map.word('kind'),
    removal: map.quantity('removal', 'carbon dioxide the scrubber removes', 'removal'),
    atLevel: map.quantity('at-level', 'carbon dioxide at which removal is stated', 'share'),
    beds: readBeds(map.map('beds')),
    selectivity: readSelectivity(map.map('selectivity')),
    charge: map.quantity('charge', 'lime in a fresh charge', 'mass'),
    utilisation: map.quantity('utilisation', 'share of the lime that gets used', 'share'),
    hoursADay: map.count('hours-a-day', 'hours a day the scrubber runs', 'h') ?? defaults.scrubberHours,
    outOfUse: map.daySpans('out-of-use'),
    power: map.quantity('power', 'power it takes while it runs', 'power'),
  };
}

function readSelectivity(map: MapReader | undefined): MembraneSelectivity | undefined {
  const overOxygen = map?.count('over-oxygen', 'selectivity for carbon dioxide over oxygen', '1');
  const overNitrogen = map?.count('over-nitrogen', 'selectivity for carbon dioxide over nitrogen', '1');
  return map && overOxygen && overNitrogen ? { at: map.at, overOxygen, overNitrogen } : undefined;
}

function readBeds(map: MapReader | undefined): ScrubberBeds | undefined {
  const number = map?.number('number');
  const carbon = map?.quantity('carbon', 'carbon in a bed', 'mass');
  const adsorb = map?.quantity('adsorb', 'time a bed adsorbs', 'short time');
  const regenerate = map?.quantity('regenerate', 'time a bed takes to regenerate', 'short time');
  if (!map || number === undefined || !carbon || !adsorb || !regenerate) return undefined;
  const voidVolume = map.quantity('void-volume', 'gas in a bed and its ducts', 'volume');
  const rinsed = map.quantity('rinsed', 'share of a bed that is rinsed before it turns to a room', 'share');
  const used = map.quantity('used', 'share of the equilibrium loading that is used', 'share');
  const loading = readLoadings(map);
  return {
    at: map.at,
    number,
    carbon,
    adsorb,
    regenerate,
    voidVolume,
    ...(rinsed ? { rinsed } : {}),
    ...(used ? { used } : {}),
    ...(loading.length > 0 ? { loading } : {}),
  };
}

/** In order of the level; of two points at one level the first counts. */
function readLoadings(map: MapReader): CarbonLoading[] {
  const points = (map.maps('loading') ?? []).flatMap((point): CarbonLoading[] => {
    const level = point.quantity('at', 'carbon dioxide of a point of the isotherm', 'share');
    const grams = point.count('grams', 'loading at that point, g/kg', '1');
    return level && grams && level.value > 0 && grams.value > 0 ? [{ level, grams }] : [];
  });
  return points
    .sort((a, b) => a.level.value - b.level.value)
    .filter(({ level }, index, all) => level.value !== all[index - 1]?.level.value);
}

export function readNitrogenSource(map: MapReader): Body<NitrogenSource> {
  const flows = (map.maps('flows') ?? []).flatMap((point) => {
    const purity = point.quantity('purity', 'nitrogen in the gas delivered', 'share');
    const flow = point.quantity('flow', 'gas delivered', 'flow');
    return purity && flow ? [{ purity, flow }] : [];
  });
  return {
    kind: map.word('kind'),
    flows: flows.sort((a, b) => a.purity.value - b.purity.value),
    outOfUse: map.daySpans('out-of-use'),
    stopsAt: map.quantity('stops-at', 'oxygen at which the nitrogen feed is stopped', 'share'),
    power: map.quantity('power', 'power it takes while it runs', 'power'),
  };
}

export function readRefrigerationGroup(map: MapReader): Body<RefrigerationGroup> {
  return {
    capacity: map.quantity('capacity', 'capacity of the refrigeration group', 'power'),
    refrigerant: map.text('refrigerant'),
    performance: map.count('performance', 'cooling for each kilowatt of power', '1') ?? defaults.performance,
  };
}
