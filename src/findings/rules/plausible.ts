import { TOP_OF_SCALE } from '../../keeping/maturity';
import { type Figure, figureWith } from '../../plan/figure';
import type { BinType, Lot, RegimeOverride, Room } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { type PlacePath, placeAt, type Span } from '../../plan/span';
import { ofEntries } from '../each-entry';
import { shower } from '../say';
import type { ComputedSeason, Rule } from '../types';

/**
 * What lies outside these is more often a slipped decimal or a wrong unit than the truth. The limits are wide, and
 * common practice; only the density of fruit in a bin has a physical reason: fruit itself has about 840 kg/m3.
 */
const LIMITS = {
  roomSide: { least: 2, most: 80 },
  fanPower: { least: 0.05, most: 60 },
  lights: { least: 0, most: 20 },
  /** Of one room's cooler; a watt written as a kilowatt lies far beyond it. */
  roomCooling: { least: 0.5, most: 1_000 },
  groupCooling: { least: 0.5, most: 20_000 },
  nitrogenFlow: { least: 0.5, most: 5_000 },
  harvestFirmness: { least: 25, most: 140 },
  fieldTemperature: { least: -3, most: 40 },
  regimeOxygen: { least: 0.2, most: 10 },
  bulkDensityKgPerM3: 650,
  wallClearance: { least: 0, most: 1.5 },
  ceilingClearance: { least: 0, most: 3 },
  binGap: { least: 0, most: 0.5 },
  /** Of the fruit a bin holds; a wooden bin of 63.5 kg holds 500 kg (USDA Agriculture Handbook 66, heat load calculation). */
  tareShare: { least: 0.03, most: 0.4 },
} as const;

interface Doubt {
  readonly what: string;
  readonly figure: Figure | undefined;
  readonly limits: { readonly least: number; readonly most: number };
  readonly entry: { readonly id: string; readonly places: Parameters<typeof placeAt>[0] };
  readonly path: PlacePath;
  /** Where it is not the place of `path`. */
  readonly at?: Span;
}

function* implausible(season: ComputedSeason, doubts: Iterable<Doubt>): Iterable<Problem> {
  const show = shower(season);
  for (const { what, figure, limits, entry, path, at } of doubts) {
    if (!figure || isUsual(figure, limits)) continue;
    const usual = (value: number) => show(figureWith(figure, { value }));
    yield {
      code: 'implausible-value',
      message: `${entry.id}: ${what} of ${show(figure)} is hard to believe; between ${usual(limits.least)} and ${usual(limits.most)} is usual. Check the number, the decimal point and the unit.`,
      at: at ?? placeAt(entry.places, path).span,
      about: `${entry.id}/${path.join('/')}`,
    };
  }
}

function* roomDoubts(room: Room): Iterable<Doubt> {
  yield* heatDoubts(room);
  for (const side of ['length', 'width', 'height'] as const)
    yield {
      what: `an inside ${side}`,
      figure: room[side],
      limits: LIMITS.roomSide,
      entry: room,
      path: ['inside', side],
    };
  for (const [key, what, figure] of [
    ['walls', 'a clearance at the walls', room.wallClearance],
    ['ceiling', 'a clearance under the ceiling', room.ceilingClearance],
    ['gap', 'a gap between bins', room.binGap],
  ] as const)
    if (figure.origin.kind === 'plan')
      yield { what, figure, limits: LIMITS[CLEARANCES[key]], entry: room, path: ['clearance', key] };
}

const CLEARANCES = { walls: 'wallClearance', ceiling: 'ceilingClearance', gap: 'binGap' } as const;

function regimeDoubts(regime: RegimeOverride): readonly Doubt[] {
  const { oxygen } = regime;
  return [
    { what: 'an oxygen', figure: oxygen, limits: LIMITS.regimeOxygen, entry: regime, path: ['oxygen'] },
  ];
}

/** Of lots there are thousands: nothing is made for those that nobody doubts. */
function implausibleInLot(season: ComputedSeason, lot: Lot): Iterable<Problem> | undefined {
  const firmness = lot.maturity?.firmness;
  const isFirm = !firmness || isUsual(firmness, LIMITS.harvestFirmness);
  if (isFirm && isOnScale(lot) && isUsual(lot.fieldTemperature, LIMITS.fieldTemperature)) return undefined;
  return [...implausible(season, lotDoubts(lot)), ...starchOffScale(lot)];
}

