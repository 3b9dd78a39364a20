import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDay, formatWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { filesAfter, takeIn } from '../../src/take-in/take-in';

const PLAN = `lotwright: 1
tables:
  log: { holds: progress, columns: { fill: Room, step: What, day: Date }, names: { step: { door shut: sealed } } }
  loads: { holds: progress, columns: { fill: Fill, lot: Lot, bins: Bins, last-bin: Last } }
  laboratory:
    holds: samples
    columns: { lot: Lot, fill: Room, taken: Date, fruit: n, firmness: lbf, scald: Scald }
    units: { firmness: lbf }
  numbered: { holds: samples, columns: { sample: No, lot: Lot, taken: Date, firmness: N } }
  line: { holds: packed, columns: { lot: Lot, fill: Room, day: Date, bins: Bins, cartons-first: I, cartons-second: II } }
  grader: { holds: packed, columns: { lot: Lot, fill: Room, day: Date, bins: Bins, class: Class, cartons: Cartons } }
  invoices: { holds: sales, columns: { market: To, variety: Variety, class: Class, week: Date, cartons: Cartons, price: Price } }
lots:
  L1: { variety: Gala, picked: 2026-09-03..2026-09-05, bins: 140 } # by the river
  L2: { variety: Gala, picked: 2026-09-07, bins: 100 }
bins:
  box: { outside: { length: 1.2 m, width: 1 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic }
rooms:
  R1: { inside: { length: 13 m, width: 5 m, height: 6 m }, bin-type: box }
fills:
  # the first
  R1-gala: { room: R1, regime: gala-standard, first-bin: 2026-09-03, last-bin: 2026-09-08, lots: { L1: 140, L2: 90 } }
progress:
  R1-gala: # kept by the crew
    first-bin: 2026-09-03 # at noon
packing:
  bins-a-week: 100
  packout:
    Gala: { shares: { first: 60 %, second: 20 % } }
demand:
  home: { market: home, variety: Gala, class: first, weeks: 2026-W47..2027-W04, cartons: 450, price: 22 }
`;

function take(id: string, csv: string, text = PLAN) {
  const before = readPlan([{ path: 'a.lotplan.yaml', text }]);
  const layout = before.tables.get(id);
  if (!layout?.holds) throw new Error(`the example has no table ${id}`);
  const taken = takeIn(before, { ...layout, holds: layout.holds }, csv);
  const after = filesAfter(before, taken.changes).get('a.lotplan.yaml') ?? '';
  const now = readPlan([{ path: 'a.lotplan.yaml', text: after }]);
  expect(now.problems).toEqual([]);
  return { taken, after, now };
}

/** Every line of the plan stands afterwards, in its order, with its comment. */
function expectKept(after: string, text = PLAN): void {
  let from = 0;
  const lines = after.split('\n');
  for (const line of text.split('\n').filter((one) => one.trim() !== '')) {
    const at = lines.findIndex((one, index) => index >= from && one.startsWith(line));
    expect(at, line).toBeGreaterThanOrEqual(from);
    from = at + 1;
  }
}

