import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { explainFigure } from '../../src/report/explain';
import { thingsOf } from '../../src/report/things';
import { shown } from '../../src/server/services/consequences-text';
import { explainAt } from '../../src/server/services/explain';
import { hoverAt } from '../../src/server/services/hover';
import { caretIn, computed, samplePlan, type TextFile } from './plans';

const files = samplePlan('first-season');
const { season } = computed(files);

function hover(file: 'fruit' | 'orrowby', marked: string): string {
  return hoverAt(season, caretIn(files, `${file}.lotplan.yaml`, marked))?.markdown ?? '';
}

function single(text: string) {
  const file: TextFile = { path: 'plan.lotplan.yaml', text };
  return { files: [file], season: computed([file]).season };
}

describe('hover over a key', () => {
  it('says what it means, what may stand there, and an example', () => {
    const text = hover('orrowby', '    kin‸d: carbon');
    expect(text).toContain('How it removes carbon dioxide.');
    expect(text).toContain('One of `carbon`, `lime`, `membrane`.');
  });

  it('says the default where there is one', () => {
    expect(hover('orrowby', '  days-a-we‸ek: 5')).toContain('Default: 5.');
  });

  it('over an identifier does not repeat what the section means', () => {
    expect(hover('orrowby', '  R‸1:\n')).not.toContain('by identifier');
  });

  it('has nothing to say over a comment or an unknown key', () => {
    expect(hover('orrowby', 'lost-places: 4 # under the coo‸ler')).toBe('');
    const { season: small } = single('rooms:\n  R1: { colour: red }\n');
    expect(hoverAt(small, { file: 'plan.lotplan.yaml', offset: 20 })).toBeUndefined();
  });
});

describe('hover right after an edit', () => {
  const older = 'The figures are those of the text before the last change.';
  const edited = files.map(({ path, text }) => ({
    path,
    text: text.replace('\n  R1:\n', '\n  # one more\n  R1:\n'),
  }));
  const plan = readPlan(edited);
  const over = (marked: string) => hoverAt(season, caretIn(edited, 'orrowby.lotplan.yaml', marked), plan);

  it('speaks of the text as it is now, its figures marked as older', () => {
    const found = over('  R‸1:\n');
    expect(found && plan.files.get(found.at.file)?.text.slice(found.at.start, found.at.end)).toBe('R1');
    expect(found?.markdown).toContain('places');
    expect(found?.markdown).toContain(older);
    expect(hover('orrowby', '  R‸1:\n')).not.toContain(older);
  });

  it('without figures is as ever', () => {
    expect(over('    kin‸d: carbon')?.markdown).toContain('How it removes carbon dioxide.');
    expect(over('    kin‸d: carbon')?.markdown).not.toContain(older);
  });
});

describe('hover over a key that figures follow from', () => {
  const withCourses = computeSeason(readPlan(files), { release: 'none', courses: true });
  const over = (file: 'fruit' | 'orrowby', marked: string) =>
    hoverAt(withCourses, caretIn(files, `${file}.lotplan.yaml`, marked))?.markdown ?? '';

  it.each([
    ['orrowby', '      remo‸val: 18', 'S1.capacity', '**hours a day its rooms need in'],
    [
      'orrowby',
      '    tight‸ness: { from: 250 Pa, to: 125 Pa, after: 26',
      'R2.pressure-half-life',
      '**half-life needed',
    ],
    [
      'orrowby',
      'tested: 2026-08-12 }\n    scrubber: S1\n    nitro‸gen: N1',
      'R2.waits-for-nitrogen',
      '**nitrogen fed**',
    ],
    ['orrowby', '      flo‸ws:', 'N1.longest-wait', '**longest wait of a sealed room'],
    ['orrowby', '    refrigera‸tion: { capacity: 16', 'R2.peak-cooling', '**days from the first bin'],
    [
      'orrowby',
      '    engine-room: { capa‸city: 36',
      'engine-room.peak-load',
      '**load of the refrigeration group**',
    ],
    ['orrowby', '      char‸ge: 3 t', 'lime-box.charge-takes-up', '**days from the first sealing'],
    [
      'fruit',
      '    sea‸led: 2026-09-18',
      'R2-gala.hours-to-set-point',
      '**hours from sealing to 5 % oxygen**',
    ],
    [
      'fruit',
      'field-temperature: 18 °C, matu‸rity: { tested: 2026-09-07',
      'G4.streif-index',
      '**Streif index**',
    ],
  ] as const)('of %s, %s, tells how they came about and where the rest is', (file, marked, id, figure) => {
    const text = over(file, marked);
    expect(text).toContain(figure);
    expect(text).toContain(`lotwright explain ${id}`);
  });

  it('holds what is integrated against its closed form, and says once where the difference comes from', () => {
    const text = over('fruit', '    sea‸led: 2026-09-18');
    expect(text).toMatch(/ h by the closed form, \S+ h integrated: \d\.\d % more\./);
    expect(text.match(/The formula takes one rate of the fruit for each stretch/g)).toHaveLength(1);
  });

  it('tells the same as the command line', () => {
    const figure = thingsOf(withCourses)
      .find(({ kind, id }) => kind === 'scrubber' && id === 'S1')
      ?.figures.find(({ slug }) => slug === 'capacity')?.figure;
    if (!figure) throw new Error('S1 has no capacity');
    const told = explainFigure(figure, withCourses.plan, 'metric', { format: 'markdown', depth: 0 });
    expect(over('orrowby', '      remo‸val: 18')).toContain(told);
  });

  it('says nothing of rooms where no fill makes anything follow', () => {
    const text = 'rooms:\n  R1: { nitrogen: N1 }\n';
    const { season: small } = single(text);
    const found = hoverAt(small, { file: 'plan.lotplan.yaml', offset: text.indexOf('nitrogen') + 2 });
    expect(found?.markdown).not.toContain('lotwright explain');
  });
});

