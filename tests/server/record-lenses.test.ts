import { describe, expect, it } from 'vitest';
import { formatDay } from '../../src/plan/dates';
import { consequencesOf } from '../../src/server/services/consequences';
import { lensesOf } from '../../src/server/services/lenses';
import type { Subject } from '../../src/server/services/subject';
import { computed, samplePlan } from './plans';

const FILE = 'records.lotplan.yaml';

/** Each line above an entry of the sample's records, by the entry's name; `changed` writes the records otherwise. */
function linesOf(sample: string, changed: (text: string) => string = (text) => text) {
  const files = samplePlan(sample).map(({ path, text }) =>
    path === FILE ? { path, text: changed(text) } : { path, text },
  );
  const text = files.find(({ path }) => path === FILE)?.text ?? '';
  const { season } = computed(files);
  const lenses = lensesOf(season, FILE);
  const named = lenses.map((lens) => [text.slice(lens.at.start, lens.at.end), lens] as const);
  return { season, lenses: new Map(named) };
}

describe('figures above what was recorded', () => {
  const march = linesOf('in-march');
  const title = (id: string) => march.lenses.get(id)?.title;

  it('tell a fill its days and bins against those planned, and how its room goes on', () => {
    expect(title('R1-gala')).toMatch(/^every day as planned · 154 bins of \d+ planned$/);
    expect(title('R2-gala')).toMatch(/^sealed 1 day later than planned · 235 bins of \d+ planned$/);
    expect(march.lenses.get('R2-gala')?.card).toBe('R2-gala');
    expect(march.lenses.get('R2-gala')?.opening).toBe(false);
    const harvest = linesOf('mid-harvest').lenses;
    expect(harvest.get('R2-gala')?.title).toMatch(/ · opening planned for 2027-W01$/);
    expect(harvest.get('R2-gala')?.opening).toBe(true);
    expect(harvest.get('R3-golden')?.title).toBe('first bin as planned · last bin planned for 2026-09-25');
  });

  it('tell weeks and days that were earlier', () => {
    const { lenses } = linesOf('in-march', (text) =>
      text
        .replace('opened: 2027-01-04', 'opened: 2026-12-14')
        .replace('last-bin: 2026-09-16', 'last-bin: 2026-09-14'),
    );
    expect(lenses.get('R2-gala')?.title).toMatch(
      /^last bin 2 days earlier than planned · sealed 1 day later than planned · opened 3 weeks earlier than planned · /,
    );
    expect(lenses.get('R2-gala')?.opening).toBe(true);
  });

  it("tell a lot's latest firmness against the plan's course, above that sample alone", () => {
    const kept = march.season.keeping.get('R2-gala')?.lots.find(({ lot }) => lot.id === 'G4');
    const taken = march.season.plan.samples.get('T07-R2-gala')?.taken?.value ?? 0;
    const softer = (kept?.firmnessOn(taken) ?? 0) - 71.3;
    expect(softer).toBeGreaterThan(0.5);
    expect(title('T07-R2-gala')).toBe(
      `G4: 71 N · ${softer.toFixed(1)} N softer than by the plan's course on ${formatDay(taken)}`,
    );
    expect(title('T04-R2-gala')).toBeUndefined();
    const { lenses } = linesOf('in-march', (text) =>
      text.replace('firmness: 71.3 N', `firmness: ${(71.3 + softer).toFixed(1)} N`),
    );
    expect(lenses.get('T07-R2-gala')?.title).toMatch(/ · as firm as by the plan's course on 2026-12-29$/);
  });

  it('tell above the first packed run what came of all bins of the fill, against what the plan counts on', () => {
    // By hand: one run of 19 bins at 300 kg on 22 September, Gala 62 % and 18 %, 1.2 % lost a month since 4 September.
    const { lenses } = linesOf('in-march', (text) =>
      text.replace(/^ {2}P(?!01-R1-gala).*\n/gm, '').replace('{ first: 190, second: 60 }', '{ first: 190 }'),
    );
    const kept = 1 - (0.012 * 18) / (365.2425 / 12);
    const first = Math.round((19 * 300 * 0.62 * kept) / 18);
    expect(lenses.get('P01-R1-gala')?.title).toBe(
      `19 bins packed of 154 · first: 190 cartons of ${first} expected`,
    );
    expect(title('P01-R1-gala')).toMatch(
      /^154 bins packed of 154 · first: 1,540 cartons of [\d,]+ expected · second: /,
    );
    expect(title('P02-R1-gala')).toBeUndefined();
  });

  it('tell above the first sale what was sold of what was wanted by then', () => {
    expect(title('V041')).toBe('778 cartons sold of 780 wanted by 2027-W09 · 9 cartons short');
    expect(title('V042')).toBeUndefined();
  });

  it('say nothing beside records that name nothing, and expect nothing of a run without its lot', () => {
    const { lenses } = linesOf('in-march', (text) =>
      text
        .replace('lot: G1, fill: R1-gala, day: 2026-09-22', 'fill: R1-gala, day: 2026-09-22')
        .replace('T07-R2-gala: { lot: G4', 'T07-R2-gala: { lot: G99')
        .replace('  R3-golden:\n', '  R9-gala:\n'),
    );
    expect(lenses.get('P01-R1-gala')?.title).toMatch(/^154 bins packed of 154 · first: 1,540 cartons · /);
    expect(lenses.get('T07-R2-gala')).toBeUndefined();
    expect(lenses.get('R9-gala')).toBeUndefined();
  });
});

describe('a room that has been opened', () => {
  const { season } = computed(samplePlan('in-march'));
  const opened = season.plan.progress.get('R2-gala')?.opened?.value ?? 0;
  const emptied = season.plan.progress.get('R1-gala')?.emptied?.value ?? 0;
  const lensOf = (section: 'rooms' | 'fills', id: string) => {
    const at = season.plan[section].get(id)?.at;
    return lensesOf(season, at?.file ?? '').find((lens) => lens.at.start === at?.start);
  };

  it('is told with its day above the fill and the room, and not released once more', () => {
    expect(formatDay(opened)).toBe('2027-01-04');
    expect(lensOf('fills', 'R2-gala')?.title).toContain(`opened ${formatDay(opened)}`);
    expect(lensOf('fills', 'R2-gala')?.title).not.toContain('release');
    expect(lensOf('rooms', 'R2')?.title).toContain(`R2-gala (opened ${formatDay(opened)}`);
    expect(lensOf('rooms', 'R2')?.opening).toBe(true);
    expect(lensOf('fills', 'R1-gala')?.title).toContain(`emptied ${formatDay(emptied)}`);
  });

  it('is told where somebody points at either', () => {
    const told = (section: 'rooms' | 'fills', id: string) =>
      consequencesOf(season, { section, id } as Subject)?.sentences.join(' ');
    expect(told('fills', 'R2-gala')).toContain(`Opened ${formatDay(opened)}`);
    expect(told('fills', 'R2-gala')).not.toContain('The present schedule opens it');
    expect(told('rooms', 'R2')).toContain(`Opened ${formatDay(opened)}`);
  });

  it('and a room that is still shut has none', () => {
    const harvest = computed(samplePlan('mid-harvest')).season;
    const titles = [...harvest.plan.fills.values(), ...harvest.plan.rooms.values()].flatMap(({ at }) =>
      lensesOf(harvest, at.file).filter((lens) => lens.at.start === at.start),
    );
    expect(titles.length).toBeGreaterThan(4);
    for (const { title } of titles) expect(title).not.toMatch(/opened|emptied/);
  });
});
