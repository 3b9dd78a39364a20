import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

/** What is found of a kind in the first season, after some of its text was written otherwise. */
function found(code: string, ...changes: readonly (readonly [was: string, now: string])[]): string[] {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [was, now]) => all.replace(was, now), text),
  }));
  return findingsOf(computeSeason(readPlan(files)))
    .filter((finding) => finding.code === code)
    .map(({ message }) => message);
}

const STARTS = 'starts: 2026-08-31';
const ENDS = 'ends: 2027-04-25';

describe('cures where dates are wrong', () => {
  // The year of the season was typed wrong: no lot, regime or haste would give these rooms a week.
  test('of a season that begins too late, the day by which it must begin', () => {
    const empty = found('window-empty', [STARTS, 'starts: 2028-08-31'], [ENDS, 'ends: 2029-04-25']);
    expect(empty).toHaveLength(4);
    expect(empty[0]).toContain(
      'Correct the dates of the season, 2028-08-31 to 2029-04-25: for this room it must begin by 2026-10-11.',
    );
    expect(empty.join(' ')).not.toContain('Take the weakest lot out');
    expect(found('window-empty', [STARTS, 'starts: 2026-10-11'])).toEqual([]);
  });

  test('of a season that ends too soon, the day to which it must go on', () => {
    const [first] = found('window-empty', [ENDS, 'ends: 2026-10-04']);
    const until = /it must go on to (\d{4}-\d\d-\d\d)\./.exec(first ?? '')?.[1];
    expect(until).toBeDefined();
    const after = found('window-empty', [ENDS, `ends: ${until}`]);
    expect(after.some((message) => message.startsWith('R1-gala'))).toBe(false);
  });

  // A year that no season has: one figure of it was typed wrong.
  test('of a season that is longer than can be planned, the last day that it may have', () => {
    const [long, ...more] = found('season-too-long', [ENDS, 'ends: 9999-06-27']);
    expect(more).toEqual([]);
    expect(long).toContain('it may be 156 weeks long, three years');
    const until = /End it by (\d{4}-\d\d-\d\d)\./.exec(long ?? '')?.[1];
    expect(until).toBe('2029-08-26');
    expect(found('no-release-problem', [ENDS, `ends: ${until}`])).toEqual([]);
    expect(found('season-too-long', [ENDS, 'ends: 2029-08-27'])).toHaveLength(1);
  });

  // Two of the three years are computed for nothing: the next harvest has rooms and lots of its own.
  test('of a season of three years, the day in the year of its one harvest', () => {
    const [long, ...more] = found('season-too-long', [ENDS, 'ends: 2029-04-25']);
    expect(more).toEqual([]);
    expect(long).toContain('The season has 139 weeks, 2026-08-31 to 2029-04-25.');
    expect(long).toContain('A plan is of one harvest');
    expect(long).toContain('End it for example on 2027-04-25.');
    // To the end of the next year's harvest, while the last fruit of this one is sold.
    expect(found('season-too-long', [ENDS, 'ends: 2027-11-28'])).toEqual([]);
    expect(found('season-too-long', [ENDS, 'ends: 2027-11-29'])).toHaveLength(1);
  });

  test('a pin of a room without a week is not sent to another week', () => {
    const [pin] = found('pin-outside-window', [STARTS, 'starts: 2028-08-31'], [ENDS, 'ends: 2029-04-25']);
    expect(pin).toContain('its opening window has no week at all');
    expect(pin).not.toContain('Move the pin');
  });
});

