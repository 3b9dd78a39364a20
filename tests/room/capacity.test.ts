import { describe, expect, it } from 'vitest';
import { roomCapacity } from '../../src/room/capacity';
import { aBinType, aRoom, figure, known, written } from './orchard';

describe('places by geometry', () => {
  it('sets the bins the way that holds more, and says which', () => {
    // 1.25 m pitch lengthwise and 1.05 m crosswise: 14 x 8 lengthwise, 17 x 6 crosswise.
    const { pattern, places } = roomCapacity(aRoom({ stack: figure('bins', 8) }), aBinType());
    expect([pattern?.alongLength.value, pattern?.acrossWidth.value]).toEqual([14, 8]);
    expect(pattern?.turned).toBe(false);
    expect(known(places)).toBe(14 * 8 * 8);

    const turnedRoom = aRoom({ length: figure('m', 9), width: figure('m', 18.6), stack: figure('bins', 8) });
    const turned = roomCapacity(turnedRoom, aBinType());
    expect(turned.pattern?.turned).toBe(true);
    expect(known(turned.places)).toBe(14 * 8 * 8);
    expect(turned.places?.name).toContain('crosswise');
  });

  it('stacks as high as the ceiling clearance allows where no stack is stated', () => {
    // 7.6 m less 0.8 m over bins of 0.78 m: 8.7, so 8 high.
    const free = roomCapacity(aRoom(), aBinType());
    expect(known(free.stackUnderCeiling)).toBe(8);
    expect(known(free.places)).toBe(14 * 8 * 8);
    const stated = roomCapacity(aRoom({ stack: figure('bins', 7) }), aBinType());
    expect(known(stated.places)).toBe(14 * 8 * 7);
    expect(known(stated.stackUnderCeiling)).toBe(8);
  });

  it('takes off lost places, but never below none', () => {
    expect(known(roomCapacity(aRoom({ lostPlaces: figure('places', 12) }), aBinType()).places)).toBe(884);
    expect(known(roomCapacity(aRoom({ lostPlaces: figure('places', 9999) }), aBinType()).places)).toBe(0);
  });

  it('lets stated places win and keeps those by geometry beside them', () => {
    const capacity = roomCapacity(aRoom({ statedPlaces: figure('places', 900) }), aBinType());
    expect(known(capacity.places)).toBe(900);
    expect(known(capacity.placesByGeometry)).toBe(896);
    expect(known(capacity.fruitWhenFull)).toBe(270);
  });

  it('loses no bin to the conversion of feet', () => {
    // 14 bins of 48 in and 13 gaps of 2 in between walls kept 8 in clear: exactly 59 ft 6 in.
    const room = aRoom({
      length: written('59.5 ft', 'length'),
      width: written('43 ft', 'length'),
      height: written('24 ft', 'length'),
      wallClearance: written('8 in', 'length'),
      binGap: written('2 in', 'length'),
      ceilingClearance: written('2 ft', 'length'),
    });
    const bin = aBinType({
      length: written('48 in', 'length'),
      width: written('48 in', 'length'),
      height: written('33 in', 'length'),
    });
    const { pattern, stackUnderCeiling } = roomCapacity(room, bin);
    expect([pattern?.alongLength.value, pattern?.acrossWidth.value]).toEqual([14, 10]);
    expect(known(stackUnderCeiling)).toBe(8);
  });

  it('leaves out what it cannot know', () => {
    const capacity = roomCapacity(aRoom({ length: undefined, tightness: undefined }), undefined);
    expect(capacity.volume).toBeUndefined();
    expect(capacity.places).toBeUndefined();
    expect(capacity.fruitWhenFull).toBeUndefined();
    expect(capacity.leakFlow).toBeUndefined();
  });

  it('counts nothing in a bin of no size', () => {
    const none = aBinType({ length: figure('m', 0), width: figure('m', 0), height: figure('m', 0) });
    const capacity = roomCapacity(aRoom({ binGap: figure('m', 0) }), none);
    expect(capacity.placesByGeometry).toBeUndefined();
    expect(capacity.stackUnderCeiling).toBeUndefined();
  });
});
