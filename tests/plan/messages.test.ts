import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';

const ROOM = 'inside: { length: 9 m, width: 8 m, height: 7 m }, bin-type: b';
const LOT = 'variety: Gala, picked: 2026-09-03, bins: 10';
const DEMAND = 'market: m, variety: Gala, class: first, cartons: 5, price: 2';

/** What is wrong, the text it is said of, a word of what is said, and what the first fix makes of the line. */
interface Mistake {
  readonly text: string;
  readonly code: string;
  readonly at: string;
  readonly says: RegExp;
  readonly fixed?: string;
}

const room = (line: string) => `rooms:\n  R1: { ${ROOM}, ${line} }\n`;
const lot = (line: string) => `lots:\n  L1: { ${LOT}, ${line} }\n`;
const demand = (line: string) => `demand:\n  D1: { ${DEMAND}, ${line} }\n`;

const MISTAKES: readonly Mistake[] = [
  {
    text: room('scruber: S1'),
    code: 'unknown-key',
    at: 'scruber',
    says: /Is `scrubber` meant/,
    fixed: room('scrubber: S1'),
  },
  {
    text: room('lostPlaces: 3'),
    code: 'unknown-key',
    at: 'lostPlaces',
    says: /Is `lost-places` meant/,
    fixed: room('lost-places: 3'),
  },
  { text: room('from: 250 Pa'), code: 'unknown-key', at: 'from', says: /stands under `tightness`/ },
  { text: 'room:\n', code: 'unknown-key', at: 'room', says: /Is `rooms` meant/, fixed: 'rooms:\n' },
  { text: 'scrubbers:\n', code: 'unknown-key', at: 'scrubbers', says: /under `plant`/ },
  {
    text: 'plant:\n  scruber: {}\n',
    code: 'unknown-key',
    at: 'scruber',
    says: /`scrubbers` meant/,
    fixed: 'plant:\n  scrubbers: {}\n',
  },
  {
    text: 'rooms:\n  R1: { bin-type: b }\n',
    code: 'missing-key',
    at: 'R1',
    says: /Room `R1` lacks `inside`.*length: 18\.6 m/,
  },
  {
    text: room('tightness: { from: 250 Pa }'),
    code: 'missing-key',
    at: 'tightness',
    says: /`tightness` of room `R1` lacks `to` and `after`/,
  },
  {
    text: 'rooms:\n  R1:\n',
    code: 'missing-value',
    at: 'R1',
    says: /`R1` is empty.*`inside` and `bin-type`/,
  },
  { text: room('ready:'), code: 'missing-value', at: 'ready', says: /no value yet.*2026-08-20/ },
  {
    text: room('heat-transfer: 0.18'),
    code: 'unit-missing',
    at: '0.18',
    says: /has no unit/,
    fixed: room('heat-transfer: 0.18 W/m2K'),
  },
  {
    text: 'policy: { confidence: 0.9 }\n',
    code: 'unit-missing',
    at: '0.9',
    says: /no unit/,
    fixed: 'policy: { confidence: 90 % }\n',
  },
  {
    text: room("clearance: { gap: '5' }"),
    code: 'unit-missing',
    at: "'5'",
    says: /no unit/,
    fixed: room('clearance: { gap: 5 m }'),
  },
  {
    text: lot('field-temperature: 19 kg'),
    code: 'wrong-dimension',
    at: '19 kg',
    says: /is a mass; a temperature is expected/,
  },
  {
    text: lot('field-temperature: 19 deg C'),
    code: 'unknown-unit',
    at: '19 deg C',
    says: /°C or °F/,
    fixed: lot('field-temperature: 19 °C'),
  },
  {
    text: lot('maturity: { firmness: 17 lbs }'),
    code: 'unknown-unit',
    at: '17 lbs',
    says: /N, kgf or lbf/,
    fixed: lot('maturity: { firmness: 17 lbf }'),
  },
  {
    text: lot('maturity: { firmness: 17 lb }'),
    code: 'wrong-dimension',
    at: '17 lb',
    says: /mass/,
    fixed: lot('maturity: { firmness: 17 lbf }'),
  },
  {
    text: 'rooms:\n  R1:\n    inside:\n      length: 9,5 m\n      width: 8 m\n      height: 7 m\n    bin-type: b\n',
    code: 'not-a-quantity',
    at: '9,5 m',
    says: /decimal comma/,
    fixed:
      'rooms:\n  R1:\n    inside:\n      length: 9.5 m\n      width: 8 m\n      height: 7 m\n    bin-type: b\n',
  },
  {
    text: room('clearance: { gap: small }'),
    code: 'not-a-quantity',
    at: 'small',
    says: /a number and a unit/,
  },
  { text: room('clearance: { gap: -5 cm }'), code: 'out-of-range', at: '-5 cm', says: /0 cm or more/ },
  {
    text: lot('maturity: { soluble-solids: 121 % }'),
    code: 'out-of-range',
    at: '121 %',
    says: /100 % or less/,
  },
  { text: room('lost-places: -1'), code: 'out-of-range', at: '-1', says: /0 or more/ },
  // Feet and inches, as a door is measured with a tape.
  {
    text: room('clearance: { gap: 1 ft 9 in }'),
    code: 'unknown-unit',
    at: '1 ft 9 in',
    says: /more than one unit\. Write it in one: `1\.75 ft`/,
    fixed: room('clearance: { gap: 1.75 ft }'),
  },
  {
    text: room(`clearance: { gap: '1'' 9"' }`),
    code: 'unknown-unit',
    at: `'1'' 9"'`,
    says: /Write it in one: `1\.75 ft`/,
    fixed: room('clearance: { gap: 1.75 ft }'),
  },
  // A number as a spreadsheet writes it.
  {
    text: room('refrigeration: { capacity: 1.6e1 kW }'),
    code: 'not-a-quantity',
    at: '1.6e1 kW',
    says: /exponent\. Write the number in full: `16 kW`/,
    fixed: room('refrigeration: { capacity: 16 kW }'),
  },
  {
    text: room('refrigeration: { capacity: 1e30 kW }'),
    code: 'out-of-range',
    at: '1e30 kW',
    says: /must be 1000000000 kW or less/,
  },
  { text: room('places: 1e30'), code: 'out-of-range', at: '1e30', says: /`places` is 1 to 1,000,000\./ },
  // A million bins of 300 kg are 300,000 t in one lot; no whole number of the trade comes near its limit.
  {
    text: lot('received: 1000001'),
    code: 'out-of-range',
    at: '1000001',
    says: /`received` is 0 to 1,000,000\./,
  },
  {
    text: demand('weeks: 2026-W40, by-week: { 2026-W40: 9007199254740991 }'),
    code: 'out-of-range',
    at: '9007199254740991',
    says: /cannot be: `.*` is 0 to 100,000,000\./,
  },
  { text: room('stack: 12000'), code: 'out-of-range', at: '12000', says: /`stack` is 1 to 10,000\./ },
  // No carton costs that in any currency, and no solver of schedules could reckon with it.
  {
    text: 'packing:\n  bins-a-week: 5\n  processing-price: 1e15\n  packout: {}\n',
    code: 'out-of-range',
    at: '1e15',
    says: /`processing-price` is 0 to 1,000,000,000/,
  },
  { text: lot('maturity: { starch: 11 }'), code: 'out-of-range', at: '11', says: /0 to 10/ },
  {
    text: room('ready: 20.8.2026'),
    code: 'not-a-date',
    at: '20.8.2026',
    says: /2026-09-14/,
    fixed: room('ready: 2026-08-20'),
  },
  {
    text: room('ready: 2026-8-3'),
    code: 'not-a-date',
    at: '2026-8-3',
    says: /not a date/,
    fixed: room('ready: 2026-08-03'),
  },
  // No month has the number 17: the order is beyond doubt.
  {
    text: room('ready: 08/17/2026'),
    code: 'not-a-date',
    at: '08/17/2026',
    says: /not a date/,
    fixed: room('ready: 2026-08-17'),
  },
  {
    text: demand('weeks: 2026-w43..2027-w05'),
    code: 'not-a-week',
    at: '2026-w43..2027-w05',
    says: /not a week/,
    fixed: demand('weeks: 2026-W43..2027-W05'),
  },
  { text: room('ready: 03/08/2026'), code: 'not-a-date', at: '03/08/2026', says: /not a date/ },
  { text: room('ready: 2026-02-30'), code: 'not-a-date', at: '2026-02-30', says: /No calendar/ },
  { text: demand('weeks: 2027-W53'), code: 'not-a-week', at: '2027-W53', says: /2027 has 52 weeks/ },
  {
    text: demand('weeks: 2027-W1'),
    code: 'not-a-week',
    at: '2027-W1',
    says: /not a week/,
    fixed: demand('weeks: 2027-W01'),
  },
  {
    text: demand('weeks: KW 9/2027'),
    code: 'not-a-week',
    at: 'KW 9/2027',
    says: /not a week/,
    fixed: demand('weeks: 2027-W09'),
  },
  { text: demand('weeks: 2027-W01, by-week: { W2: 3 }'), code: 'not-a-week', at: 'W2', says: /not a week/ },
  {
    text: demand('weeks: 2027-W09..2027-W02'),
    code: 'span-reversed',
    at: '2027-W09..2027-W02',
    says: /before it starts/,
    fixed: demand('weeks: 2027-W02..2027-W09'),
  },
  {
    text: room('law: Washington'),
    code: 'not-allowed-value',
    at: 'Washington',
    says: /washington, new-york or none/,
    fixed: room('law: washington'),
  },
  { text: lot('treatments: [1-mcp, wax]'), code: 'not-allowed-value', at: 'wax', says: /1-mcp, antioxidant/ },
  { text: room('scrubber: 1'), code: 'bad-identifier', at: '1', says: /starts with a letter, as in `R1`/ },
  { text: `rooms:\n  12: { ${ROOM} }\n`, code: 'bad-identifier', at: '12', says: /as in `R12`/ },
  {
    text: 'policy: { findings: { Some: off } }\n',
    code: 'bad-identifier',
    at: 'Some',
    says: /small letters/,
  },
  {
    text: lot('block: 12'),
    code: 'wrong-type',
    at: '12',
    says: /Put it in quotes/,
    fixed: lot("block: '12'"),
  },
  {
    text: lot('block: yes'.replace('yes', 'true')),
    code: 'wrong-type',
    at: 'true',
    says: /true or false/,
    fixed: lot("block: 'true'"),
  },
  {
    text: lot('received: "120"'),
    code: 'wrong-type',
    at: '"120"',
    says: /`120` stands in quotes, so it is a text; `received` needs a whole number\. Take the quotes off\./,
    fixed: lot('received: 120'),
  },
  // No fix: neither 1 nor 12 was meant.
  { text: lot('received: "1e2"'), code: 'wrong-type', at: '"1e2"', says: /not a whole number/ },
  { text: lot('received: 12 of 40'), code: 'wrong-type', at: '12 of 40', says: /not a whole number/ },
  {
    text: lot('received: 12 bins'),
    code: 'wrong-type',
    at: '12 bins',
    says: /no unit/,
    fixed: lot('received: 12'),
  },
  {
    text: 'rooms:\n  R1: { inside: 9 m, bin-type: b }\n',
    code: 'wrong-type',
    at: '9 m',
    says: /length: 18\.6 m/,
  },
  { text: 'rooms: [R1]\n', code: 'wrong-type', at: 'rooms', says: /an identifier for each room/ },
  {
    text: 'lots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 7,5 }\n',
    code: 'unknown-key',
    at: '5',
    says: /`7,5` is read as two\. `bins` is a whole number, for example/,
  },
  {
    text: room('heat-transfer: 0,18 W/m2K'),
    code: 'unknown-key',
    at: '18 W/m2K',
    says: /as two\. Write a decimal point: `0\.18 W\/m2K`\. `heat-transfer` is a heat transfer, for example/,
    fixed: room('heat-transfer: 0.18 W/m2K'),
  },
  // Commas between thousands: a point there would make a thousandth of the number.
  {
    text: room('refrigeration: { capacity: 60,000 W }'),
    code: 'unknown-key',
    at: '000 W',
    says: /Write it without a comma, `60000 W`, which is likely meant; .* with a point, `60\.000 W`\./,
    fixed: room('refrigeration: { capacity: 60000 W }'),
  },
  {
    text: `rooms:\n  R1:\n    inside: { length: 9 m, width: 8 m, height: 7 m }\n    bin-type: b\n    refrigeration:\n      capacity: 60,000 W\n`,
    code: 'not-a-quantity',
    at: '60,000 W',
    says: /has a comma\. Write it without a comma, `60000 W`, .*`60\.000 W`\. `capacity` is a power/,
    fixed: `rooms:\n  R1:\n    inside: { length: 9 m, width: 8 m, height: 7 m }\n    bin-type: b\n    refrigeration:\n      capacity: 60000 W\n`,
  },
  {
    text: room('refrigeration: { capacity: 1,200,000 W }'),
    code: 'unknown-key',
    at: '200',
    says: /is cut by its commas\. Write it without commas: `1200000 W`\./,
    fixed: room('refrigeration: { capacity: 1200000 W }'),
  },
  {
    text: 'lots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 1,680 }\n',
    code: 'unknown-key',
    at: '680',
    says: /Write it without commas: `1680`\. `bins` is a whole number/,
    fixed: 'lots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 1680 }\n',
  },
  {
    text: 'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 1,680\n',
    code: 'wrong-type',
    at: '1,680',
    says: /has a comma\. Write it without commas: `1680`\. `bins` is a whole number/,
    fixed: 'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 1680\n',
  },
  {
    text: 'fills:\n  F1: { room: R1, regime: r, first-bin: 2026-09-03, lots: { L1: 1,500, L2: 3 } }\n',
    code: 'unknown-key',
    at: '500',
    says: /Write it without commas: `1500`/,
    fixed: 'fills:\n  F1: { room: R1, regime: r, first-bin: 2026-09-03, lots: { L1: 1500, L2: 3 } }\n',
  },
  {
    text: `lots:\n  L1:\n    block: b: c\n`,
    code: 'yaml-syntax',
    at: 'b: c',
    says: /two.*quotes/,
    fixed: "lots:\n  L1:\n    block: 'b: c'\n",
  },
  {
    text: 'season:\n  name: @home\n',
    code: 'yaml-syntax',
    at: '@',
    says: /quotes/,
    fixed: "season:\n  name: '@home'\n",
  },
  { text: 'rooms:\n  R1: { bin-type: "b }\n', code: 'yaml-syntax', at: '"', says: /quote is not closed/ },
  {
    text: `rooms:\n  R1: { ${ROOM}\n  R2: { ${ROOM} }\n`,
    code: 'yaml-syntax',
    at: '{',
    says: /bracket is not closed.*`}`/,
  },
  { text: 'rooms:\n  R1\n', code: 'yaml-syntax', at: 'R1', says: /stands alone/ },
  {
    text: 'rooms:\n  R1:\n    bin-type: b\n    sta\n    places: 3\n',
    code: 'yaml-syntax',
    at: 'sta',
    says: /`sta` has no value/,
  },
  {
    text: `rooms:\n    R1: { ${ROOM} }\n  R2: { ${ROOM} }\n`,
    code: 'yaml-syntax',
    at: '    ',
    says: /indented by 4 spaces, those beside it by 2\./,
    fixed: `rooms:\n  R1: { ${ROOM} }\n  R2: { ${ROOM} }\n`,
  },
  {
    text: `lots:\n  L1:\n    bins: 4\n L2: { ${LOT} }\n`,
    code: 'yaml-syntax',
    at: ' ',
    says: /indented by 1 space, those beside it by 2\./,
    fixed: `lots:\n  L1:\n    bins: 4\n  L2: { ${LOT} }\n`,
  },
  {
    text: 'lots:\n  L1:\n    variety: Gala\n     picked: 2026-09-03\n     bins: 400\n',
    code: 'yaml-syntax',
    at: '     ',
    says: /stands deeper than `variety` above it, beside which it belongs/,
    fixed: 'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 400\n',
  },
  {
    text: 'lots:\n  L1:\n    variety: Gala\n   picked: 2026-09-03\n    bins: 400\n',
    code: 'yaml-syntax',
    at: 'picked: 2026-09-03',
    says: /`picked` stands less deep than the lines around it/,
    fixed: 'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 400\n',
  },
  {
    text: `rooms:\n  R1: { ${ROOM} }\n   R2: { ${ROOM} }\n`,
    code: 'yaml-syntax',
    at: '   ',
    says: /stands deeper than `R1` above it/,
    fixed: `rooms:\n  R1: { ${ROOM} }\n  R2: { ${ROOM} }\n`,
  },
  {
    text: 'lots:\n  L1:\n    variety: Gala # early\n    # as counted\n\n      bins: 400\n',
    code: 'yaml-syntax',
    at: '      ',
    says: /stands deeper than `variety` above it/,
    fixed: 'lots:\n  L1:\n    variety: Gala # early\n    # as counted\n\n    bins: 400\n',
  },
  {
    text: `rooms:\n\tR1: { ${ROOM} }\n`,
    code: 'tab-indent',
    at: '\t',
    says: /Tabs/,
    fixed: `rooms:\n  R1: { ${ROOM} }\n`,
  },
  { text: room('law: none, law: none'), code: 'duplicate-key', at: 'law', says: /twice; the first counts/ },
  {
    text: `rooms:\n  R1: { ${ROOM} }\nrooms:\n  R2: { ${ROOM} }\n`,
    code: 'duplicate-key',
    at: 'rooms',
    says: /stands twice in this file/,
  },
];

