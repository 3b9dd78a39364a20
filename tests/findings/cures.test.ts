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
