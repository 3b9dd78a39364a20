import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/findings/types';
import { findingsOnExample, readPage } from './page';

/** A finding names the smallest change that would cure it: the change is made, and it must be gone. */

function wrongExample(code: string): string {
  const [example] = readPage(code).wrong;
  if (example === undefined) throw new Error(`the page of ${code} has no wrong example`);
  return example;
}

function found(code: string, example: string): Finding | undefined {
  return findingsOnExample(example).find((finding) => finding.code === code);
}

/** The number that a message has at a pattern's group. */
function told(finding: Finding | undefined, pattern: RegExp): number {
  const text = pattern.exec(finding?.message ?? '')?.[1];
  expect(text, `${pattern} in: ${finding?.message}`).toBeDefined();
  return Number(text);
}

/** The fill of the plan around the examples on other days, counted from the last of August. */
function fillOfGala(firstBin: number, lastBin: number, sealed: number): string {
  const date = (day: number) => new Date(Date.UTC(2026, 7, 31 + day)).toISOString().slice(0, 10);
  return `fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: ${date(firstBin)}
    last-bin: ${date(lastBin)}
    sealed: ${date(sealed)}
    lots: { L1: 140, L2: 146 }
`;
}

describe('what a finding says would cure it', () => {
  it('holds for rinsed beds where oxygen climbs, and a good deal less does not', () => {
    const example = wrongExample('oxygen-climbs');
    const rinsed = told(found('oxygen-climbs', example), /to (\d+) % instead of 0 %/);
    const rinse = (share: number) => example.replace('1.6 m3 }', `1.6 m3, rinsed: ${share} % }`);
    expect(found('oxygen-climbs', rinse(rinsed))).toBeUndefined();
    expect(found('oxygen-climbs', rinse(rinsed - 15))).toBeDefined();
  });

  it('holds for a more selective membrane where oxygen climbs, and a good deal less does not', () => {
    const example = readPage('oxygen-climbs').wrong.find((one) => one.includes('membrane')) ?? '';
    const needed = told(found('oxygen-climbs', example), /a membrane (\d+\.\d) times as open/);
    const give = (times: number) => example.replace('over-oxygen: 12', `over-oxygen: ${times}`);
    expect(found('oxygen-climbs', give(needed))).toBeUndefined();
    expect(found('oxygen-climbs', give(needed * 0.8))).toBeDefined();
  });

  it('holds for the charge of lime that lasts', () => {
    const example = wrongExample('lime-short');
    const charge = told(found('lime-short', example), /(\d+) kg would last/);
    expect(found('lime-short', example.replace('charge: 200 kg', `charge: ${charge} kg`))).toBeUndefined();
  });

  it('holds for lights, vehicles and people that make a cooler too small', () => {
    const example = wrongExample('cooling-overloaded');
    const most = told(found('cooling-overloaded', example), /at most ([\d.]+) kW/);
    const roomWith = (loading: string) =>
      example.replace(
        'capacity: 8 kW, group: engine-room }',
        `capacity: ${most + 0.2} kW, group: engine-room }${loading}`,
      );
    expect(found('cooling-overloaded', roomWith(''))).toBeUndefined();
    const lit = roomWith('\n    loading: { lights: 2 kW, people: 2, hours-a-day: 12 }');
    expect(found('cooling-overloaded', lit)?.message).toContain(
      'Without lights, vehicles and people in the room, 1.3 kW, the cooler would do.',
    );
    const fans = example.replace('capacity: 8 kW', `fans: 9 kW, capacity: ${most + 0.2} kW`);
    expect(found('cooling-overloaded', fans)?.message).not.toContain('Without lights');
  });

  it('holds for the flow of nitrogen', () => {
    const example = wrongExample('nitrogen-queue');
    const times = told(found('nitrogen-queue', example), /A flow (\d+\.\d) times as large/);
    const flows = (factor: number) =>
      example
        .replace('flow: 4 m3/h', `flow: ${(4 * factor).toFixed(2)} m3/h`)
        .replace('flow: 2 m3/h', `flow: ${(2 * factor).toFixed(2)} m3/h`);
    expect(found('nitrogen-queue', flows(times))).toBeUndefined();
    expect(found('nitrogen-queue', flows(times * 0.9))).toBeDefined();
  });

  it('holds for the day on which warm fruit is cold', () => {
    const example = wrongExample('sealed-before-cold');
    const fill = `fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: { L1: 140, L2: 146 }
`;
    const warm = found('sealed-before-cold', example + fill);
    const day = /all fruit is cold on (\S+),/.exec(warm?.message ?? '')?.[1] ?? '';
    expect(day > '2026-09-17').toBe(true);
    expect(found('sealed-before-cold', example + fill.replace('sealed: 2026-09-17', `sealed: ${day}`))).toBe(
      undefined,
    );
  });

  it('holds for the cooler behind which fruit is cold in time, and a little less does not', () => {
    const example = wrongExample('sealed-before-cold');
    const kilowatts = told(found('sealed-before-cold', example), /a cooler of ([\d.]+) kW/);
    const give = (size: number) => example.replace('capacity: 10 kW', `capacity: ${size} kW`);
    expect(found('sealed-before-cold', give(kilowatts))).toBeUndefined();
    expect(found('sealed-before-cold', give(kilowatts - 1))).toBeDefined();
  });

  it('holds for the capacity of a refrigeration group, and a little less does not', () => {
    const example = wrongExample('refrigeration-group-overloaded');
    const group = found('refrigeration-group-overloaded', example);
    const kilowatts = told(group, /or give engine-room ([\d.]+) kW/);
    const give = (size: number) => example.replace('capacity: 10 kW', `capacity: ${size} kW`);
    expect(found('refrigeration-group-overloaded', give(kilowatts))).toBeUndefined();
    expect(found('refrigeration-group-overloaded', give(kilowatts - 1))).toBeDefined();
  });

  it('holds for the days more that rooms of a group take to fill, and a day fewer does not', () => {
    const example = wrongExample('refrigeration-group-overloaded');
    const days = told(
      found('refrigeration-group-overloaded', example),
      /take (\d+) days more to fill R1-gala/,
    );
    expect(found('refrigeration-group-overloaded', example + fillOfGala(5, 15 + days, 17 + days))).toBe(
      undefined,
    );
    const fewer = fillOfGala(5, 14 + days, 16 + days);
    expect(found('refrigeration-group-overloaded', example + fewer)).toBeDefined();
  });

  it('holds for the day by which to seal, and for the first bin that is not too early', () => {
    const late = found('sealed-late', wrongExample('sealed-late'))?.message ?? '';
    expect(late).toContain('20 days after its first bin, 6 days too late');
    expect(late).toContain('Seal it by 2026-09-11 with its last bin in by 2026-09-09');
    expect(late).toContain('its first bin on 2026-09-03 or later');
    expect(found('sealed-late', fillOfGala(-3, 9, 11))).toBeUndefined();
    expect(found('sealed-late', fillOfGala(-3, 11, 12))).toBeDefined();
    expect(found('sealed-late', fillOfGala(3, 15, 17))).toBeUndefined();
    expect(found('sealed-late', fillOfGala(2, 15, 17))).toBeDefined();
  });

  it('holds for the day by which a full room is sealed', () => {
    const waits = found('seal-waits-after-last-bin', fillOfGala(5, 10, 17))?.message ?? '';
    expect(waits).toContain('Seal it by 2026-09-15, 5 days after the last bin');
    expect(found('seal-waits-after-last-bin', fillOfGala(5, 10, 15))).toBeUndefined();
    expect(found('seal-waits-after-last-bin', fillOfGala(5, 10, 16))).toBeDefined();
  });

  it('holds for the removal that carries the load of a scrubber, and a little less does not', () => {
    const example = wrongExample('scrubber-overloaded');
    const removal = told(found('scrubber-overloaded', example), /A removal of ([\d.]+) kg\/day at/);
    const give = (kilograms: number) => example.replace('removal: 6 kg/day', `removal: ${kilograms} kg/day`);
    expect(found('scrubber-overloaded', give(removal))).toBeUndefined();
    expect(found('scrubber-overloaded', give(removal - 0.1))).toBeDefined();
  });

  it('holds for the purity of nitrogen, and a tenth less does not', () => {
    const example = wrongExample('nitrogen-cannot-reach');
    const purity = told(found('nitrogen-cannot-reach', example), /gas of ([\d.]+) % nitrogen or purer/);
    const give = (percent: number) =>
      example.replace(
        '{ purity: 97 %, flow: 60 m3/h }',
        `{ purity: 97 %, flow: 60 m3/h }\n        - { purity: ${percent} %, flow: 60 m3/h }`,
      );
    expect(found('nitrogen-cannot-reach', give(purity))).toBeUndefined();
    expect(found('nitrogen-cannot-reach', give(Number((purity - 0.1).toFixed(1))))).toBeDefined();
  });

  it('holds for the half-life of a room, and a minute less does not', () => {
    const example = wrongExample('room-too-leaky');
    const minutes = told(found('room-too-leaky', example), /Brought to (\d+) min it is tight enough/);
    const give = (halfLife: number) => example.replace('after: 9 min', `after: ${halfLife} min`);
    expect(found('room-too-leaky', give(minutes))).toBeUndefined();
    expect(found('room-too-leaky', give(minutes - 1))).toBeDefined();
  });

  it('holds for the carbon of a bed that lasts its turn, and a little less does not', () => {
    const example = wrongExample('bed-saturated-early');
    const carbon = told(found('bed-saturated-early', example), /or (\d+) kg of carbon in each bed/);
    const give = (kg: number) => example.replace('carbon: 60 kg', `carbon: ${kg} kg`);
    expect(found('bed-saturated-early', give(carbon))).toBeUndefined();
    expect(found('bed-saturated-early', give(carbon - 2))).toBeDefined();
  });

  it('holds for the humidity at which fruit loses less', () => {
    const example = wrongExample('weight-loss-high');
    const humidity = told(found('weight-loss-high', example), /Held at (\d+\.?\d*) %/);
    const held = (percent: number) => example.replace('humidity: 85 %', `humidity: ${percent} %`);
    expect(found('weight-loss-high', held(humidity))).toBeUndefined();
    expect(found('weight-loss-high', held(humidity - 0.5))).toBeDefined();
  });

  it('holds for the set-point above the breakpoint', () => {
    const example = wrongExample('oxygen-below-breakpoint');
    const oxygen = told(found('oxygen-below-breakpoint', example), /Raise the set-point to (\d\.\d+) %/);
    expect(
      found('oxygen-below-breakpoint', example.replace('oxygen: 0.5 %', `oxygen: ${oxygen} %`)),
    ).toBeUndefined();
  });
});