const LANGUAGE = 'lotwright: 1\n';
const read = (text: string) => readPlan([{ path: 'a.lotplan.yaml', text: `${LANGUAGE}${text}` }]);

describe('a mistake', () => {
  it.each(MISTAKES)('$code at $at in $text', ({ text, code, at, says, fixed }) => {
    const { problems, files } = read(text);
    const whole = files.get('a.lotplan.yaml')?.text ?? '';
    const found = problems.find((problem) => problem.code === code && says.test(problem.message));
    expect(found, JSON.stringify(problems.map(({ code: other, message }) => [other, message]))).toBeDefined();
    if (!found) return;
    expect(whole.slice(found.at.start, found.at.end)).toBe(at);
    expect(found.message).toMatch(/^[`A-Z].*[.?]$/s);
    if (fixed === undefined) return;
    expect(applyEdits(whole, found.fixes?.[0]?.edits ?? [])).toBe(`${LANGUAGE}${fixed}`);
  });

  it('with a fix is cured by it', () => {
    for (const { text, fixed } of MISTAKES) {
      if (fixed === undefined) continue;
      const before = read(text).problems.filter(({ fixes }) => fixes?.length);
      const after = read(fixed).problems.filter(({ fixes }) => fixes?.length);
      expect(after.length, fixed).toBeLessThan(before.length);
    }
  });

  it('of depth is told behind a blank line, with which a text may begin', () => {
    for (const blank of ['\n', '\r\n', '\n\n', '# as counted\n']) {
      const text = `${blank}lots: 1\n   L1: { bins: 4 }\n`;
      const { problems } = readPlan([{ path: 'a.lotplan.yaml', text }]);
      expect(problems.map(({ code }) => code)).toContain('yaml-syntax');
    }
  });

  it('of depth has no fix where a key too shallow and lines too deep look alike', () => {
    const { problems } = read('lots:\n  L1:\n    variety: Gala\n  picked: 2026-09-03\n    bins: 400\n');
    expect(problems.map(({ message }) => message).join()).toMatch(/stands deeper than `picked` above it/);
    expect(problems.flatMap(({ fixes }) => fixes ?? [])).toEqual([]);
  });

  it('of depth is told once, at the line that is too deep, and no quotes are offered', () => {
    const { problems } = read('lots:\n  L1:\n    variety: Gala\n     bins: 400\n    picked: 2026-09-03\n');
    expect(problems.map(({ fixes }) => fixes?.map(({ title }) => title))).toEqual([
      ['Indent as the line above'],
    ]);
    // Quotes alone would not make this readable.
    const [both] = read('lots:\n  L1:\n    block: a: b\n     bins: 400\n').problems;
    expect(both?.code).toBe('yaml-syntax');
    expect(both?.fixes).toBeUndefined();
  });

  it.each([
    ['a key of a lot', '  L1:\n    variety: Gala\n\tbins: 4\n', '  L1:\n    variety: Gala\n    bins: 4\n'],
    [
      'a key behind spaces',
      '  L1:\n    variety: Gala\n    \tbins: 4\n',
      '  L1:\n    variety: Gala\n    bins: 4\n',
    ],
    [
      'the first key of a lot',
      '  L1:\n\tvariety: Gala\n    bins: 4\n',
      '  L1:\n    variety: Gala\n    bins: 4\n',
    ],
    [
      'a lot below another',
      '  L1:\n    variety: Gala\n\tL2:\n    variety: Fuji\n',
      '  L1:\n    variety: Gala\n  L2:\n    variety: Fuji\n',
    ],
    [
      'all lines',
      '\tL1:\n\t\tvariety: Gala\n\t\tbins: 4\n\tL2:\n\t\tbins: 3\n',
      '  L1:\n    variety: Gala\n    bins: 4\n  L2:\n    bins: 3\n',
    ],
  ])('of tabs before %s is mended by the depth of the lines beside', (_what, text, mended) => {
    const { problems, files } = read(`lots:\n${text}`);
    expect(problems.map(({ code }) => code)).toEqual(['tab-indent']);
    const whole = files.get('a.lotplan.yaml')?.text ?? '';
    expect(applyEdits(whole, problems[0]?.fixes?.[0]?.edits ?? [])).toBe(`${LANGUAGE}lots:\n${mended}`);
  });

  it('of a tab leaves what is said of other entries', () => {
    const text = 'lots:\n  L1:\n    variety: Gala\n\tbins: 4\n  L2: { variety: Gala, bins: 4 }\n';
    const { problems, lots } = read(text);
    expect(problems.map(({ code }) => code).toSorted()).toEqual(['missing-key', 'tab-indent']);
    expect([...lots.keys()]).toEqual(['L1', 'L2']);
  });

  it('with thousands behind a comma has the decimal point as a second fix, where the key takes one', () => {
    const titles = (line: string) =>
      read(`demand:\n  D1:\n    market: m\n    ${line}\n`)
        .problems.filter(({ code }) => code === 'wrong-type')
        .map(({ fixes }) => fixes?.map(({ title }) => title));
    expect(titles('price: 1,200')).toEqual([['Write `1200`', 'Write `1.200`, with a decimal point']]);
    expect(titles('price: 1,200,300')).toEqual([['Write `1200300`']]);
    expect(titles('price: 0,200')).toEqual([['Write `0.200`']]);
    expect(titles('cartons: 1,200')).toEqual([['Write `1200`']]);
    expect(titles('cartons: 1,2')).toEqual([undefined]);
  });

  it('in a number that a comma cuts leaves nothing of it to be computed from', () => {
    const { problems, lots } = read('lots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 12,000,000 }\n');
    expect(problems.map(({ code }) => code)).toEqual(['unknown-key']);
    expect(lots.get('L1')?.expectedBins).toBeUndefined();
  });

  it('in the name of a key that must be there is told once', () => {
    const codes = (keys: string) =>
      read(`rooms:\n  R1: { ${keys} }\n`).problems.map(({ code, message }) => `${code}: ${message}`);
    const inside = 'inside: { length: 9 m, width: 8 m, height: 7 m }';
    expect(codes(`${inside}, bin_type: b`)).toEqual([
      'unknown-key: Room `R1` has no key `bin_type`. Is `bin-type` meant?',
    ]);
    expect(codes('bin_type: b')).toEqual([
      expect.stringMatching(/^missing-key: Room `R1` lacks `inside`\. /),
      'unknown-key: Room `R1` has no key `bin_type`. Is `bin-type` meant?',
    ]);
    expect(codes(`${inside}, law: none`)).toEqual([
      expect.stringMatching(/^missing-key: .* lacks `bin-type`/),
    ]);
  });

  it('in ten places is told ten times, each at its own', () => {
    const lots = Array.from(
      { length: 10 },
      (_, index) => `  L${index}: { variety: Gala, picked: 2026-09-03, bins: x${index} }\n`,
    );
    const text = `${LANGUAGE}lots:\n${lots.join('')}`;
    const { problems } = readPlan([{ path: 'a', text }]);
    expect(problems.map(({ at }) => text.slice(at.start, at.end))).toEqual(
      lots.map((_, index) => `x${index}`),
    );
  });
});