function isOnScale({ maturity }: Lot): boolean {
  const starch = maturity?.starch?.value;
  return (
    starch === undefined || (starch >= 1 && starch <= TOP_OF_SCALE[maturity?.starchScale ?? 'one-to-eight'])
  );
}

function* starchOffScale(lot: Lot): Iterable<Problem> {
  const { starch, starchScale } = lot.maturity ?? {};
  if (!starch || !starchScale || isOnScale(lot)) return;
  yield {
    code: 'implausible-value',
    severity: 'error',
    message: `${lot.id}: a starch index of ${starch.value} cannot be on a scale from 1 to ${TOP_OF_SCALE[starchScale]}, \`${starchScale}\`. Correct it, or name under \`starch-scale\` the scale it was read on.`,
    at: placeAt(lot.places, ['maturity', 'starch']).span,
    about: `${lot.id}/maturity/starch`,
  };
}

function* lotDoubts(lot: Lot): Iterable<Doubt> {
  yield {
    what: 'a harvest firmness',
    figure: lot.maturity?.firmness,
    limits: LIMITS.harvestFirmness,
    entry: lot,
    path: ['maturity', 'firmness'],
  };
  const field = lot.fieldTemperature;
  // A default is not the planner's mistake.
  if (field.origin.kind === 'plan')
    yield {
      what: 'a field temperature',
      figure: field,
      limits: LIMITS.fieldTemperature,
      entry: lot,
      path: ['field-temperature'],
    };
}

/** What plants give in an hour or a day, and kilowatts where watts were meant. */
function* plantDoubts({ plan }: ComputedSeason): Iterable<Doubt> {
  for (const entry of plan.refrigerationGroups.values())
    yield {
      what: 'a cooling capacity',
      figure: entry.capacity,
      limits: LIMITS.groupCooling,
      entry,
      path: ['capacity'],
    };
  for (const entry of plan.nitrogenSources.values())
    for (const { purity, flow } of entry.flows)
      if (flow.origin.kind === 'plan')
        yield {
          what: 'a flow of nitrogen',
          figure: flow,
          limits: LIMITS.nitrogenFlow,
          entry,
          path: ['flows', String(purity.value)],
          at: flow.origin.at,
        };
}

/**
 * Kilograms of carbon dioxide a day for each tonne of fruit that no scrubber has to remove: 42 mg/kg/h, as apples give off
 * at 20 °C in air. Common practice: scrubbers are rated for a tenth of it and less.
 */
const REMOVAL_A_TONNE = 1;
/** Below two kilograms an hour nobody asks what the rooms hold. */
const LEAST_DOUBTED_REMOVAL = 48;

/** A removal by the hour that was meant by the day is 24 times as much, and far beyond all that the fruit gives off. */
function* removalBeyondFruit(season: ComputedSeason): Iterable<Problem> {
  for (const scrubber of season.plan.scrubbers.values()) {
    const { id, removal, places } = scrubber;
    if (!removal || removal.value <= LEAST_DOUBTED_REMOVAL) continue;
    const tonnes = tonnesOn(season, id);
    if (!tonnes || removal.value <= tonnes.value * REMOVAL_A_TONNE) continue;
    const show = shower(season);
    const most = figureWith(removal, { value: tonnes.value * REMOVAL_A_TONNE });
    yield {
      code: 'implausible-value',
      message: `${id}: a removal of ${show(removal)} is hard to believe: its rooms hold ${show(tonnes)} of fruit, which gives off no more than some ${show(most)} even warm and in air. Check the number, the decimal point and the unit.`,
      at: placeAt(places, ['removal']).span,
      about: `${id}/removal`,
    };
  }
}

/** Fruit of all rooms on a scrubber when they are full; undefined where it has none, or of one it is not known. */
function tonnesOn({ capacities }: ComputedSeason, scrubber: string): Figure<'t'> | undefined {
  let [sum, known]: [number, Figure<'t'> | undefined] = [0, undefined];
  for (const { room, fruitWhenFull } of capacities.values()) {
    if (room.scrubber?.value !== scrubber) continue;
    if (!fruitWhenFull) return undefined;
    known = fruitWhenFull;
    sum += fruitWhenFull.value;
  }
  return known && figureWith(known, { value: sum });
}

