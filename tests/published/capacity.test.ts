import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { boxSurface, boxVolume, roomCapacity } from '../../src/room/capacity';
import { fruitOf } from '../../src/room/contents';
import { aBinType, aFill, aPlan, aRoom, day, figure, known, onlyRoom } from '../room/orchard';
import { check } from './published';

const OREGON = 'Hellickson and Baskins 1997, rooms of 18.6 x 9.0 x 7.6 m in Oregon (phtnet wn464, wn508)';
const HANDBOOK =
  'USDA Agriculture Handbook 66, "Heat Load Calculation", https://www.scribd.com/doc/259945372';
const LINKE =
  'Linke and others 2023, Sensors 23(3):1739, https://pubmed.ncbi.nlm.nih.gov/36772778 (large plastic bin, Europe)';

// Wooden bins of 48 inches square; the source states the counts, the clearances here are such as leave them room.
const bin48 = aBinType({
  length: figure('m', 1.2192),
  width: figure('m', 1.2192),
  height: figure('m', 0.66),
  netFruit: figure('kg', 400),
  tare: figure('kg', 63.5),
  material: 'wood',
});
const normalStack = { stack: figure('bins', 10), lostPlaces: figure('places', 15) };
const tight = { wallClearance: figure('m', 0.1), binGap: figure('m', 0.02) };

function oregon(over: Parameters<typeof aRoom>[0]) {
  return roomCapacity(aRoom(over), bin48);
}

it('counts the Oregon rooms as their storekeepers did', () => {
  const normal = oregon(normalStack);
  const tight10 = oregon({ ...tight, stack: figure('bins', 10), lostPlaces: figure('places', 35) });
  const tight11 = oregon({ ...tight, stack: figure('bins', 11), lostPlaces: figure('places', 29) });
  const count = (id: string, what: string, expected: number, actual: number | undefined) =>
    check(
      { id, what, source: OREGON, known: 'published', expected, unit: 'bins', tolerance: 0 },
      known(actual === undefined ? undefined : figure('bins', actual)),
    );
  count('capacity-oregon-along', 'Bins along the room', 14, normal.pattern?.alongLength.value);
  count('capacity-oregon-across', 'Bins across, normal stack', 6, normal.pattern?.acrossWidth.value);
  count('capacity-oregon-across-tight', 'Bins across, tight stack', 7, tight10.pattern?.acrossWidth.value);
  count('capacity-oregon-normal', 'Places, normal stack 14 x 6 x 10 less 15', 825, normal.places?.value);
  count('capacity-oregon-tight-10', 'Places, tight stack 14 x 7 x 10 less 35', 945, tight10.places?.value);
  count('capacity-oregon-tight-11', 'Places, tight stack 14 x 7 x 11 less 29', 1049, tight11.places?.value);
  const density = (id: string, what: string, expected: number, room: typeof normal) =>
    check(
      { id, what, source: OREGON, known: 'published', expected, unit: 'bins/m3', tolerance: 0.0005 },
      known(room.places) / known(room.volume),
    );
  check(
    {
      id: 'capacity-oregon-volume',
      what: 'Volume of the room',
      source: OREGON,
      known: 'published',
      expected: 1272.24,
      unit: 'm3',
      tolerance: 0.005,
    },
    known(normal.volume),
  );
  density('capacity-oregon-density-normal', 'Bins in a cubic metre, normal stack', 0.648, normal);
  density('capacity-oregon-density-10', 'Bins in a cubic metre, tight, 10 high', 0.743, tight10);
  density('capacity-oregon-density-11', 'Bins in a cubic metre, tight, 11 high', 0.825, tight11);
  const lost = (id: string, what: string, expected: number, room: typeof normal, high: number) => {
    const positions = known(room.pattern?.alongLength) * known(room.pattern?.acrossWidth) * high;
    check(
      { id, what, source: OREGON, known: 'published', expected, unit: '%', tolerance: 0.05 },
      (100 * (positions - known(room.places))) / positions,
    );
  };
  lost('capacity-oregon-lost-normal', 'Places lost under coil and door, 15 of 840', 1.8, normal, 10);
  lost('capacity-oregon-lost-10', 'Places lost, 35 of 980', 3.6, tight10, 10);
  lost('capacity-oregon-lost-11', 'Places lost, 29 of 1,078', 2.7, tight11, 11);
});

