import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { filesAfter, takeIn } from '../../src/take-in/take-in';
import type { TableLayout } from '../../src/take-in/types';

const PLAN = `lotwright: 1
tables:
  weighbridge:
    holds: receipts
    columns: { lot: Lot no, day: Date, bins: Bins, field-temperature: Pulp }
    separator: semicolon
    decimal: comma
    dates: day-month-year
    names: { lot: { GA-02: L2 } } # the weighbridge has its own numbers
  laboratory:
    holds: maturity
    columns: { lot: lot, tested: tested, starch: starch, firmness: lbf }
    units: { firmness: lbf }
  orders:
    holds: demand
    columns: { market: market, variety: variety, class: class, week: week, cartons: cartons }
lots:
  # the early block
  L1: { variety: Gala, picked: 2026-09-03..2026-09-05, bins: 140 } # by the river
  L2:
    variety: Gala
    picked: 2026-09-07
    bins: 100
    received: 30 # until the seventh
    maturity: { tested: 2026-09-06, starch: 3 }
demand:
  home: # the whole winter
    market: home
    variety: Gala
    class: first
    weeks: 2026-W47..2027-W04
    cartons: 450
    by-week: { 2026-W51: 900 }
    price: 22
`;

const plan = readPlan([{ path: 'a.lotplan.yaml', text: PLAN }]);

function layout(id: string): TableLayout {
  const found = plan.tables.get(id);
  if (!found?.holds) throw new Error(`the example has no table ${id}`);
  return { ...found, holds: found.holds };
}

function take(id: string, text: string, into = PLAN) {
  const before = readPlan([{ path: 'a.lotplan.yaml', text: into }]);
  const taken = takeIn(before, layout(id), text);
  const after = filesAfter(before, taken.changes).get('a.lotplan.yaml') ?? '';
  return { taken, after, plan: readPlan([{ path: 'a.lotplan.yaml', text: after }]) };
}

/** All bins that the plan says came in, by day. */
function binsOf(of: Plan, lot: string): number {
  return [...(of.lots.get(lot)?.receivedByDay?.values() ?? [])].reduce((sum, bins) => sum + bins, 0);
}

const HEAD = 'Date;Lot no;Bins;Pulp\n';

