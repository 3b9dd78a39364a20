import { describe, expect, it, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { formatWeek, parseDay, weekOfDay } from '../../src/plan/dates';
import { asOf } from '../../src/plan/known';
import { readPlan } from '../../src/plan/read';
import { statusHeadlines, statusReport } from '../../src/report/status-report';
import { statusMarkdown, statusText } from '../../src/report/status-text';
import { visibleWidth } from '../../src/report/table';
import { errorsAgainst } from '../cli/schemas';
import { sampleFiles } from '../samples/sample';

const RECORDS = `lotwright: 1
progress:
  R1-gala: { first-bin: 2026-09-02, last-bin: 2026-09-11, lots: { G1: 54, G2: 50, G3: 48 }, opened: 2026-09-22 }
  R2-gala:
    first-bin: 2026-09-08
    last-bin: 2026-09-16
    lots: { G4: 78, G5: 79, G6: 76 }
    cool: 2026-09-17
    sealed: 2026-09-20
  R3-golden: { first-bin: 2026-09-16 }
packed:
  P1: { lot: G1, fill: R1-gala, day: 2026-09-23, bins: 40, cartons: { first: 400, second: 110 } }
  P2: { lot: G2, fill: R1-gala, day: 2026-09-29, bins: 30, cartons: { first: 300, second: 85 } }
  P3: { lot: G2, day: 2026-09-30, bins: 2, cartons: { second: 12 } }
sales:
  S1: { market: home, variety: Gala, class: first, week: 2026-W39, cartons: 170 }
  S2: { market: schools, variety: Gala, class: second, week: 2026-W39, cartons: 80 }
  S3: { market: export, variety: Gala, class: first, week: 2026-W39, cartons: 60 }
  S4: { market: home, variety: Gala, class: first, week: 2026-W40, cartons: 250 }
`;

/** The first season with records, and an estimate of D2 that was too high. */
function reportOn(date: string, system?: 'us', records = RECORDS) {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: text.replace(/(D2: .*bins: 95),/, '$1, received-by-day: { 2026-09-20: 50, 2026-09-23: 30 },'),
  }));
  const plan = readPlan([...files, { path: 'records.lotplan.yaml', text: records }]);
  expect(plan.problems).toEqual([]);
  const stand = parseDay(date) ?? 0;
  return statusReport(computeSeason(asOf(plan, stand), { courses: true }), stand, system);
}

test('a room that would be cold before its last bin says of which bins that is', () => {
  // All of both lots came in by the 8th; the last bin was planned for the 15th.
  const text = `lotwright: 1
season: { name: Harvest 2026, carton: 18 kg, starts: 2026-09-01, ends: 2027-06-30 }
bins: { box: { outside: { length: 1.2 m, width: 1 m, height: 0.78 m }, net-fruit: 300 kg, tare: 40 kg, material: plastic } }
rooms: { R1: { inside: { length: 10 m, width: 5 m, height: 5 m }, bin-type: box, refrigeration: { capacity: 60 kW, group: main } } }
plant: { refrigeration: { main: { capacity: 90 kW, refrigerant: ammonia } } }
lots: { L1: { variety: Gala, picked: 2026-09-05, bins: 60, received-by-day: { 2026-09-07: 60 }, field-temperature: 16 °C } }
fills: { F1: { room: R1, regime: gala-air, first-bin: 2026-09-07, last-bin: 2026-09-25, lots: { L1: 60 } } }
`;
  const stand = parseDay('2026-09-10') ?? 0;
  const plan = readPlan([{ path: 'a.lotplan.yaml', text }]);
  expect(plan.problems).toEqual([]);
  const told = statusText(
    statusReport(computeSeason(asOf(plan, stand), { courses: true }), stand, undefined),
  );
  expect(told.replace(/\s+/g, ' ')).toContain(
    'Cool before the last bin: the day by which the bins that were received are cold (R1).',
  );
});