it('measures the room of the handbook', () => {
  const inside = { length: figure('m', 14.7), width: figure('m', 14.7), height: figure('m', 4.2) };
  const outside = { length: figure('m', 15), width: figure('m', 15), height: figure('m', 4.5) };
  const room = roomCapacity(
    aRoom({ ...inside, statedPlaces: figure('places', 600) }),
    aBinType({ netFruit: figure('kg', 500) }),
  );
  const from = { source: HANDBOOK, known: 'published' as const };
  check(
    {
      id: 'capacity-handbook-volume',
      what: 'Inside volume',
      ...from,
      expected: 908,
      unit: 'm3',
      tolerance: 0.5,
    },
    known(room.volume),
  );
  check(
    {
      id: 'capacity-handbook-surface',
      what: 'Outside surface',
      ...from,
      expected: 720,
      unit: 'm2',
      tolerance: 0,
    },
    known(boxSurface(outside)),
  );
  check(
    {
      id: 'capacity-handbook-fruit',
      what: 'Fruit, 600 bins',
      ...from,
      expected: 300,
      unit: 't',
      tolerance: 0,
    },
    known(room.fruitWhenFull),
  );
  check(
    {
      id: 'capacity-handbook-bins',
      what: 'Bins in a cubic metre',
      ...from,
      expected: 0.661,
      unit: 'bins/m3',
      tolerance: 0.0005,
    },
    known(room.places) / known(room.volume),
  );
  check(
    {
      id: 'capacity-handbook-density',
      what: 'Fruit in a cubic metre (of the rounded 908 m3)',
      ...from,
      expected: 330.4,
      unit: 'kg/m3',
      tolerance: 0.2,
    },
    (known(room.fruitWhenFull) * 1000) / known(room.volume),
  );
});

it('knows bins by their size and their fruit', () => {
  const plastic = boxVolume({ length: figure('m', 1.2), width: figure('m', 1), height: figure('m', 0.78) });
  check(
    {
      id: 'capacity-plastic-bin-volume',
      what: 'Outer volume of a large plastic bin',
      source: LINKE,
      known: 'published',
      expected: 0.936,
      unit: 'm3',
      tolerance: 0.0005,
    },
    plastic.value,
  );
  check(
    {
      id: 'capacity-plastic-bin-density',
      what: 'Fruit in a cubic metre of bin, 300 kg each',
      source: LINKE,
      known: 'published',
      expected: 320.5,
      unit: 'kg/m3',
      tolerance: 0.05,
    },
    300 / plastic.value,
  );
  check(
    {
      id: 'capacity-uk-bin',
      what: 'Crop in 800,000 bins at the industry average of 341.25 kg',
      source: 'UK industry average, https://www.fruitnet.com (56630.article)',
      known: 'published',
      expected: 273_000,
      unit: 't',
      tolerance: 0,
    },
    fruitOf(figure('bins', 800_000), figure('kg', 341.25)).value,
  );
});

it('leaves about two thirds of a filled room to gas', () => {
  const plan = aPlan({ rooms: [aRoom(normalStack)], binType: bin48, fills: [aFill({ lots: { L1: 825 } })] });
  const room = onlyRoom({ ...plan, binTypes: new Map([['plastic-1200', bin48]]) });
  check(
    {
      id: 'capacity-gas-share',
      what: 'Gas in the Oregon room, normal stack, of its volume',
      source:
        'Container Handbook (GDV), https://containerhandbuch.de/chb/wild/wild_09_02_02.html: product 1/3, gas 2/3',
      known: 'published',
      expected: 66.7,
      unit: '%',
      // The source gives a rule of thumb in thirds.
      tolerance: 8,
    },
    (100 * known(room.freeGasVolume)) / known(room.capacity.volume),
  );
});

it('plans for a harvest of about two months', () => {
  const folder = join(__dirname, '../../sample-plans/full-season');
  const text = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.lotplan.yaml'))
    .map((name) => readFileSync(join(folder, name), 'utf8'))
    .join('\n');
  const picked = [...text.matchAll(/picked: (\d{4}-\d\d-\d\d)(?:\.\.(\d{4}-\d\d-\d\d))?/g)];
  const days = picked.flatMap(([, first, last]) => [first, last ?? first].map((one) => day(one ?? '')));
  expect(days.length).toBeGreaterThan(100);
  check(
    {
      id: 'capacity-harvest-length',
      what: 'Days from the first pick to the last in the full-size sample season',
      source: 'Common practice: harvest lasts about two months',
      known: 'common practice',
      expected: 61,
      unit: 'days',
      tolerance: 10,
    },
    Math.max(...days) - Math.min(...days) + 1,
  );
});