describe('progress taken in', () => {
  it('goes into the entry of the fill, by its room and by the words of the file', () => {
    const { now, after, taken } = take(
      'log',
      'Room,What,Date\nR1,last-bin,2026-09-08\nR1,door shut,2026-09-10\nR1-gala,first-bin,2026-09-03\n',
    );
    expect(taken.faults).toEqual([]);
    expect(taken.alreadyThere).toBe(1);
    const progress = now.progress.get('R1-gala');
    expect(
      [progress?.firstBin, progress?.lastBin, progress?.sealed].map((day) => day && formatDay(day.value)),
    ).toEqual(['2026-09-03', '2026-09-08', '2026-09-10']);
    expectKept(after);
  });

  it('has the bins of each lot that went in', () => {
    const { now } = take(
      'loads',
      'Fill,Lot,Bins,Last\nR1-gala,L1,138,2026-09-08\nR1-gala,L2,90,2026-09-08\n',
    );
    expect(now.progress.get('R1-gala')?.lots.map(({ lot, bins }) => [lot.value, bins.value])).toEqual([
      ['L1', 138],
      ['L2', 90],
    ]);
  });

  it('never changes what is recorded, and tells rows that contradict each other', () => {
    const { taken, now } = take(
      'log',
      'Room,What,Date\nR1,last-bin,2026-09-08\nR1,sealed,2026-09-10\nR1,first-bin,2026-09-04\n',
    );
    const progress = now.progress.get('R1-gala');
    expect(progress?.firstBin && formatDay(progress.firstBin.value)).toBe('2026-09-03');
    expect(taken.changes.map(({ key, lines }) => [key, lines])).toEqual([
      ['last-bin', [2]],
      ['sealed', [3]],
    ]);
    expect(taken.faults).toEqual([
      {
        line: 4,
        reason:
          'The plan has `first-bin: 2026-09-03` for progress of R1-gala, and the file 2026-09-04. What is recorded is never changed from a file: correct it in the plan, if the file is right.',
      },
    ]);
    const twice = take(
      'log',
      'Room,What,Date\nR1,sealed,2026-09-10\nR1,cool,2026-09-09\nR1,sealed,2026-09-11\n',
    ).taken;
    expect(twice.faults).toEqual([
      {
        line: 2,
        reason: '`sealed` of R1-gala is 2026-09-10 here and 2026-09-11 in line 4: neither row is taken.',
      },
      {
        line: 4,
        reason: '`sealed` of R1-gala is 2026-09-11 here and 2026-09-10 in line 2: neither row is taken.',
      },
    ]);
    expect(twice.changes.map(({ key }) => key)).toEqual(['cool']);
  });

  it('does not take a day that cannot follow on what is recorded, or on another row', () => {
    const sealed = PLAN.replace('# at noon', '# at noon\n    sealed: 2026-09-19');
    const early = take('log', 'Room,What,Date\nR1,last-bin,2026-09-08\nR1,opened,2026-09-10\n', sealed);
    expect(early.taken.changes.map(({ key }) => key)).toEqual(['last-bin']);
    expect(early.taken.faults).toEqual([
      {
        line: 3,
        reason:
          'R1-gala would be opened on 2026-09-10, 9 days before sealed on 2026-09-19 (in the plan). One of the two days is wrong, so the row is not taken: correct it in the file, or in the plan.',
      },
    ]);
    const both = take(
      'log',
      'Room,What,Date\nR1,sealed,2026-09-19\nR1,opened,2026-09-10\nR1,cool,2026-09-04\n',
    );
    expect(both.taken.faults.map(({ line }) => line)).toEqual([2, 3]);
    expect(both.taken.faults[1]?.reason).toContain('9 days before sealed on 2026-09-19 (line 2)');
    expect(both.taken.changes.map(({ key }) => key)).toEqual(['cool']);
  });

  it('takes no opening before the day the plan has for sealing, unless the sealing is recorded', () => {
    const planned = PLAN.replace('last-bin: 2026-09-08,', 'last-bin: 2026-09-08, sealed: 2026-09-19,');
    const csv = 'Room,What,Date\nR1,opened,2026-09-12\n';
    const unsealed = take('log', csv, planned);
    expect(unsealed.after).toBe(planned);
    expect(unsealed.taken.faults[0]?.reason).toContain('7 days before the plan has it sealed (2026-09-19)');
    const sealed = take('log', `${csv}R1,sealed,2026-09-10\n`, planned).taken;
    expect([sealed.faults, sealed.changes.length]).toEqual([[], 2]);
  });

  it('does not take an opening after bins were packed, nor bins packed before the opening', () => {
    const packed = `${PLAN}packed:\n  P1: { lot: L1, fill: R1-gala, day: 2026-11-18, bins: 4, cartons: { first: 40 } }\n`;
    const late = take('log', 'Room,What,Date\nR1,opened,2026-11-20\n', packed).taken;
    expect(late.changes).toEqual([]);
    expect(late.faults[0]?.reason).toContain('2 days after bins of it are recorded as packed (2026-11-18)');
    const opened = PLAN.replace('# at noon', '# at noon\n    opened: 2026-11-20');
    const early = take('line', 'Lot,Room,Date,Bins,I,II\nL1,R1,2026-11-18,4,40,\n', opened).taken;
    expect(early.changes).toEqual([]);
    expect(early.faults[0]?.reason).toContain('2 days before it is recorded as opened (2026-11-20)');
  });

  it('tells a fill, a room and a step that there are not', () => {
    const { taken } = take('log', 'Room,What,Date\nR1-gela,sealed,2026-09-10\nR1,seald,2026-09-10\n');
    expect(taken.faults.map(({ reason }) => reason)).toEqual([
      'The plan has no fill `R1-gela`, nor a room of that name. Is `R1-gala` meant? Names that differ are put side by side under `names`.',
      '`seald` is no step of a fill. Is `sealed` meant? Names that differ are put side by side under `names`.',
    ]);
  });
});