describe('receipts taken in', () => {
  it('add up the loads of a day, and keep every comment', () => {
    const {
      taken,
      after,
      plan: now,
    } = take('weighbridge', `${HEAD}03.09.2026;L1;40;19,5\n03.09.2026;L1;20;21,0\n04.09.2026;L1;60;18,0\n`);
    expect(taken.faults).toEqual([]);
    expect([...(now.lots.get('L1')?.receivedByDay?.values() ?? [])]).toEqual([60, 60]);
    expect(binsOf(now, 'L1')).toBe(120);
    // Picking goes on to the fifth: until then the estimate counts.
    expect(now.lots.get('L1')?.receivedBins).toBeUndefined();
    // (40 x 19.5 + 20 x 21 + 60 x 18) / 120 = 19.0 degrees, the mean by bins
    expect(now.lots.get('L1')?.fieldTemperature.value).toBe(19);
    expect(after).toContain('# the early block');
    expect(after).toContain('# by the river');
    expect(now.problems).toEqual([]);
    const touched = (text: string) => text.split('\n').filter((line) => !line.startsWith('  L1:'));
    expect(touched(after)).toEqual(touched(PLAN));
  });

  it('say so where a row cannot be taken, and take all others', () => {
    const { taken, plan: now } = take(
      'weighbridge',
      [
        'Date;Lot no;Bins;Pulp',
        '03.09.2026;L1;40;19,5',
        '31.09.2026;L1;40;19,5',
        '04.09.2026;L9;40;19,5',
        '04.09.2026;L1;4O;19,5',
        '01.09.2026;L1;40;19,5',
        '04.09.2026;L1',
        '04.09.2026;;12;',
        '05.09.2026;L1;50;',
        '06.09.2026;L1;4000000;',
      ].join('\n'),
    );
    expect(taken.faults.map(({ line, reason }) => `${line} ${reason.split(/[.:(]/)[0]}`)).toEqual([
      '3 "31',
      '4 The plan has no lot `L9`',
      '5 "4O" in column "Bins" is not a whole number',
      '6 2026-09-01 is before lot L1 is picked ',
      '7 The row has 2 cells, and the heading 4',
      '8 No `lot` in column "Lot no"',
      '10 "4000000" in column "Bins" is not a whole number up to 1,000,000',
    ]);
    expect(binsOf(now, 'L1')).toBe(90);
  });

  it('know a lot by the name that the weighbridge has for it, and never lose bins the plan has without days', () => {
    const few = take('weighbridge', `${HEAD}07.09.2026;GA-02;20;\n`);
    expect(few.taken.changes).toEqual([]);
    expect(few.taken.faults[0]?.reason).toContain('30 bins of lot L2 are received, without their days');
    const all = take('weighbridge', `${HEAD}07.09.2026;GA-02;20;\n08.09.2026;GA-02;60;\n`);
    expect(all.plan.lots.get('L2')?.receivedBins?.value).toBe(80);
    expect(all.after).toContain('received: 80 # until the seventh');
  });

  it('take a file of each day as well as one of the whole season', () => {
    const days = ['03', '04', '05'].map((day, index) => `${day}.09.2026;L1;${30 + index};`);
    const whole = take('weighbridge', HEAD + days.join('\n')).plan.lots.get('L1')?.receivedByDay;
    let text = PLAN;
    for (const day of days) text = take('weighbridge', `${HEAD}${day}\n`, text).after;
    const daily = readPlan([{ path: 'a.lotplan.yaml', text }]).lots.get('L1')?.receivedByDay;
    expect(daily).toEqual(whole);
    expect([...(whole?.values() ?? [])]).toEqual([30, 31, 32]);
  });

  it('leave a day alone that is recorded otherwise, and take the others', () => {
    const first = take('weighbridge', `${HEAD}03.09.2026;L1;40;19\n`);
    const other = take('weighbridge', `${HEAD}03.09.2026;L1;44;25\n04.09.2026;L1;50;25\n`, first.after);
    expect([...(other.plan.lots.get('L1')?.receivedByDay?.values() ?? [])]).toEqual([40, 50]);
    expect(other.plan.lots.get('L1')?.fieldTemperature.value).toBe(19);
    expect(other.taken.faults).toEqual([
      {
        line: 2,
        reason:
          'The plan has 40 bins of lot L1 on 2026-09-03, and the file 44. What is recorded is never changed from a file: correct it in the plan, if the file is right.',
      },
    ]);
  });

  it('name the column that is missing, and read nothing then', () => {
    const { taken } = take('weighbridge', 'Datum;Lot no;Bins;Pulp\n03.09.2026;L1;40;19,5\n');
    expect(taken.changes).toEqual([]);
    expect(taken.faults).toEqual([
      {
        line: 1,
        reason: 'No column is called "Date" (`day`). There are "Datum", "Lot no", "Bins", "Pulp".',
      },
    ]);
  });

  it('read headings behind a byte order mark, CR LF and cells in quotes over two lines', () => {
    const { taken, plan: now } = take(
      'weighbridge',
      '\uFEFFDate;Lot no;Bins;Pulp\r\n03.09.2026;"L1";"40";\r\n"04.09.2026";L1;50;""\r\n',
    );
    expect(taken.faults).toEqual([]);
    expect(binsOf(now, 'L1')).toBe(90);
    const quoted = take('weighbridge', `${HEAD}"03.09.\n2026";L1;40;\n04.09.2026;L1;x;\n`).taken.faults;
    expect(quoted.map(({ line }) => line)).toEqual([2, 4]);
  });
});

describe('maturity tests taken in', () => {
  it('put the last test of a lot into the plan, with the unit of its column', () => {
    const {
      plan: now,
      taken,
      after,
    } = take(
      'laboratory',
      'lot,tested,starch,lbf\nL1,2026-09-01,2.5,18.1\nL1,2026-09-03,3.1,17.2\nL2,2026-09-07,3.4,\n',
    );
    expect(taken.faults).toEqual([]);
    expect(now.lots.get('L1')?.maturity?.starch?.value).toBe(3.1);
    // 17.2 lbf x 4.448 222 N/lbf (NIST SP 811) = 76.5 N
    expect(now.lots.get('L1')?.maturity?.firmness?.value).toBeCloseTo(76.51, 2);
    expect(now.lots.get('L2')?.maturity?.starch?.value).toBe(3.4);
    expect(after).toContain('maturity: { tested: 2026-09-07, starch: 3.4 }');
  });

  it('leave what is newer in the plan, and take no sample out of store for maturity at harvest', () => {
    const older = take('laboratory', 'lot,tested,starch,lbf\nL2,2026-09-01,2.0,18\n');
    expect(older.taken.changes).toEqual([]);
    const late = take('laboratory', 'lot,tested,starch,lbf\nL1,2026-11-20,6,14\n');
    expect(late.taken.faults[0]?.reason).toContain('a sample out of store');
  });

  it('leave a test of the same day alone that says something else', () => {
    const { taken, after } = take('laboratory', 'lot,tested,starch,lbf\nL2,2026-09-06,3.5,17\n');
    expect(after).toBe(PLAN);
    expect(taken.faults[0]?.reason).toContain(
      'The plan has `starch: 3` of the test of lot L2 on 2026-09-06, and the file 3.5',
    );
    // What it lacks is added.
    expect(take('laboratory', 'lot,tested,starch,lbf\nL2,2026-09-06,3.0,17\n').after).toContain(
      'maturity: { tested: 2026-09-06, starch: 3, firmness: 17 lbf }',
    );
  });

  it('refuse a value the plan would not accept, and take the other lots', () => {
    const { taken, plan: now } = take(
      'laboratory',
      'lot,tested,starch,lbf\nL1,2026-09-03,31,17\nL2,2026-09-07,3.4,17\n',
    );
    expect(taken.faults.map(({ line }) => line)).toEqual([2]);
    expect(taken.faults[0]?.reason).toContain('Nothing of lot L1 is taken');
    expect(now.lots.get('L2')?.maturity?.starch?.value).toBe(3.4);
    expect(now.problems).toEqual([]);
  });
});

