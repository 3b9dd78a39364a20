import { compute, type Figure } from '../plan/figure';
import type { BinType, Room } from '../plan/model';
import { finite } from './figures';
import { leakFlow, pressureHalfLife } from './tightness';
import type { FloorPattern, RoomCapacity } from './types';

interface Size {
  readonly length: Figure<'m'>;
  readonly width: Figure<'m'>;
  readonly height: Figure<'m'>;
}

/** A room's size, places and tightness. What the plan lacks leaves its figures out; nothing throws. */
export function roomCapacity(room: Room, binType: BinType | undefined): RoomCapacity {
  const size = sizeOf(room);
  const bin = binType && sizeOf(binType);
  const volume = size && finite(boxVolume(size));
  const pattern = size && bin && floorPattern(room, size, bin);
  const stackUnderCeiling = size && bin && finite(stackThatFits(room, size, bin));
  const stack = room.stack ?? stackUnderCeiling;
  const placesByGeometry = pattern && stack && finite(placesOf(room, pattern, stack));
  const places = room.statedPlaces ?? placesByGeometry;
  const halfLife = room.tightness && pressureHalfLife(room.tightness);
  return {
    room,
    volume,
    surface: size && finite(boxSurface(size)),
    places,
    placesByGeometry,
    pattern,
    stackUnderCeiling,
    fruitWhenFull: places && binType?.netFruit && fruitInPlaces(places, binType.netFruit),
    pressureHalfLife: halfLife,
    leakFlow: room.tightness && halfLife && volume && leakFlow(volume, room.tightness.from, halfLife),
  };
}

function sizeOf(thing: Room | BinType): Size | undefined {
  const { length, width, height } = thing;
  if (!length || !width || !height) return undefined;
  return { length, width, height };
}

export function boxVolume({ length, width, height }: Size): Figure<'m3'> {
  return compute(
    'room volume',
    'm3',
    'length * width * height',
    { length, width, height },
    (v) => v.length * v.width * v.height,
  );
}

/** Walls, ceiling and floor. */
export function boxSurface({ length, width, height }: Size): Figure<'m2'> {
  return compute(
    'surface of walls, ceiling and floor',
    'm2',
    '2 * (length * width + length * height + width * height)',
    { length, width, height },
    (v) => 2 * (v.length * v.width + v.length * v.height + v.width * v.height),
  );
}

/**
 * Bins in a row of a room's side. The last bin needs no gap behind it. The millionth of a bin keeps a size in feet
 * from losing a bin to the last digit of its conversion.
 */
function binsInRow(name: string, room: Room, side: Figure<'m'>, bin: Figure<'m'>): Figure<'bins'> {
  return compute(
    name,
    'bins',
    'max(0, floor((side - 2 * wallClearance + gap) / (bin + gap) + 0.000001))',
    { side, wallClearance: room.wallClearance, gap: room.binGap, bin },
    (v) => Math.max(0, Math.floor((v.side - 2 * v.wallClearance + v.gap) / (v.bin + v.gap) + 0.000001)),
  );
}

/** The better of the two ways to set the bins; lengthwise where they are equal. */
function floorPattern(room: Room, size: Size, bin: Size): FloorPattern {
  const lengthwise = {
    alongLength: binsInRow('bins along the room, set lengthwise', room, size.length, bin.length),
    acrossWidth: binsInRow('bins across the room, set lengthwise', room, size.width, bin.width),
    turned: false,
  };
  const turned = {
    alongLength: binsInRow('bins along the room, set crosswise', room, size.length, bin.width),
    acrossWidth: binsInRow('bins across the room, set crosswise', room, size.width, bin.length),
    turned: true,
  };
  return binsOnFloor(turned) > binsOnFloor(lengthwise) ? turned : lengthwise;
}

function binsOnFloor(pattern: FloorPattern): number {
  return pattern.alongLength.value * pattern.acrossWidth.value;
}

function stackThatFits(room: Room, size: Size, bin: Size): Figure<'bins'> {
  return compute(
    'bins high under the ceiling clearance',
    'bins',
    'max(0, floor((height - ceilingClearance) / binHeight + 0.000001))',
    { height: size.height, ceilingClearance: room.ceilingClearance, binHeight: bin.height },
    (v) => Math.max(0, Math.floor((v.height - v.ceilingClearance) / v.binHeight + 0.000001)),
  );
}

function placesOf(room: Room, pattern: FloorPattern, stack: Figure<'bins'>): Figure<'places'> {
  return compute(
    `bin places by geometry, bins set ${pattern.turned ? 'crosswise' : 'lengthwise'}`,
    'places',
    'max(0, alongLength * acrossWidth * stack - lostPlaces)',
    {
      alongLength: pattern.alongLength,
      acrossWidth: pattern.acrossWidth,
      stack,
      lostPlaces: room.lostPlaces,
    },
    (v) => Math.max(0, v.alongLength * v.acrossWidth * v.stack - v.lostPlaces),
  );
}

function fruitInPlaces(places: Figure<'places'>, netFruit: Figure<'kg'>): Figure<'t'> {
  return compute(
    'fruit when full',
    't',
    'places * fruitInBin / 1000',
    { places, fruitInBin: netFruit },
    (v) => (v.places * v.fruitInBin) / 1000,
  );
}