describe('hover over a value', () => {
  // 10.6 m / 0.3048 m per foot (NIST SP 811, appendix B: exact) = 34.777 ft.
  it('tells a quantity in the other system of units', () => {
    expect(hover('orrowby', 'length: 10‸.6 m')).toContain('10.6 m is 34.78 ft.');
  });

  // (35 - 32) * 5/9 = 1.667.
  it('tells US quantities in metric', () => {
    const text = 'season:\n  name: x\n  outside-temperature: 35 °F\n';
    const { season: small } = single(text);
    const found = hoverAt(small, { file: 'plan.lotplan.yaml', offset: text.indexOf('35') });
    expect(found?.markdown).toContain('35 °F is 1.7 °C.');
  });

  // 18 September 2026 is a Friday; ISO 8601 week 38 runs from Monday 14 to Sunday 20 September.
  it('tells the weekday and the ISO week of a date', () => {
    expect(hover('fruit', '    sealed: 2026-09‸-18')).toContain('Friday of ISO week 2026-W38');
  });

  // ISO 8601: 2027-W01 begins on Monday 4 January 2027.
  it('tells the days of a week, and over a pin the window it should lie in', () => {
    const text = hover('fruit', 'open: 2027-W‸01');
    expect(text).toContain('Monday 2027-01-04 to Sunday 2027-01-10');
    expect(text).toMatch(/Opening window \d{4}-W\d\d \(set by .+\) to \d{4}-W\d\d/);
  });

  it('tells what the entry it names comes to', () => {
    const text = hover('fruit', '    room: R‸2');
    expect(text).toContain('The room that is filled.');
    expect(text).toContain('**Room R2**');
    expect(text).toContain('Filled by `R2-gala`');
  });
});