describe('demand taken in', () => {
  const orders = 'market,variety,class,week,cartons\n';

  it('goes into the weeks that differ, and leaves alone those that are as all others', () => {
    const { plan: now, after } = take(
      'orders',
      `${orders}home,Gala,first,2026-W51,450\nhome,Gala,first,2026-W52,700\nhome,Gala,first,2027-01-06,450\n`,
    );
    expect([...(now.demand.get('home')?.byWeek.values() ?? [])].map(({ value }) => value)).toEqual([
      450, 700,
    ]);
    expect(after).toContain('by-week: { 2026-W51: 450, 2026-W52: 700 }');
    expect(after).toContain('# the whole winter');
  });

  it('names what the plan has no demand for, weeks outside it, and rows that contradict each other', () => {
    const { taken } = take(
      'orders',
      `${orders}away,Gala,first,2026-W51,1\nhome,Gala,first,2026-W40,2\nhome,Gala,first,2026-W52,3\nhome,Gala,first,2026-W52,4\n`,
    );
    expect(taken.changes).toEqual([]);
    expect(taken.faults.map(({ line }) => line)).toEqual([2, 3, 4, 5]);
    expect(taken.faults[3]?.reason).toContain('4 cartons here and 3 in line 4: neither row is taken');
  });
});

const load = fc.record({
  day: fc.integer({ min: 3, max: 12 }),
  lot: fc.constantFrom('L1', 'GA-02'),
  bins: fc.integer({ min: 0, max: 90 }),
});

describe('whatever the file', () => {
  it('all its bins are in the plan afterwards, and the same file again changes nothing', () => {
    fc.assert(
      fc.property(fc.array(load, { minLength: 1, maxLength: 30 }), (loads) => {
        const late = loads.filter(({ lot, day }) => lot === 'L1' || day >= 7);
        const file =
          HEAD +
          late
            .map(({ day, lot, bins }) => `${String(day).padStart(2, '0')}.09.2026;${lot};${bins};\n`)
            .join('');
        const { taken, after, plan: now } = take('weighbridge', file);
        const sum = (lot: string) =>
          late.filter((one) => one.lot === lot).reduce((bins, one) => bins + one.bins, 0);
        if (late.some(({ lot }) => lot === 'L1')) expect(binsOf(now, 'L1')).toBe(sum('L1'));
        expect(now.lots.get('L2')?.receivedBins?.value).toBe(Math.max(30, sum('GA-02')));
        expect(now.problems).toEqual([]);
        const again = take('weighbridge', file, after);
        expect(again.after).toBe(after);
        expect(again.taken.changes).toEqual([]);
        expect(again.taken.faults).toEqual(taken.faults);
      }),
    );
  });

  it('no text of any kind makes it fail', () => {
    const cell = fc.constantFrom(
      'L1',
      '03.09.2026',
      '40',
      '"',
      ';',
      '\n',
      ' ',
      '1.000,5',
      'Lot no',
      '\r',
      'ü',
      '-3',
    );
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 40 }), (cells) => {
        const { taken, plan: now } = take('weighbridge', HEAD + cells.join(''));
        expect(now.problems).toEqual([]);
        for (const { line } of taken.faults) expect(line).toBeGreaterThanOrEqual(1);
      }),
    );
  });
});
