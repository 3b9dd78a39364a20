import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import { completionAt } from '../../src/server/services/completion';
import type { CompletionItem } from '../../src/server/services/completion-types';
import { atCaret } from './cursor';
import { computed, samplePlan } from './plans';

const rest = samplePlan('first-season');

/** What is offered in a further file of the first season. */
function offered(marked: string): CompletionItem[] {
  const { text, offset } = atCaret(marked);
  const file = 'more.lotplan.yaml';
  return completionAt(readPlan([...rest, { path: file, text }]), { file, offset });
}
const labels = (marked: string) => offered(marked).map(({ label }) => label);

/** The text after the first proposal with that label has been taken. */
function taking(marked: string, label: string): string {
  const { text } = atCaret(marked);
  const item = offered(marked).find((entry) => entry.label === label);
  if (!item) throw new Error(`${label} is not offered`);
  return text.slice(0, item.at.start) + item.newText + text.slice(item.at.end);
}

describe('completion of keys', () => {
  it('offers the sections at the beginning of a line', () => {
    expect(labels('‸')).toEqual(
      expect.arrayContaining(['season', 'rooms', 'plant', 'lots', 'fills', 'demand', 'packing', 'policy']),
    );
  });

  it('offers the keys of the entry that are not written yet, the required ones first', () => {
    const keys = labels('fills:\n  F1:\n    room: R1\n    ‸');
    expect(keys).not.toContain('room');
    expect(keys.slice(0, 4)).toEqual(['regime', 'first-bin', 'last-bin', 'lots']);
    expect(keys).toContain('open');
  });

  it('replaces the half-written key', () => {
    expect(taking('fills:\n  F1:\n    reg‸', 'regime')).toBe('fills:\n  F1:\n    regime: ');
    expect(taking('rooms:\n  R9:\n    inside: { length: 4 m, wi‸ }', 'width')).toBe(
      'rooms:\n  R9:\n    inside: { length: 4 m, width:  }',
    );
  });

  it('leaves the colon alone on a key that has one', () => {
    expect(taking('fills:\n  F1:\n    reg‸ime: x', 'regime')).toBe('fills:\n  F1:\n    regime: x');
  });

  it("offers the plan's lots as keys of a fill's lots, and rules as keys of the policy's findings", () => {
    const lots = labels('fills:\n  F1:\n    lots: { G1: 4, ‸ }');
    expect(lots).toContain('G2');
    expect(lots).not.toContain('G1');
    expect(labels('policy:\n  findings: { ‸ }')).toContain('lime-dust');
  });
});