describe('fixes of a day outside the season', () => {
  const fixed = (...changes: readonly (readonly [was: string, now: string])[]) => {
    const files = sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: changes.reduce((all, [was, now]) => all.replace(was, now), text),
    }));
    const outside = (now: typeof files) =>
      findingsOf(computeSeason(readPlan(now))).filter(({ code }) => code === 'outside-season');
    const named = (message: string) => message.replace(/ (?:on|is picked) .*/, '');
    return outside(files).map(({ message, fixes }) => {
      const [fix, ...others] = fixes;
      expect(others).toEqual([]);
      if (!fix) return [named(message)];
      const mended = files.map(({ path, text }) => ({
        path,
        text: path === fix.edits[0]?.at.file ? applyEdits(text, fix.edits) : text,
      }));
      expect(outside(mended).map((one) => named(one.message))).not.toContain(named(message));
      return [named(message), fix.title];
    });
  };

  test('write the year in which it lies in the season', () => {
    expect(fixed(['sealed: 2026-09-18', 'sealed: 2027-09-18'])).toEqual([
      ['R2-gala: sealing', 'Change to 2026-09-18'],
    ]);
    expect(fixed(['picked: 2026-09-08..2026-09-10', 'picked: 2062-09-08..2062-09-10'])).toEqual([
      ['Lot G4', 'Change to 2026-09-08..2026-09-10'],
    ]);
    // In January of the season's second year.
    expect(fixed(['sealed: 2026-10-16', 'sealed: 2026-01-16'])).toEqual([
      ['R4-braeburn: sealing', 'Change to 2027-01-16'],
    ]);
  });

  test('let the season reach to it where it is nearest as it is', () => {
    expect(fixed(['picked: 2026-09-02..2026-09-04', 'picked: 2026-08-28..2026-09-04'])).toEqual([
      ['Lot G1', 'Let the season start on 2026-08-28'],
    ]);
    expect(fixed([ENDS, 'ends: 2026-10-12'])).toContainEqual([
      'R4-braeburn: sealing',
      'Let the season go on to 2026-10-16',
    ]);
  });

  // The end of May is nearer to a season's end in April than to its beginning; no other year has a 29 February.
  test('are none where neither is likely', () => {
    expect(fixed(['picked: 2026-09-02..2026-09-04', 'picked: 2026-05-28..2026-09-04'])).toEqual([['Lot G1']]);
    expect(fixed(['picked: 2026-09-02..2026-09-04', 'picked: 2028-02-29..2028-03-01'])).toEqual([['Lot G1']]);
    // A season of the wrong year has everything outside it: nothing of that is to be corrected.
    const all = fixed([STARTS, 'starts: 2028-08-31'], [ENDS, 'ends: 2029-04-25']);
    expect(all.length).toBeGreaterThan(15);
    expect(all.filter((one) => one.length > 1)).toEqual([]);
  });

  test('correct nothing that is on record', () => {
    const recorded: readonly [string, string] = [
      'fills:\n',
      'progress:\n  R2-gala: { sealed: 2027-09-18 }\nfills:\n',
    ];
    expect(fixed(recorded)).toEqual([['R2-gala: sealing']]);
  });
});

describe('an order outside the season', () => {
  const WEEKS = 'weeks: 2027-W08..2027-W14';
  const outside = (weeks: string, ...changes: readonly (readonly [was: string, now: string])[]) => {
    const files = sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: [[WEEKS, weeks] as const, ...changes].reduce((all, [was, now]) => all.replace(was, now), text),
    }));
    return findingsOf(computeSeason(readPlan(files)))
      .filter(({ code, message }) => code === 'outside-season' && message.startsWith('braeburn-spring'))
      .map(({ message, fixes }) => [message, ...fixes.map(({ title }) => title)]);
  };

  test('of another year is told with its cartons, and the year that was meant', () => {
    expect(outside('weeks: 2029-W08..2029-W14')).toEqual([
      [
        'braeburn-spring wants 2,730 cartons in 2029-W08..2029-W14, outside the season (2026-08-31 to 2027-04-25): they are not counted. Correct the weeks, or let the season go on to 2029-04-08.',
        'Change to 2027-W08..2027-W14',
      ],
    ]);
    expect(outside('weeks: 2025-W49')[0]?.[1]).toBe('Change to 2026-W49');
  });

  test('of which the season has a part is told with the weeks that it lacks', () => {
    expect(outside('weeks: 2027-W15..2027-W20')).toEqual([
      [
        'braeburn-spring wants 1,560 cartons of 2,340 cartons in 2027-W17..2027-W20, outside the season (2026-08-31 to 2027-04-25): they are not counted. Correct the weeks, or let the season go on to 2027-05-23.',
        'Let the season go on to 2027-05-23',
      ],
    ]);
    const [both] = outside('weeks: 2026-W35..2027-W40');
    expect(both).toEqual([expect.stringContaining('in 2026-W35 and 2027-W17..2027-W40, outside the season')]);
    expect(outside('weeks: 2027-W08..2027-W16')).toEqual([]);
  });

  test('counts the cartons of weeks that have their own', () => {
    const block = outside('weeks: 2027-W15..2027-W20\n    by-week: { 2027-W17: 0, 2027-W18: 90 }');
    expect(block[0]?.[0]).toContain('wants 870 cartons of 1,650 cartons in 2027-W17..2027-W20');
    expect(outside('weeks: 2027-W17\n    by-week: { 2027-W17: 0 }')).toEqual([]);
  });

  test('has no year to correct where the season has the wrong one', () => {
    const all = outside(WEEKS, [STARTS, 'starts: 2028-08-31'], [ENDS, 'ends: 2029-04-25']);
    expect(all).toHaveLength(1);
    expect(all[0]).toHaveLength(1);
  });
});

