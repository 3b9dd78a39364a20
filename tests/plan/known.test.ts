import { describe, expect, it } from 'vitest';
import { formatDay, formatWeek, parseDay } from '../../src/plan/dates';
import { asOf, lastRecordedDay, withRecords } from '../../src/plan/known';
import { readPlan } from '../../src/plan/read';

const PLANNED = `lotwright: 1
lots:
  L1: { variety: Gala, picked: 2026-09-01..2026-09-05, bins: 200, received-by-day: { 2026-09-02: 90, 2026-09-04: 70 } }
  L2: { variety: Gala, picked: 2026-09-03..2026-09-09, bins: 100, received: 96 }
fills:
  F1:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-02
    last-bin: 2026-09-06
    sealed: 2026-09-08
    lots: { L1: 200, L2: 40 }
    open: 2027-W10
  F2:
    room: R2
    regime: gala-standard
    first-bin: 2026-09-03
    last-bin: 2026-09-09
    sealed: 2026-09-10
    lots: { L2: 60 }
progress:
  F1:
    first-bin: 2026-09-02
    last-bin: 2026-09-07
    lots: { L1: 160, L2: 36 }
    sealed: 2026-09-09
    opened: 2027-02-22
  F2: { first-bin: 2026-09-03 }
samples:
  S1: { lot: L1, fill: F1, taken: 2027-01-15, firmness: 66 N }
`;

const written = readPlan([{ path: 'a.lotplan.yaml', text: PLANNED }]);
const day = (text: string) => parseDay(text) as number;
const shown = (given: { value: number } | undefined) => given && formatDay(given.value);

describe('what has happened counts instead of what was planned', () => {
  const plan = withRecords(written);

  it('a room has the days and bins that its progress says, its opening the week of the day its seal was broken', () => {
    const fill = plan.fills.get('F1');
    expect([shown(fill?.firstBin), shown(fill?.lastBin), shown(fill?.sealed)]).toEqual([
      '2026-09-02',
      '2026-09-07',
      '2026-09-09',
    ]);
    expect(fill?.lots.map(({ lot, bins }) => [lot.value, bins.value])).toEqual([
      ['L1', 160],
      ['L2', 36],
    ]);
    expect(fill?.open && formatWeek(fill.open.value)).toBe('2027-W08');
    expect(shown(fill?.planned?.sealed)).toBe('2026-09-08');
  });

  it('a lot counts what came in once its picking is over, though less came than was expected', () => {
    expect(written.lots.get('L1')?.receivedBins).toBeUndefined();
    expect(plan.lots.get('L1')?.receivedBins?.value).toBe(160);
  });

  it('fills that are not full yet take no more of a lot than came in, those that begin last the fewer', () => {
    const text = PLANNED.replace('lots: { L2: 60 }', 'lots: { L2: 60, L1: 30 }')
      .replace('lots: { L1: 160, L2: 36 }\n', '')
      .replace('received: 96', 'received: 80');
    const fewer = withRecords(readPlan([{ path: 'a.lotplan.yaml', text }]));
    const bins = (fill: string) =>
      fewer.fills.get(fill)?.lots.map((one) => [one.lot.value, one.bins.value, one.bins.origin.kind]);
    // Of 230 bins of L1 that were planned 160 came in, of 100 of L2 80. F2 begins last.
    expect(bins('F2')).toEqual([['L2', 40, 'computed']]);
    expect(bins('F1')).toEqual([
      ['L1', 160, 'plan'],
      ['L2', 40, 'plan'],
    ]);
    expect(fewer.fills.get('F2')?.planned?.lots.map((one) => one.bins.value)).toEqual([60, 30]);
    expect(withRecords(fewer).fills.get('F2')?.lots).toEqual(fewer.fills.get('F2')?.lots);
    // The last time's fill again, and another once more is in.
    const plan2 = readPlan([{ path: 'a.lotplan.yaml', text }]);
    const last = { written: plan2, known: withRecords(plan2) };
    expect(withRecords({ ...plan2 }, last).fills.get('F2')).toBe(last.known.fills.get('F2'));
    const more = readPlan([{ path: 'a.lotplan.yaml', text: text.replace('received: 80', 'received: 95') }]);
    const merged = { ...plan2, lots: more.lots };
    expect(
      withRecords(merged, last)
        .fills.get('F2')
        ?.lots.map((one) => one.bins.value),
    ).toEqual([55]);
  });

  it('what is done to a plan twice is what is done once', () => {
    expect(withRecords(plan).fills.get('F1')).toEqual(plan.fills.get('F1'));
  });

  it('a plan without records is the very same', () => {
    const bare = readPlan([{ path: 'a.lotplan.yaml', text: 'lotwright: 1\n' }]);
    expect(withRecords(bare)).toBe(bare);
  });

  it('entries that have not changed stay the same objects from one time to the next', () => {
    const again = withRecords({ ...written }, { written, known: plan });
    expect(again.fills.get('F1')).toBe(plan.fills.get('F1'));
    expect(again.lots.get('L1')).toBe(plan.lots.get('L1'));
  });
});