describe('hover over an entry', () => {
  // 13.1 m x 4.8 m x 5.8 m = 364.7 m3.
  it('gives the figures of a room', () => {
    expect(hover('orrowby', '  R‸2:\n')).toContain('room volume: 365 m³');
  });

  // 78 + 81 + 76 bins in the plan; 235 x 300 kg = 70.5 t.
  it('gives the figures of a fill, its window and its opening week', () => {
    const text = hover('fruit', '  R2-ga‸la:\n    room');
    expect(text).toContain('bins in the room: 235 bins');
    expect(text).toContain('fruit in the room: 70.5 t');
    expect(text).toMatch(/The present schedule opens it in 2027-W01 \(pinned\)\./);
  });

  // Gala kept 15 days cannot be good still when the law's days are over.
  it('says of an empty window that no week is in it, and what leaves none', () => {
    const edited = files.map(({ path, text }) => ({
      path,
      text: text.replace('storage-life: 7 months', 'storage-life: 15 days'),
    }));
    const { season: short } = computed(edited);
    for (const marked of ['  R2-ga‸la:\n    room', 'open: 2027-W‸01']) {
      const text = hoverAt(short, caretIn(edited, 'fruit.lotplan.yaml', marked))?.markdown ?? '';
      expect(text).toMatch(
        /It can be opened in no week: not before (\S+) \(set by .+\), and not after (\S+) \(set by .+ of lot G\d\)\./,
      );
      expect(text).not.toContain('Opening window 20');
      expect(text).not.toContain('best before');
    }
  });

  it('never speaks of opening without the caution beside it', () => {
    for (const marked of ['  R2-ga‸la:\n    room', 'open: 2027-W‸01']) {
      const text = hover('fruit', marked);
      // It comes before anything that could be taken for leave.
      expect(text).toMatch(/^\*Sealed rooms kill\. These are planning figures, not leave to enter/);
      expect(text).toContain('oxygen and carbon dioxide, both, with a calibrated instrument');
      expect(text).toContain('Local codes');
      expect(text).not.toMatch(/may be opened/i);
      expect(text).not.toMatch(/\bsafe\b/i);
    }
  });

  it('says how long a lot keeps, and in which room', () => {
    const text = hover('fruit', '  G‸4: { variety: Gala');
    expect(text).toMatch(
      /\*Room R2, fill R2-gala\*: Within standard up to \d{4}-W\d\d, by its storage life\./,
    );
  });

  it('tells the maturity of a lot once, and its figures by room', () => {
    const full = samplePlan('full-season');
    const { season: whole } = computed(full);
    const split = [...whole.plan.lots.values()].find(
      ({ id }) =>
        [...whole.keeping.values()].filter(({ lots }) => lots.some((k) => k.lot.id === id)).length > 1,
    );
    if (!split) throw new Error('the full season has a lot in two rooms');
    const text = hoverAt(whole, { file: split.at.file, offset: split.at.start + 1 })?.markdown ?? '';
    expect(text.match(/Maturity suits mid-term storage/g)).toHaveLength(1);
    expect(text.match(/^\*Room \w+, fill [\w-]+\*: Within standard/gm)).toHaveLength(2);
    expect(text.match(/^- fruit: /gm)).toHaveLength(2);
    expect(text).not.toMatch(/mid storage|mid-storage/);
  });

  it('gives the reference data of a variety with its sources', () => {
    const text = hover('fruit', 'B1: { variety: Brae‸burn');
    expect(text).toContain('**Braeburn, apple**');
    expect(text).toMatch(/\((published|common practice|from memory): .+\)/);
  });

  it('says how a scrubber is loaded and what a demand gets', () => {
    expect(hover('orrowby', '    S‸1:\n')).toContain('Rooms it serves: R2, R3.');
    // 180 + 5 x 250 cartons.
    expect(hover('orrowby', '  gala-au‸tumn:')).toContain('wanted: 1,430 cartons');
  });
});

describe('hover over a finding code', () => {
  it('sums up its page where the plan sets its severity', () => {
    const text = 'policy:\n  findings: { lime-dust: off }\n';
    const { season: small } = single(text);
    const found = hoverAt(small, { file: 'plan.lotplan.yaml', offset: text.indexOf('lime') + 2 });
    expect(found?.markdown).toContain('**lime-dust**');
    expect(found?.markdown).toContain('Family safety');
  });

  it('says the reason where a comment allows it', () => {
    const text = 'rooms:\n  R1: {} # lotwright: allow unused-entry -- sold in spring\n';
    const { season: small } = single(text);
    const found = hoverAt(small, { file: 'plan.lotplan.yaml', offset: text.indexOf('unused') + 2 });
    expect(found?.markdown).toContain('Allowed here: sold in spring');
  });
});

it('text from the plan never becomes Markdown of its own', () => {
  const text =
    'rooms:\n  R1: {}\nfills:\n  F1: { room: R1, lots: { "G*1*": 4 } }\nlots:\n  "G*1*": { variety: <b>x</b> }\n';
  const { season: small } = single(text);
  for (let offset = 0; offset < text.length; offset++) {
    const found = hoverAt(small, { file: 'plan.lotplan.yaml', offset });
    expect(found?.markdown ?? '').not.toMatch(/[^\\]<b>/);
  }
});

// CommonMark 0.31, 6.1: in code a backslash is a backslash, and as many backticks as begin it end it.
it('escapes what is not code, and leaves code as it is', () => {
  expect(shown('Filled by `cold_room*1`: a_b.')).toBe('Filled by `cold_room*1`: a\\_b.');
  expect(shown('``a`_b`` c_d')).toBe('``a`_b`` c\\_d');
  // A backtick without its other begins no code, here or in what stands behind it.
  expect(shown('a `_b')).toBe('a \\`\\_b');
  expect(shown('```[a](b)`')).toBe('\\`\\`\\`\\[a\\](b)\\`');
});