describe('samples taken in', () => {
  it('make a section of their own, each an entry with what was measured, in the unit of the file', () => {
    const { now, after, taken } = take(
      'laboratory',
      'Lot,Room,Date,n,lbf,Scald\nL1,R1,2027-01-12,20,15.2,2\nL2,,2027-01-12,20,14.9,\n',
    );
    expect(taken.faults).toEqual([]);
    expect(after).toBe(
      `${PLAN}\nsamples:\n  L1-2027-01-12: { lot: L1, fill: R1-gala, taken: 2027-01-12, fruit: 20, firmness: 15.2 lbf, disorders: { scald: 2 % } }\n  L2-2027-01-12: { lot: L2, taken: 2027-01-12, fruit: 20, firmness: 14.9 lbf }\n`,
    );
    // 15.2 lbf x 4.448222 N/lbf = 67.6 N
    expect(now.samples.get('L1-2027-01-12')?.firmness?.value).toBeCloseTo(67.61, 2);
  });

  it('are told apart by their own numbers', () => {
    const { now } = take('numbered', 'No,Lot,Date,N\nA7,L1,2027-01-12,66\nA8,L1,2027-01-12,64\n');
    expect([...now.samples.keys()]).toEqual(['A7', 'A8']);
    const same = take(
      'laboratory',
      'Lot,Room,Date,n,lbf,Scald\nL1,R1,2027-01-12,20,15,\nL1,R1,2027-01-12,20,14,\n',
    );
    expect(same.taken.changes).toEqual([]);
    expect(same.taken.faults[0]?.reason).toContain(
      '`firmness` of L1-2027-01-12 is 15 lbf here and 14 lbf in line 3',
    );
    expect(same.taken.faults.map(({ line }) => line)).toEqual([2, 3]);
  });

  it('add to a sample what it lacks, and refuse what the plan would not accept', () => {
    const first = take('laboratory', 'Lot,Room,Date,n,lbf,Scald\nL1,R1,2027-01-12,20,15.2,\n');
    const more = take('laboratory', 'Lot,Room,Date,n,lbf,Scald\nL1,R1,2027-01-12,20,15.20,2\n', first.after);
    expect(more.taken.faults).toEqual([]);
    expect(more.now.samples.get('L1-2027-01-12')?.disorders.get('scald')?.value).toBe(2);
    const wrong = take('laboratory', 'Lot,Room,Date,n,lbf,Scald\nL1,R1,2027-01-12,20,15.2,200\n');
    expect(wrong.taken.changes).toEqual([]);
    expect(wrong.taken.faults[0]).toMatchObject({ line: 2 });
    expect(wrong.taken.faults[0]?.reason).toContain('Nothing of sample L1-2027-01-12 is taken');
  });
});

describe('packed runs taken in', () => {
  it('add up the rows of a day, a column a class', () => {
    const { now } = take(
      'line',
      'Lot,Room,Date,Bins,I,II\nL1,R1,2027-02-17,40,430,110\nL1,R1,2027-02-17,44,480,140\nL1,,2027-02-17,5,50,\n',
    );
    const run = now.packed.get('L1-2027-02-17');
    expect([run?.bins?.value, run?.cartons.get('first')?.value, run?.cartons.get('second')?.value]).toEqual([
      84, 910, 250,
    ]);
    expect(now.packed.get('L1-2027-02-17-2')?.fill).toBeUndefined();
  });

  it('put the rows of the classes together', () => {
    const head = 'Lot,Room,Date,Bins,Class,Cartons\n';
    const { now, taken } = take(
      'grader',
      `${head}L1,R1,2027-02-17,84,first,910\nL1,R1,2027-02-17,84,second,250\nL1,R1,2027-02-18,84,firs,1\n`,
    );
    const run = now.packed.get('L1-2027-02-17');
    expect([run?.bins?.value, run?.cartons.size]).toEqual([84, 2]);
    expect(taken.faults.map(({ reason }) => reason)).toEqual([
      'The plan has no class `firs`. Is `first` meant? Names that differ are put side by side under `names`.',
    ]);
  });
});

