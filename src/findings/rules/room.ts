import { regimeSuits } from '../../fruit/data';
import { formatDay } from '../../plan/dates';
import { type Figure, figureWith } from '../../plan/figure';
import type { Fill, Progress, Room } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import { counted, listed } from '../../plan/wording';
import { filledAgain } from '../../release/filled-again';
import { canBeEmpty, freeOverText } from '../free-over';
import { perCent, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { areBinsRead } from '../unknown-fruit';

function* roomsOverfilled({ plan, filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, room, capacity, bins } of filled.values()) {
    if (!bins || !capacity.places || bins.value <= capacity.places.value) continue;
    const over = bins.value - capacity.places.value;
    const recorded = plan.progress.get(fill.id);
    if (recorded && recorded.lots.length > 0) {
      yield overfilledAsRecorded(fill, recorded, room, { bins: bins.value, places: capacity.places.value });
      continue;
    }
    yield {
      code: 'room-overfilled',
      message: `${fill.id} puts ${counted(bins.value, 'bin')} into ${room.id}, which has ${counted(capacity.places.value, 'place')}: ${counted(over, 'bin')} too many. Move ${over} to another room, or correct the room's places.`,
      at: placeAt(fill.places, ['lots']).key ?? fill.at,
      related: [{ at: room.at, message: `${room.id} is defined here` }],
      about: fill.id,
    };
  }
}

/** What is recorded as gone in counts: the record is wrong, or the room's places are. */
function overfilledAsRecorded(
  fill: Fill,
  { places, lots }: Progress,
  room: Room,
  have: { readonly bins: number; readonly places: number },
): Problem {
  const planned = fill.planned ?? fill;
  const inPlan = new Map(planned.lots.map(({ lot, bins }) => [lot.value, bins.value]));
  const more = lots.filter(({ lot, bins }) => bins.value > (inPlan.get(lot.value) ?? 0));
  const [one] = more.length === 1 ? more : [];
  const beyond =
    one && inPlan.has(one.lot.value)
      ? `: ${one.bins.value} of ${one.lot.value}, planned ${inPlan.get(one.lot.value)}`
      : '';
  return {
    code: 'room-overfilled',
    message: `As recorded, ${counted(have.bins, 'bin')} of ${fill.id} went into ${room.id}${beyond}. It has ${counted(have.places, 'place')}, ${counted(have.bins - have.places, 'bin')} fewer. Correct the record, or the room's places.`,
    at: one ? placeAt(places, ['lots', one.lot.value]).span : (placeAt(places, ['lots']).key ?? fill.at),
    related: [
      {
        at: placeAt(planned.places, ['lots']).key ?? planned.at,
        message: `What ${fill.id} was planned to hold`,
      },
      { at: room.at, message: `${room.id} is defined here` },
    ],
    about: fill.id,
  };
}

/** A room filled less than this keeps its gas badly for what it costs; common practice. */
const WELL_FILLED_PER_CENT = 85;

function* roomsPartlyFilled({ filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, room, regime, utilisation } of filled.values()) {
    if (!utilisation || utilisation.value >= WELL_FILLED_PER_CENT || !areBinsRead({ fill })) continue;
    yield {
      code: 'room-partly-filled',
      message: `${room.id} is filled to ${perCent(utilisation.value)} by ${fill.id}. ${regime?.oxygen ? 'Nitrogen, scrubbing and cooling' : 'Cooling'} of the empty part ${regime?.oxygen ? 'are' : 'is'} paid for without fruit.`,
      at: placeAt(fill.places, ['lots']).key ?? fill.at,
      about: fill.id,
    };
  }
}

/** Stated and computed places may differ by this share before it is worth a look; common practice. */
const PLACES_TOLERANCE = 0.15;

function* statedPlacesDisagree({ capacities }: ComputedSeason): Iterable<Problem> {
  for (const { room, placesByGeometry } of capacities.values()) {
    const stated = room.statedPlaces;
    if (!stated || !placesByGeometry) continue;
    if (placesByGeometry.value === 0) {
      yield noPlaceByGeometry(room, stated);
      continue;
    }
    const difference = stated.value / placesByGeometry.value - 1;
    if (Math.abs(difference) <= PLACES_TOLERANCE) continue;
    yield {
      code: 'places-disagree',
      message: `${room.id}: ${counted(stated.value, 'place')} stated, but size, bin and clearances give ${placesByGeometry.value} (${difference > 0 ? '+' : ''}${Math.round(difference * 100)} %). The stated number is used; check it, the size or the bin type.`,
      at: placeAt(room.places, ['places']).span,
      related: [{ at: placeAt(room.places, ['inside']).span, message: 'Inside size' }],
      about: room.id,
    };
  }
}

function noPlaceByGeometry(room: Room, stated: Figure): Problem {
  return {
    code: 'places-disagree',
    message: `${room.id}: ${counted(stated.value, 'place')} stated, but size, bin and clearances leave none. The stated number is used; check the size, the bin type and the clearances.`,
    at: placeAt(room.places, ['places']).span,
    related: [{ at: placeAt(room.places, ['inside']).span, message: 'Inside size' }],
    about: room.id,
  };
}