describe('completion in the records', () => {
  it('offers the fills under progress, and what can happen to one', () => {
    expect(labels('progress:\n  ‸').slice(0, 4)).toEqual(['R1-gala', 'R2-gala', 'R3-golden', 'R4-braeburn']);
    expect(labels('progress:\n  R1-gala: { sealed: 2026-09-10 }\n  ‸')).not.toContain('R1-gala');
    expect(labels('progress:\n  R2-gala:\n    ‸')).toEqual([
      'first-bin',
      'last-bin',
      'lots',
      'cool',
      'sealed',
      'low-oxygen',
      'set-point',
      'opened',
      'emptied',
    ]);
  });

  it('offers the lots planned for a fill first, with their bins', () => {
    expect(labels('progress:\n  R2-gala: { lots: { G4: 78, ‸ } }').slice(0, 3)).toEqual(['G5', 'G6', 'G1']);
    expect(taking('progress:\n  R2-gala: { lots: { ‸ } }', 'G5')).toBe(
      'progress:\n  R2-gala: { lots: { G5: 81 } }',
    );
  });

  it('offers lots, fills, classes, markets and the fields of a table', () => {
    expect(labels('samples:\n  T1: { lot: ‸ }')).toContain('G4');
    expect(labels('samples:\n  T1: { lot: G4, fill: ‸ }')).toContain('R2-gala');
    expect(labels('samples:\n  T1: { disorders: { ‸ } }')).toContain('rot');
    expect(labels('packed:\n  P1: { cartons: { ‸ } }')).toEqual(['first', 'second']);
    expect(labels('sales:\n  V1: { market: ‸ }')).toEqual(['home', 'schools', 'wholesale']);
    expect(labels('sales:\n  V1: { class: ‸ }')).toEqual(['first', 'second']);
    expect(labels('tables:\n  lab:\n    holds: samples\n    columns: { lot: Lot, ‸ }').slice(0, 3)).toEqual([
      'sample',
      'fill',
      'taken',
    ]);
  });

  it('writes the whole progress of a fill that has none, with what was planned for it', () => {
    const offers = offered('progress:\n  R1-gala: { opened: 2026-09-21 }\n  ‸').filter(({ label }) =>
      label.startsWith('progress of '),
    );
    expect(offers.map(({ label }) => label)).toEqual([
      'progress of R2-gala',
      'progress of R3-golden',
      'progress of R4-braeburn',
    ]);
    expect(`  ${offers[0]?.newText}`).toBe(
      `  R2-gala:
    first-bin: 2026-09-08
    last-bin: 2026-09-16
    lots: { G4: 78, G5: 81, G6: 76 }
    sealed: 2026-09-18`,
    );
    expect(offers[0]?.snippet).toMatch(/last-bin: \$\{3:2026-09-16\}/);
    expect(offers[0]?.documentation).toContain('counts as having happened');
    expect(labels('progress:\n  R2-gala: { ‸ }').some((label) => label.startsWith('progress of'))).toBe(
      false,
    );
  });

  it('writes whole records of what is due: lots untested longest, bins left, weeks without a sale', () => {
    const march = samplePlan('in-march');
    const due = (section: string, kind: string) => {
      const { text, offset } = atCaret(`${section}:\n  ‸`);
      const file = 'more.lotplan.yaml';
      const found = completionAt(readPlan([...march, { path: file, text }]), { file, offset });
      return found.filter(({ label }) => label.startsWith(kind));
    };
    const samples = due('samples', 'sample of');
    // Every other room stood open or was empty by March.
    expect(samples).toEqual([]);
    expect(due('packed', 'packed run of').map(({ label, detail }) => `${label}: ${detail}`)).toEqual([
      'packed run of B2 from R4-braeburn: 48 bins not packed yet',
      'packed run of B3 from R4-braeburn: 92 bins not packed yet',
    ]);
    expect(due('packed', 'packed run of')[0]?.newText).toBe(
      'P11: { lot: B2, fill: R4-braeburn, day: 2027-03-07, bins: 48, cartons: { first: 0, second: 0 } }',
    );
    const sales = due('sales', 'sale to');
    expect(sales.map(({ label }) => label)).toEqual([
      'sale to home: Braeburn first in 2027-W10',
      'sale to wholesale: Braeburn second in 2027-W10',
    ]);
    const whole = sales[0]?.newText ?? '';
    expect(whole).toBe(
      'V50: { market: home, variety: Braeburn, class: first, week: 2027-W10, cartons: 390, price: 23 }',
    );
    expect(readPlan([...march, { path: 'a.lotplan.yaml', text: `sales:\n  ${whole}\n` }]).problems).toEqual(
      [],
    );
  });

  it('offers the lots of closed rooms for samples, the longest untested first', () => {
    const { text, offset } = atCaret(
      'progress:\n  R2-gala: { sealed: 2026-09-18 }\nsamples:\n  T1: { lot: G4, fill: R2-gala, taken: 2026-11-03, firmness: 77 N }\n  ‸',
    );
    const file = 'more.lotplan.yaml';
    const found = completionAt(readPlan([...rest, { path: file, text }]), { file, offset });
    const samples = found.filter(({ label }) => label.startsWith('sample of'));
    expect(samples.map(({ label, detail }) => `${label}: ${detail}`)).toEqual([
      'sample of G5 in R2-gala: none taken yet',
      'sample of G6 in R2-gala: none taken yet',
      'sample of G4 in R2-gala: last taken 2026-11-03',
    ]);
    expect(samples[0]?.newText).toBe(
      'T02: { lot: G5, fill: R2-gala, taken: 2026-11-03, fruit: 20, firmness: 66 N }',
    );
  });

  it.each(['samples', 'packed', 'sales'])(
    'writes a whole new entry of %s that reads without a problem',
    (section) => {
      const [whole] = offered(`${section}:\n  ‸`).filter(({ label }) => label.startsWith('new '));
      const text = `lotwright: 1\n${section}:\n  ${whole?.newText}\n`;
      expect(whole?.snippet).toContain('${1:');
      expect(readPlan([{ path: 'a.lotplan.yaml', text }]).problems).toEqual([]);
    },
  );
});