describe('where a season stands', () => {
  const report = reportOn('2026-10-01');

  it('holds the crop against its estimate, variety by variety', () => {
    expect(report.crop.varieties.find(({ variety }) => variety === 'Golden Delicious')).toEqual({
      variety: 'Golden Delicious',
      lots: 3,
      lotsIn: 2,
      estimate: 290,
      received: 97 + 80,
      toCome: 95,
      expected: 272,
      change: -18,
    });
  });

  it('tells what that does to fills that are not full yet, and what has no place', () => {
    const { fillsToCome, withoutPlace } = report.crop;
    expect(fillsToCome.find(({ fill }) => fill === 'R3-golden')).toMatchObject({
      planned: 287,
      willHold: 97 + 80 + 95,
      moreOfItsLots: 0,
      placesEmpty: 287 - 272 + ((fillsToCome[0]?.places ?? 0) - 287),
    });
    // 81 of G5 came in and 79 went into its room, which is full and sealed.
    expect(withoutPlace).toEqual([{ lot: 'G5', variety: 'Gala', bins: 2 }]);
  });

  it('tells what was late, what is overdue, and nothing that something later has overtaken', () => {
    const room = report.rooms.find(({ fill }) => fill === 'R2-gala');
    expect(room?.state).toBe('sealed');
    const late = (step: string) => room?.steps.find((one) => one.step === step)?.daysLate;
    expect([late('last-bin'), late('sealed')]).toEqual([undefined, 2]);
    // Expected a day after sealing on 2026-09-20, and never recorded.
    expect(late('set-point')).toBeGreaterThan(5);
    const first = report.rooms.find(({ fill }) => fill === 'R1-gala');
    expect(first?.state).toBe('opened');
    expect(first?.steps.find(({ step }) => step === 'cool')?.daysLate).toBeUndefined();
    expect(first?.steps.find(({ step }) => step === 'last-bin')?.daysLate).toBe(1);
  });

  it('has every bin once: what came in is in rooms, packed or elsewhere, and what went in is packed or there', () => {
    const gala = report.stock.elsewhere.find(({ variety }) => variety === 'Gala');
    expect(gala).toEqual({ variety: 'Gala', received: 389, inRooms: 385, packedFromField: 2, elsewhere: 2 });
    expect(report.stock.rooms.find(({ fill }) => fill === 'R1-gala')).toMatchObject({
      binsIn: 152,
      binsPacked: 70,
      binsThere: 82,
      binsNotRecorded: 0,
      cartonsPacked: [
        { packClass: 'first', cartons: 700 },
        { packClass: 'second', cartons: 195 },
      ],
    });
    // 82 bins of 300 kg.
    expect(report.stock.rooms[0]?.fruitThere).toEqual({ value: 24.6, unit: 't' });
    expect(report.stock.cartons).toEqual([
      { variety: 'Gala', packClass: 'first', packed: 700, sold: 230, inStock: 470 },
      { variety: 'Gala', packClass: 'second', packed: 207, sold: 80, inStock: 127 },
    ]);
  });

  it('holds what is sold against what was wanted in the weeks that are over', () => {
    expect(report.market.through).toBe('2026-W39');
    const line = (market: string) =>
      report.market.lines.find((one) => one.market === market && one.variety === 'Gala');
    expect(line('home')).toMatchObject({ wanted: 180, sold: 170, short: 10 });
    expect(line('schools')).toMatchObject({ wanted: 70, sold: 80, short: 0 });
    expect(line('export')).toMatchObject({ wanted: 0, sold: 60, wantedLater: 0 });
    // The Sunday ends the week.
    const sunday = reportOn('2026-10-04').market;
    expect(sunday.through).toBe('2026-W40');
    expect(sunday.lines.find(({ market, variety }) => market === 'home' && variety === 'Gala')).toMatchObject(
      { wanted: 430, sold: 420, met: 420, short: 10, beyond: 0 },
    );
    expect(line('schools')).toMatchObject({ met: 70, beyond: 10 });
    // 180 + 70 Gala; of 310 sold 170 + 70 were wanted in their week.
    expect(statusHeadlines(report)[3]).toBe(
      'Market: 310 cartons are sold to the end of 2026-W39; of 250 wanted 240 were met and 10 were short, 70 went beyond what their week wanted.',
    );
  });

  it('lets no surplus of one week make good what another was short of', () => {
    // Of 180 and 250 wanted 250 and 180 are sold: 70 short of the second week, though the sum is met.
    const swapped = RECORDS.replace('cartons: 170', 'cartons: 250').replace(
      'W40, cartons: 250',
      'W40, cartons: 180',
    );
    const { lines } = reportOn('2026-10-04', undefined, swapped).market;
    expect(lines.find(({ market, variety }) => market === 'home' && variety === 'Gala')).toMatchObject({
      wanted: 430,
      sold: 430,
      met: 360,
      short: 70,
      beyond: 70,
    });
  });

  it('says of records that contradict each other that they do, and never counts below nothing', () => {
    const odd = RECORDS.replace('cartons: 80', 'cartons: 500').replace('G4: 78', 'G4: 180');
    const report = reportOn('2026-10-01', undefined, odd);
    // 207 second class are packed; 389 Gala came in, 152 and 335 went into rooms, 2 were packed from the field.
    expect(report.stock.cartons[1]).toMatchObject({ packed: 207, sold: 500, inStock: 0, beyondPacked: 293 });
    expect(report.stock.elsewhere.find(({ variety }) => variety === 'Gala')).toMatchObject({
      elsewhere: 0,
      beyondReceived: 100,
    });
    const text = statusText(report).replace(/\s+/g, ' ');
    expect(text).toContain('The records contradict each other: `lotwright check` tells where.');
    expect(text).toContain('Gala second: 293 more are recorded as sold than as packed.');
    expect(text).toContain('Gala: rooms and the packhouse have 489 bins of 389 received, 100 more than');
    expect(text).toContain(
      'Stock: 417 bins in filled rooms, 177 in rooms being filled or in the yard, 470 cartons packed and not sold.',
    );
    expect(errorsAgainst('status-report', report)).toEqual([]);
  });

  it('has the work of the next two weeks for each reader, and nothing that is done', () => {
    const { from, to, readers } = report.work;
    expect([from, to]).toEqual(['2026-10-01', '2026-10-15']);
    for (const { tasks } of readers)
      for (const { first, last } of tasks) expect(first <= to && last >= from).toBe(true);
    const crew = readers.find(({ reader }) => reader === 'cold-store')?.tasks ?? [];
    expect(crew.map(({ kind, rooms }) => `${kind} ${rooms.join()}`)).toContain('fill R4');
    expect(crew.filter(({ kind, rooms }) => kind === 'seal' && rooms.includes('R2'))).toEqual([]);
    expect(crew.filter(({ kind, rooms }) => kind === 'open' && rooms.includes('R1'))).toEqual([]);
  });

  it('says it in a few sentences, on one page, and as Markdown, with the caution', () => {
    expect(statusHeadlines(report)[0]).toMatch(/^Crop: 566 bins are in; 951 are expected in all, 19 fewer/);
    const text = statusText(report);
    expect(Math.max(...text.split('\n').map(visibleWidth))).toBeLessThanOrEqual(100);
    expect(text).toContain('R2: sealed 2 days late, 2026-09-20 (planned by 2026-09-18).');
    for (const words of [text.replace(/\s+/g, ' '), statusMarkdown(report).replace(/\s+/g, ' ')])
      expect(words).toContain('with a calibrated instrument');
    expect(statusMarkdown(report)).toContain('| Gala | 389 | 385 | 2 | 2 |');
  });

  it('fits its published schema, in both systems of units', () => {
    expect(errorsAgainst('status-report', report)).toEqual([]);
    const us = reportOn('2026-10-01', 'us');
    expect(errorsAgainst('status-report', us)).toEqual([]);
    // 24,600 kg are 54,233.7 lb.
    expect(us.stock.rooms[0]?.fruitThere?.unit).toBe('lb');
    expect(us.stock.rooms[0]?.fruitThere?.value).toBeCloseTo(54_233.7, 0);
  });

  it('tells a room that is empty and of which not all was recorded as packed', () => {
    const emptied = reportOn(
      '2026-11-10',
      undefined,
      RECORDS.replace('opened: 2026-09-22', 'opened: 2026-09-22, emptied: 2026-11-02'),
    );
    expect(emptied.stock.rooms.find(({ fill }) => fill === 'R1-gala')).toMatchObject({
      binsIn: 152,
      binsPacked: 70,
      binsThere: 0,
      binsNotRecorded: 82,
    });
  });
});