function* besideEntries(season: ComputedSeason): Iterable<Problem> {
  yield* flowsThatRise(season);
  yield* implausible(season, plantDoubts(season));
  yield* removalBeyondFruit(season);
}

function isUsual({ value }: Figure, { least, most }: Doubt['limits']): boolean {
  return value >= least && value <= most;
}

/** Kilowatts where watts were meant, of what is heat in a room. */
function* heatDoubts(room: Room): Iterable<Doubt> {
  const fans = { limits: LIMITS.fanPower, entry: room };
  yield { ...fans, what: 'a power of the fans', figure: room.fanPower, path: ['refrigeration', 'fans'] };
  yield {
    ...fans,
    what: 'a rating of the fans',
    figure: room.fanMotors,
    path: ['refrigeration', 'fan-motors'],
  };
  yield {
    what: 'a cooling capacity',
    figure: room.coolerCapacity,
    limits: LIMITS.roomCooling,
    entry: room,
    path: ['refrigeration', 'capacity'],
  };
  yield {
    what: 'a power of the lights',
    figure: room.loading?.lights,
    limits: LIMITS.lights,
    entry: room,
    path: ['loading', 'lights'],
  };
}

function* implausibleInBin(season: ComputedSeason, bin: BinType): Iterable<Problem> {
  yield* filledBeyondFruit(season, bin);
  const { netFruit, tare } = bin;
  if (!netFruit || !tare) return;
  const limits = {
    least: netFruit.value * LIMITS.tareShare.least,
    most: netFruit.value * LIMITS.tareShare.most,
  };
  yield* implausible(season, [{ what: 'a tare', figure: tare, limits, entry: bin, path: ['tare'] }]);
}

function* filledBeyondFruit(season: ComputedSeason, bin: BinType): Iterable<Problem> {
  const { length, width, height, netFruit } = bin;
  if (!length || !width || !height || !netFruit) return;
  const volume = length.value * width.value * height.value;
  const most = volume * LIMITS.bulkDensityKgPerM3;
  if (netFruit.value <= most) return;
  const show = shower(season);
  const fits = show(figureWith(netFruit, { value: most }));
  yield {
    code: 'implausible-value',
    message: `${bin.id}: ${show(netFruit)} of fruit does not fit a bin of this size; ${fits} would already be very full. Check the mass, the size and their units.`,
    at: placeAt(bin.places, ['net-fruit']).span,
    related: [{ at: placeAt(bin.places, ['outside']).span, message: 'Its size' }],
    about: `${bin.id}/net-fruit`,
  };
}

/** Purer gas from one generator comes slower: where it comes faster, two numbers are swapped or one is mistyped. */
function* flowsThatRise(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { id, kind, flows } of season.plan.nitrogenSources.values()) {
    if (kind === 'liquid') continue;
    for (const [index, { purity, flow }] of flows.entries()) {
      const less = flows[index - 1];
      const { origin } = flow;
      if (!less || purity.value <= less.purity.value || flow.value <= less.flow.value) continue;
      if (origin.kind !== 'plan') continue;
      yield {
        code: 'implausible-value',
        severity: 'notice',
        message: `${id}: ${show(flow)} of gas of ${show(purity)} nitrogen is more than the ${show(less.flow)} of gas of ${show(less.purity)}; the purer the gas, the less of it comes. Check whether the two flows are swapped.`,
        at: origin.at,
        about: `${id}/flows/${purity.value}`,
      };
    }
  }
}

export const plausibleRules: readonly Rule[] = [
  {
    code: 'implausible-value',
    family: 'plan',
    severity: 'warning',
    summary: 'A value that is hard to believe.',
    ...ofEntries({
      rooms: (season, room) => implausible(season, roomDoubts(room)),
      regimes: (season, regime) => implausible(season, regimeDoubts(regime)),
      lots: implausibleInLot,
      binTypes: implausibleInBin,
    }),
    findBeside: besideEntries,
  },
];