it('names a figure to be asked for as it is typed', () => {
  const edited = files.map(({ path, text }) => ({ path, text: text.replaceAll('R2-gala', 'R2_gala') }));
  const { season: of } = computed(edited);
  const text = hoverAt(of, caretIn(edited, 'fruit.lotplan.yaml', '    sea‸led: 2026-09-18'))?.markdown;
  expect(text).toContain('`lotwright explain R2_gala.');
  const room = hoverAt(of, caretIn(edited, 'fruit.lotplan.yaml', '    room: R‸2'))?.markdown;
  expect(room).toContain('Filled by `R2_gala`');
});

describe('explaining the entry at the caret', () => {
  it('gives each computed figure with formula, numbers, places and sources', () => {
    const found = explainAt(season, caretIn(files, 'fruit.lotplan.yaml', '    room: R‸2'));
    expect(found?.title).toBe('Room R2');
    const text = found?.markdown ?? '';
    expect(text).toContain('room volume = length * width * height');
    expect(text).toContain('= 13.1 * 4.8 * 5.8');
    expect(text).toMatch(/from orrowby\.lotplan\.yaml:\d+ "13\.1 m"/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  it('begins with a summary; what was only looked up comes last', () => {
    const text = explainAt(season, caretIn(files, 'orrowby.lotplan.yaml', '  R‸2:\n'))?.markdown ?? '';
    const order = [
      '# Room R2',
      '> Sealed rooms kill',
      ': 236 places',
      '**Fill R2-gala, room R2**',
      'Opening window 2026-W39',
      '- bins in the room: 235 bins',
      '- free gas volume: 271 m³',
      '- carbon dioxide given off in store: 2.1 kg/day',
      '## How the figures came about',
      '### room volume: 365 m³',
      '## Reference values',
      '### clearance at walls: 0.20 m',
    ].map((part) => text.indexOf(part));
    expect(order).not.toContain(-1);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it('nothing in the plan can end the block it is shown in', () => {
    const text = 'rooms:\n  R1: { inside: { length: "```````3 m", width: 4 m, height: "5 m" } }\nbins: {}\n';
    const { season: small } = single(text);
    const found = explainAt(small, { file: 'plan.lotplan.yaml', offset: text.indexOf('R1') })?.markdown ?? '';
    const fences = found.split('\n').filter((line) => /^`{3,}/.test(line));
    expect(fences.length % 2).toBe(0);
  });

  it('finds the entry around a deep place', () => {
    const found = explainAt(season, caretIn(files, 'orrowby.lotplan.yaml', 'adsor‸b: 8 min'));
    expect(found?.title).toBe('Scrubber S1');
  });

  it('has nothing to say where no figures belong', () => {
    expect(explainAt(season, caretIn(files, 'orrowby.lotplan.yaml', 'cur‸rency: EUR'))).toBeUndefined();
  });
});

describe('a variety in a plan of US units', () => {
  it('has its temperatures in °F, each once, and its addresses as they are', () => {
    const { files: own, season: of } = single(
      'season: { starts: 2026-09-01, ends: 2027-06-30, units: us }\nlots:\n  H1: { variety: Honeycrisp, picked: 2026-09-12, bins: 90 }\n',
    );
    const text = own[0]?.text ?? '';
    const offset = text.indexOf('Honeycrisp') + 2;
    const told = hoverAt(of, { file: 'plan.lotplan.yaml', offset })?.markdown ?? '';
    expect(told).toContain('respiration in air at 32 °F');
    expect(told).not.toMatch(/respiration in air at \d+ °C/);
    expect(told).toContain('(37 to 39 °F after conditioning)');
    expect(told).not.toContain('printed as 37 °F');
    expect(told).toContain('https://www.ishs.org/ishs-article/138_10');
  });

  // 0.5 °C is printed as 33 °F in the trial.
  it('has the temperatures of its disorders in °F too', () => {
    const { files: own, season: of } = single(
      'season: { starts: 2026-09-01, ends: 2027-06-30, units: us }\nlots:\n  H1: { variety: Honeycrisp, picked: 2026-09-12, bins: 90 }\n',
    );
    const offset = (own[0]?.text ?? '').indexOf('Honeycrisp') + 2;
    const told = hoverAt(of, { file: 'plan.lotplan.yaml', offset })?.markdown ?? '';
    expect(told).toContain('Worst at 33 °F; conditioning at 50 °F for 5 to 7 days usually prevents it.');
    expect(told).toContain('were worst at 33 °F; conditioning');
    expect(told).not.toContain('°C');
  });
});