describe('completion of values', () => {
  it('offers the names of entries of the whole plan, rooms with what fills them', () => {
    expect(labels('fills:\n  F1:\n    room: ‸')).toEqual(['R1', 'R2', 'R3', 'R4']);
    const [first] = offered('fills:\n  F1:\n    room: ‸');
    expect(first?.detail).toBe('in fill R1-gala');
    expect(labels('rooms:\n  R9: { scrubber: ‸ }')).toEqual(['S1', 'lime-box']);
  });

  it('offers built-in varieties and regimes too', () => {
    expect(labels('lots:\n  X1: { variety: ‸ }')).toEqual(expect.arrayContaining(['Gala', 'Braeburn']));
    expect(labels('fills:\n  F1:\n    regime: ‸')).toEqual(
      expect.arrayContaining(['gala-own', 'gala-standard']),
    );
  });

  it('offers the words a key allows', () => {
    expect(labels('plant:\n  scrubbers:\n    S9: { kind: ‸ }')).toEqual(['carbon', 'lime', 'membrane']);
    expect(labels('lots:\n  X1: { treatments: [‸] }')).toContain('1-mcp');
    expect(labels('policy:\n  findings: { lime-dust: ‸ }')).toEqual(['error', 'warning', 'notice', 'off']);
  });

  it('offers units after a number', () => {
    expect(labels('rooms:\n  R9: { inside: { length: 12‸ } }')).toEqual(
      expect.arrayContaining(['12 m', '12 ft']),
    );
    expect(taking('season:\n  carton: 18‸\n', '18 kg')).toBe('season:\n  carton: 18 kg\n');
  });

  it('offers an example where a date or a week stands', () => {
    expect(labels('fills:\n  F1:\n    open: ‸')).toEqual(['2027-W09']);
  });

  it('offers rooms that nothing fills before those that are taken', () => {
    const more = 'rooms:\n  R9: {}\nfills:\n  F1:\n    room: ‸';
    expect(offered(more)[0]).toMatchObject({ label: 'R9', detail: 'no fill uses it yet' });
  });

  it("offers rooms with their places, those that can hold the fill's bins first", () => {
    const more =
      'bins:\n  b: { outside: { length: 1.2 m, width: 1 m, height: 0.78 m }, holds: 300 kg, empty: 38 kg, material: plastic }\nrooms:\n  Z1: { places: 40 }\n  Z2: { places: 500 }\nlots:\n  N1: { variety: Gala, bins: 100 }\nfills:\n  F1:\n    lots: { N1: 100 }\n    room: ‸';
    const file = 'more.lotplan.yaml';
    const offset = more.indexOf('‸');
    const { season } = computed([...rest, { path: file, text: more.replace('‸', '') }]);
    const found = completionAt(season.plan, { file, offset }, season);
    expect(found.slice(0, 2).map(({ label, detail }) => [label, detail])).toEqual([
      ['Z2', '500 places, no fill uses it yet'],
      ['Z1', "40 places, 60 too few for the fill's bins"],
    ]);
    expect(found[2]?.detail).toMatch(/^[\d,]+ places, in fill R\d-/);
  });

  it('writes whole fills for lots that no fill takes, into rooms that no fill uses', () => {
    const more =
      'rooms:\n  Z1: { places: 40 }\n  Z2: { places: 120 }\nlots:\n  N1: { variety: Gala, picked: 2026-09-12, bins: 70 }\n  N2: { variety: Gala, picked: 2026-09-09..2026-09-10, bins: 30 }\n  N3: { variety: Fuji, picked: 2026-10-20, bins: 60 }\nfills:\n  ‸';
    const fills = offered(more).filter(({ label }) => /^Z\d-/.test(label));
    expect(fills.map(({ label, detail }) => [label, detail])).toEqual([
      ['Z2-gala', 'Gala: 100 of 100 bins in no fill; 120 places'],
      ['Z2-fuji', 'Fuji: 60 of 60 bins in no fill; 120 places'],
    ]);
    const written = taking(more, 'Z2-gala');
    expect(written).toContain(
      'Z2-gala:\n    room: Z2\n    regime: early-air\n    first-bin: 2026-09-09\n    last-bin: 2026-09-12\n    lots: { N2: 30, N1: 70 }',
    );
    const { problems } = readPlan([...rest, { path: 'more.lotplan.yaml', text: `${written}\n` }]);
    // The rooms of this text lack what has nothing to do with it.
    expect(problems.filter(({ about }) => !about?.startsWith('rooms/'))).toEqual([]);
    // No room is free in the sample itself, so nothing is offered but the example.
    expect(labels('fills:\n  ‸')).toEqual(['new fill']);
  });

  it('offers lots with the bins that are left of them', () => {
    const more =
      'lots:\n  N1: { variety: Gala, bins: 40 }\nfills:\n  F1:\n    lots: { N1: 15 }\n  F2:\n    lots: { ‸ }';
    expect(offered(more)[0]).toMatchObject({ label: 'N1', detail: 'Gala, 25 bins left', newText: 'N1: 25' });
    expect(labels(more.replace('{ ‸ }', '{ N1: ‸ }'))).toEqual(['25']);
  });

  it("offers the weeks of a fill's window with their meaning and the caution", () => {
    const { season } = computed(rest);
    const file = 'fruit.lotplan.yaml';
    const text = rest.find(({ path }) => path === file)?.text ?? '';
    const offset = text.indexOf('open: ', text.indexOf('  R2-gala:')) + 'open: '.length;
    const weeks = completionAt(season.plan, { file, offset }, season);
    expect(weeks[0]).toMatchObject({ label: '2027-W01', detail: "the schedule's week" });
    expect(weeks.map(({ detail }) => detail)).toContain('latest of the window');
    expect(weeks[0]?.documentation).toMatch(/Sealed rooms kill/);
  });

  it('offers pack classes, markets and growers as the plan has them', () => {
    expect(labels('demand:\n  d: { class: ‸ }')).toEqual(['first', 'second']);
    expect(labels('lots:\n  X: { grower: ‸ }')).toEqual(['Hollow Farm', 'Larkfield', 'Weir Orchard']);
  });

  it('writes a whole new entry that reads without a problem of its own', () => {
    for (const section of ['rooms', 'bins', 'lots', 'demand']) {
      const label = offered(`${section}:\n  ‸`).find(({ label }) => label.startsWith('new '))?.label ?? '';
      const written = taking(`lotwright: 1\n${section}:\n  ‸`, label);
      const { problems } = readPlan([{ path: 'a', text: `${written}\n` }]);
      expect(problems, written).toEqual([]);
    }
  });

  it('has the name and every value of a new entry as a place to fill, with the example in it', () => {
    for (const section of ['rooms', 'bins', 'lots', 'fills', 'demand', 'regimes', 'expect', 'scenarios']) {
      const [item] = offered(`${section}:\n  ‸`).filter(({ label }) => label.startsWith('new '));
      const snippet = item?.snippet ?? '';
      // Taken as it is, it is the same text.
      expect(snippet.replace(/\$\{\d+:([^}]*)\}/g, '$1')).toBe(item?.newText);
      const places = [...snippet.matchAll(/\$\{(\d+):/g)].map(([, number]) => Number(number));
      expect(places).toEqual(places.map((_, index) => index + 1));
    }
    const [room] = offered('rooms:\n  ‸').filter(({ label }) => label === 'new room');
    expect(room?.snippet).toMatch(/^\$\{1:R0\}:\n {4}inside: \{ length: \$\{2:[\d.]+ m\}, width: \$\{3:/);
  });

  it('offers nothing in a comment or under a key the language does not have', () => {
    expect(labels('fills: # the roo‸ms')).toEqual([]);
    expect(labels('nonsense:\n  ‸')).toEqual([]);
  });
});