function* stacksTooHigh(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { room, stackUnderCeiling: fits } of season.capacities.values()) {
    const { height, stack, ceilingClearance: clearance } = room;
    const bin = room.binType && season.plan.binTypes.get(room.binType.value);
    if (!height || !bin?.height || !fits) continue;
    const related = [{ at: placeAt(room.places, ['inside', 'height']).span, message: 'Inside height' }];
    const told = { code: 'stack-too-high', related, about: room.id };
    const isStated = clearance.origin.kind === 'plan';
    const free = stack && height.value - stack.value * bin.height.value;
    if (stack && free !== undefined && free < 0)
      yield {
        ...told,
        message: `${room.id}: ${stack.value} bins of ${show(bin.height)} stand higher than the room (${show(height)}). ${fits.value} fit under the ceiling clearance.`,
        at: placeAt(room.places, ['stack']).span,
      };
    else if (fits.value === 0)
      yield {
        ...told,
        message: `${room.id}: no bin of ${show(bin.height)} fits under a ceiling of ${show(height)} with ${show(clearance)} free above it. Correct the clearance, the height of the room or its bin type.`,
        at: isStated
          ? placeAt(room.places, ['clearance', 'ceiling']).span
          : height.origin.kind === 'plan'
            ? height.origin.at
            : room.at,
      };
    else if (stack && free !== undefined && isStated && stack.value > fits.value)
      yield {
        ...told,
        severity: 'warning',
        message: `${room.id}: ${stack.value} bins of ${show(bin.height)} leave ${show(figureWith(height, { value: free }))} under the ceiling, and \`clearance: ceiling\` asks for ${show(clearance)}. ${fits.value} fit; lower the stack, or correct the clearance.`,
        at: placeAt(room.places, ['stack']).span,
      };
  }
}

function* roomsFilledTwice(season: ComputedSeason): Iterable<Problem> {
  for (const { room, earlier, later, begins } of filledAgain(season.plan)) {
    const empty = canBeEmpty(season, earlier);
    if (!later.room || (empty !== undefined && begins >= empty)) continue;
    yield {
      code: 'room-filled-twice',
      message: `${room} is filled by ${later.id} from ${formatDay(begins)} while ${earlier.id} is still in it. Give one of them another room.${freeOverText(season, later)}`,
      at: later.room.at,
      related: [{ at: earlier.at, message: `${earlier.id} fills it first` }],
      about: later.id,
    };
  }
}

function* roomsNotReady({ plan }: ComputedSeason): Iterable<Problem> {
  for (const fill of plan.fills.values()) {
    const ready = fill.room && plan.rooms.get(fill.room.value)?.ready;
    if (!ready || !fill.firstBin || fill.firstBin.value >= ready.value) continue;
    yield {
      code: 'room-not-ready',
      message: `${fill.id}: the first bin comes on ${formatDay(fill.firstBin.value)}, but ${fill.room?.value} is ready only on ${formatDay(ready.value)}. Start later, or have the room ready earlier.`,
      at: fill.firstBin.at,
      related: [{ at: ready.at, message: 'Ready' }],
      about: fill.id,
    };
  }
}

function* varietiesUnsuited(season: ComputedSeason): Iterable<Problem> {
  for (const { fill, regime, lots } of season.filled.values()) {
    if (!regime || !fill.regime || regime.varieties.length === 0) continue;
    const unsuited = [
      ...new Set(
        lots.filter(({ variety }) => !regimeSuits(regime, variety)).map(({ variety }) => variety.name),
      ),
    ];
    if (unsuited.length === 0) continue;
    const better = season.fruit.variety(unsuited[0] ?? '')?.regimes ?? [];
    yield {
      code: 'variety-unsuited-to-regime',
      message: `${fill.id}: the regime \`${regime.name}\` is for ${listed(regime.varieties)}, not for ${listed(unsuited)}.${better.length > 0 ? ` Built-in regimes for ${unsuited[0]}: ${listed(better)}.` : ''}`,
      at: fill.regime.at,
      about: `${fill.id}/${unsuited.join(',')}`,
    };
  }
}

export const roomRules: readonly Rule[] = [
  {
    code: 'room-overfilled',
    family: 'room',
    severity: 'error',
    summary: 'More bins than the room has places.',
    find: roomsOverfilled,
  },
  {
    code: 'room-partly-filled',
    family: 'room',
    severity: 'notice',
    summary: 'A room is left partly empty.',
    find: roomsPartlyFilled,
  },
  {
    code: 'places-disagree',
    family: 'room',
    severity: 'warning',
    summary: "Stated places and the room's geometry disagree.",
    find: statedPlacesDisagree,
  },
  {
    code: 'stack-too-high',
    family: 'room',
    severity: 'error',
    summary: 'The stack is higher than the room.',
    find: stacksTooHigh,
  },
  {
    code: 'room-filled-twice',
    family: 'room',
    severity: 'error',
    summary: 'A room is filled again while it is still full.',
    find: roomsFilledTwice,
  },
  {
    code: 'room-not-ready',
    family: 'room',
    severity: 'warning',
    summary: 'The first bin comes before the room is ready.',
    find: roomsNotReady,
  },
  {
    code: 'variety-unsuited-to-regime',
    family: 'room',
    severity: 'warning',
    summary: 'A regime that does not suit a variety in the room.',
    find: varietiesUnsuited,
  },
];