describe('sales taken in', () => {
  it('add up the invoices of a week at their mean price', () => {
    const { now, taken } = take(
      'invoices',
      'To,Variety,Class,Date,Cartons,Price\nhome,Gala,first,2027-02-22,300,21\nhome,Gala,first,2027-02-26,100,23\nexport,Gala,first,2027-02-26,50,\nhom,Gala,first,2027-02-26,50,\n',
    );
    const sale = now.sales.get('home-Gala-first-2027-W08');
    expect(sale?.week && formatWeek(sale.week.value)).toBe('2027-W08');
    // (300 x 21 + 100 x 23) / 400 = 21.5
    expect([sale?.cartons?.value, sale?.price?.value]).toEqual([400, 21.5]);
    expect(now.sales.size).toBe(2);
    expect(taken.faults.map(({ line }) => line)).toEqual([5]);
  });

  it('are not changed by a file that says something else', () => {
    const head = 'To,Variety,Class,Date,Cartons,Price\n';
    const first = take('invoices', `${head}home,Gala,first,2027-W08,300,21\n`);
    const other = take('invoices', `${head}home,Gala,first,2027-W08,320,21\n`, first.after);
    expect(other.after).toBe(first.after);
    expect(other.taken.faults[0]?.reason).toContain('`cartons: 300`');
    const summed = take(
      'invoices',
      `${head}home,Gala,first,2027-W08,300,21\nhome,Gala,second,2027-W08,9,\nhome,Gala,first,2027-W08,20,21\n`,
      first.after,
    );
    expect(summed.taken.faults.map(({ line }) => line)).toEqual([2, 4]);
    expect(summed.taken.faults[1]?.reason).toBe('Not taken, as it goes with line 2: see there.');
    expect(summed.now.sales.get('home-Gala-second-2027-W08')?.cartons?.value).toBe(9);
  });
});

const rows = {
  log: fc.tuple(
    fc.constantFrom('R1', 'R1-gala', 'R2'),
    fc.constantFrom('first-bin', 'door shut', 'opened', 'x'),
    fc.constantFrom('2026-09-03', '2026-09-12', '2027-01-03', '31.1.'),
  ),
  laboratory: fc.tuple(
    fc.constantFrom('L1', 'L2', 'L3'),
    fc.constantFrom('R1', ''),
    fc.constantFrom('2027-01-12', '2027-02-12'),
    fc.constantFrom('20', '', 'ü'),
    fc.constantFrom('15', '14.5', ''),
    fc.constantFrom('', '2', '140'),
  ),
  line: fc.tuple(
    fc.constantFrom('L1', 'L2'),
    fc.constantFrom('R1', ''),
    fc.constantFrom('2027-01-12', '2027-02-12'),
    fc.constantFrom('20', '0', '7'),
    fc.constantFrom('200', ''),
    fc.constantFrom('50', ''),
  ),
  invoices: fc.tuple(
    fc.constantFrom('home', 'export'),
    fc.constantFrom('Gala', 'Fuji'),
    fc.constantFrom('first', 'second'),
    fc.constantFrom('2027-W08', '2027-03-02'),
    fc.constantFrom('20', '1,5', '700'),
    fc.constantFrom('20', '', '19.99'),
  ),
} as const;

const HEADS = {
  log: 'Room,What,Date',
  laboratory: 'Lot,Room,Date,n,lbf,Scald',
  line: 'Lot,Room,Date,Bins,I,II',
  invoices: 'To,Variety,Class,Date,Cartons,Price',
} as const;

describe.each(Object.keys(rows) as (keyof typeof rows)[])('whatever the file of %s', (id) => {
  it('the plan reads on with every line it had, and the same file again changes nothing', () => {
    fc.assert(
      fc.property(
        fc.array(rows[id] as fc.Arbitrary<readonly string[]>, { minLength: 1, maxLength: 8 }),
        (cells) => {
          const csv = [HEADS[id], ...cells.map((row) => row.join(','))].join('\n');
          const first = take(id, csv);
          expectKept(first.after);
          const said = [
            ...first.taken.changes.flatMap(({ lines }) => lines),
            ...first.taken.faults.map(({ line }) => line),
          ];
          const lines = cells.map((_, index) => index + 2).filter((line) => !said.includes(line));
          // A row of neither says only what the plan has already.
          if (lines.length > 0) expect(first.taken.alreadyThere).toBeGreaterThan(0);
          const again = take(id, csv, first.after);
          expect(again.after).toBe(first.after);
          expect(again.taken.changes).toEqual([]);
        },
      ),
      { numRuns: 40 },
    );
  });
});