it('tells a scrubber set on one day from its first day to its last, as long as it goes on', () => {
  const scrubbed = (date: string) => {
    const { work } = reportOn(date);
    const tasks = work.readers.flatMap((one) => (one.reader === 'cold-store' ? one.tasks : []));
    return tasks.filter(({ kind }) => kind === 'scrub');
  };
  const [first] = scrubbed('2026-10-05').filter(({ first: day, last }) => day < last);
  if (!first) throw new Error('the sample has scrubbing of several days');
  const [, week] = /to (\d{4}-W\d\d), while/.exec(first.detail) ?? [];
  expect(formatWeek(weekOfDay(parseDay(first.last) ?? 0))).toBe(week);
  // What was set before the day and goes on is told; what has ended is not.
  const later = scrubbed('2026-10-21');
  expect(later.some((task) => task.first < '2026-10-21')).toBe(true);
  for (const { last } of later) expect(last >= '2026-10-21').toBe(true);
});

test('hours a day of a scrubber that are given out are told apart from those a room needs, which are its load', () => {
  const report = reportOn('2026-10-05');
  const scrubbed = report.work.readers
    .flatMap(({ tasks }) => tasks)
    .filter(({ kind, hoursADay }) => kind === 'scrub' && hoursADay !== undefined);
  expect(scrubbed.length).toBeGreaterThan(0);
  for (const { title, hoursADay } of scrubbed) {
    const { given = 0, needed = 0 } = hoursADay ?? {};
    expect(title).toContain(`up to ${given.toFixed(1)} h a day given, ${needed.toFixed(1)} needed`);
    // The scrubber has time to spare: all of it is given out, and little of it is load.
    expect(needed).toBeGreaterThan(0);
    expect(needed).toBeLessThan(given);
    for (const text of [statusText(report), statusMarkdown(report)])
      expect(text.replace(/\s+/g, ' ')).toContain(
        `${given.toFixed(1)} h a day given, ${needed.toFixed(1)} needed`,
      );
  }
  expect(errorsAgainst('status-report', report)).toEqual([]);
});