describe('the smallest change where days cannot follow one another', () => {
  const order = (...changes: Parameters<typeof found>[1][]) => found('dates-out-of-order', ...changes);

  test('is told of the last bin, the seal, a lot and the season', () => {
    expect(order(['last-bin: 2026-09-16', 'last-bin: 2026-09-06'])[0]).toContain(
      'Correct one of them: the last comes in on 2026-09-08 or later, or the first on 2026-09-06 or sooner.',
    );
    expect(order(['sealed: 2026-09-18', 'sealed: 2026-09-14'])[0]).toContain(
      'Seal it on 2026-09-16 or later, or have the last bin in by 2026-09-14.',
    );
    expect(order(['picked: 2026-09-14..2026-09-16', 'picked: 2026-09-19..2026-09-21'])[0]).toContain(
      'Move `last-bin` to 2026-09-19 or later, or put the lot into another fill.',
    );
    expect(order([ENDS, 'ends: 2026-04-25'])[0]).toContain(
      'let it end after 2026-08-31, or start before 2026-04-25.',
    );
  });

  test('of a lot picked outside the season is the day the season must reach', () => {
    expect(found('outside-season', [STARTS, 'starts: 2026-09-03'])[0]).toContain(
      'Correct the date, or let the season start by 2026-09-02.',
    );
    expect(found('outside-season', [ENDS, 'ends: 2026-10-10']).join(' ')).toContain(
      'Correct the date, or let the season go on to 2026-10-12.',
    );
  });

  test('is a fix in the text, but never of what is on record', () => {
    const fixes = (name: string) =>
      findingsOf(
        computeSeason(
          readPlan(
            sampleFiles(name).map(({ path, text }) => ({
              path,
              text: text.replaceAll('last-bin: 2026-09-16', 'last-bin: 2026-09-06'),
            })),
          ),
        ),
      )
        .filter(({ code }) => code === 'dates-out-of-order')
        .map((finding) => finding.fixes.map(({ title }) => title));
    expect(fixes('first-season')).toEqual([['Swap the two days']]);
    expect(fixes('in-march').flat()).toEqual([]);
  });
});

describe('why there is no schedule', () => {
  const why = (...changes: Parameters<typeof found>[1][]) => found('no-release-problem', ...changes);

  test('is what cannot be read, not what the rooms have', () => {
    expect(why(['bins-a-week: 110', 'bins-a-week: many'])).toEqual([
      'No release schedule can be computed yet: `packing` has no `bins-a-week` that can be read.',
    ]);
    expect(why(['carton: 18 kg', 'carton: 18 m'])[0]).toContain('`season` has no `carton` that can be read.');
    expect(why([ENDS, 'ends: 2026-04-25'])[0]).toContain(
      '`season` ends on 2026-04-25, before it starts on 2026-08-31.',
    );
    expect(why([ENDS, 'ends: 2036-04-25'])[0]).toContain(
      '`season` goes on to 2036-04-25 and may be 156 weeks long, to 2029-08-26.',
    );
  });

  test('is the packout or the orders, where those are what is missing', () => {
    const packout = why(
      ['Gala: { shares:', 'Gala: { share:'],
      ['Golden Delicious: { shares:', 'Golden Delicious: { share:'],
      ['Braeburn: { shares:', 'Braeburn: { share:'],
    );
    expect(packout[0]).toContain('R1-gala and R2-gala: no packout of Gala; R3-golden: no packout of Golden');
    const seasonOff = why([STARTS, 'starts: 2028-08-31'], [ENDS, 'ends: 2029-04-25']);
    expect(seasonOff[0]).toContain(
      'no order under `demand` wants cartons within the season (2028-08-31 to 2029-04-25).',
    );
  });
});