describe('a plan as it was known on a day', () => {
  it('holds nothing that was recorded later', () => {
    const plan = withRecords(asOf(written, day('2026-09-08')));
    const fill = plan.fills.get('F1');
    expect([shown(fill?.lastBin), shown(fill?.opened), plan.samples.size]).toEqual([
      '2026-09-07',
      undefined,
      0,
    ]);
    expect(fill?.open && formatWeek(fill.open.value)).toBe('2027-W10');
  });

  it('counts what is late as done on that day', () => {
    const plan = withRecords(asOf(written, day('2026-09-20')));
    // F2 has begun, and nobody has said that its last bin is in or its door sealed.
    expect([shown(plan.fills.get('F2')?.lastBin), shown(plan.fills.get('F2')?.sealed)]).toEqual([
      '2026-09-20',
      '2026-09-20',
    ]);
  });

  it('takes the estimate of a lot that is still being picked', () => {
    const plan = withRecords(asOf(written, day('2026-09-03')));
    expect(plan.lots.get('L1')?.receivedBins).toBeUndefined();
    expect([...(plan.lots.get('L1')?.receivedByDay?.values() ?? [])]).toEqual([90]);
    expect(plan.lots.get('L2')?.receivedBins).toBeUndefined();
  });

  it('is what a plan says from which the later records are deleted', () => {
    const lines = PLANNED.split('\n');
    const until = (last: string) =>
      lines
        .filter(
          (line) =>
            !/^ {4}(first-bin|last-bin|sealed|opened):/.test(line) ||
            isPlanned(line, lines) ||
            (/\d{4}-\d{2}-\d{2}/.exec(line)?.[0] ?? '') <= last,
        )
        .filter((line) => !/^ {2}S1/.test(line) || '2027-01-15' <= last)
        .filter((line) => !/^samples:/.test(line) || '2027-01-15' <= last)
        .join('\n');
    for (const last of ['2026-09-10', '2026-12-01', '2027-01-15', '2027-02-21', '2027-03-01']) {
      const deleted = readPlan([{ path: 'a.lotplan.yaml', text: until(last) }]);
      const [one, other] = [asOf(written, day(last)), asOf(deleted, day(last))].map((plan) =>
        withRecords(plan),
      );
      for (const id of ['F1', 'F2']) expect(summary(one, id)).toEqual(summary(other, id));
    }
  });
});

function summary(plan: ReturnType<typeof withRecords> | undefined, id: string) {
  const fill = plan?.fills.get(id);
  return [
    shown(fill?.firstBin),
    shown(fill?.lastBin),
    shown(fill?.sealed),
    fill?.open?.value,
    fill?.lots.map(({ bins }) => bins.value),
    lastRecordedDay(plan ?? written),
  ];
}

/** Whether a line stands above the records. */
function isPlanned(line: string, lines: readonly string[]): boolean {
  return lines.indexOf(line) < lines.indexOf('progress:');
}
