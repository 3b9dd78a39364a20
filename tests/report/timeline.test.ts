import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/types';
import { SIMPLE_BOUND_RESTS_ON } from '../../src/release/simple-bound';
import { timelineView } from '../../src/report/timeline';
import { caution } from '../../src/room/caution';
import { aSeason, day, entry, FILE, figure, week } from './timeline-season';

const season = aSeason();
const view = timelineView(season, [], { revision: 7, today: day('2026-09-09') });
const row = (key: string, of = view) => of.rows.find((one) => one.key === key);

describe('the axis', () => {
  test('has the ISO weeks of the season and the months that begin on it', () => {
    expect(view.weeks).toEqual(['2026-W36', '2026-W37', '2026-W38', '2026-W39']);
    // 2026-09-01 is the Tuesday of the first week.
    expect(view.months).toEqual([
      { week: 0, label: 'Aug 2026' },
      { week: 0.143, label: 'Sep' },
    ]);
  });

  test('places today as a fraction: a Wednesday is two days into its week', () => {
    expect(view.today).toBeCloseTo(1 + 2 / 7, 3);
    expect(timelineView(season, [], { revision: 1, today: day('2026-09-28') }).today).toBeUndefined();
  });

  test('spans what fills and windows touch where the season has no dates', () => {
    const undated = aSeason({ plan: { ...season.plan, season: undefined }, release: undefined });
    expect(timelineView(undated, [], { revision: 1 }).weeks).toEqual(view.weeks);
  });
});

describe('a room', () => {
  test('stands in the natural order of names: R2 before R10, rooms that nothing fills among them', () => {
    expect(view.rows.map(({ key }) => key)).toEqual(['room:R1', 'R2-fuji', 'R10-gala']);
    expect(row('room:R1')?.description).toBe('Room R1: nothing fills it in this plan.');
  });

  test('that is filled twice has two rows whose names tell them apart', () => {
    const [first, ...others] = [...season.filled.entries()];
    if (!first) throw new Error('no room is filled');
    const [id, { fill, ...filled }] = first;
    const again = { ...filled, fill: { ...fill, id: `${id}-again` } };
    const twice = aSeason({ filled: new Map([first, [again.fill.id, again], ...others]) });
    const rows = timelineView(twice, [], { revision: 1 }).rows.filter(({ room }) => room !== 'R1');
    const { room } = filled;
    const named = rows.filter(({ key }) => key.startsWith(id));
    expect(named.map((one) => [one.key, one.room, one.cells[0]])).toEqual([
      [id, `${room.id} (${id})`, `${room.id} (${id})`],
      [`${id}-again`, `${room.id} (${id}-again)`, `${room.id} (${id}-again)`],
    ]);
    // The others are called what they are called.
    expect(rows.filter((one) => !named.includes(one)).map((one) => one.room)).toEqual(
      others.map(([, one]) => one.room.id),
    );
  });

  test('is filled from the morning of the first bin to the evening of the last', () => {
    expect(row('R10-gala')?.filling).toEqual({ from: 0.286, to: 1 });
    expect(row('R2-fuji')?.filling).toEqual({ from: 0, to: 0.143 });
  });

  test('is pulled down by nitrogen and then by the fruit: 42 hours are a quarter of a week', () => {
    expect(row('R10-gala')?.pullDown).toEqual({ from: 1, to: 1.25 });
    expect(row('R10-gala')?.keeping).toEqual({ from: 1.25, to: 2 });
  });

  test('kept in air is kept from the day after its last bin', () => {
    const air = row('R2-fuji', timelineView(aSeason({ release: undefined }), [], { revision: 1 }));
    expect(air?.pullDown).toBeUndefined();
    expect(air?.keeping).toEqual({ from: 0.143, to: 4 });
  });

  test('opens in its week and is packed out to the end of the last week with bins', () => {
    expect(row('R10-gala')?.opens).toEqual({
      week: 2,
      pinned: true,
      target: { file: FILE, start: 130, end: 138 },
    });
    expect(row('R10-gala')?.emptying).toEqual({ from: 2, to: 4 });
    expect(row('R2-fuji')?.opens).toEqual({ week: 0, pinned: false, passed: true });
  });

  test('without a schedule opens where the plan pins it, for the days the packhouse needs', () => {
    const pinned = row('R10-gala', timelineView(aSeason({ release: undefined }), [], { revision: 1 }));
    expect(pinned?.opens?.week).toBe(2);
    // Ten days reach into a second week.
    expect(pinned?.emptying).toEqual({ from: 2, to: 4 });
  });

  test('has its window by weeks, and none where keeping knows none', () => {
    expect(row('R10-gala')?.window).toEqual({ earliest: 2, bestBefore: 2, latest: 3 });
    expect(row('R2-fuji')?.window).toBeUndefined();
  });

  test('is told in sentences', () => {
    expect(row('R10-gala')?.description).toBe(
      'Room R10: Gala, Fuji, 100 bins, in gala-ca. Filled 2026-09-02 to 2026-09-06, sealed 2026-09-07. ' +
        'Opening window 2026-W38 to 2026-W39, best before 2026-W38; firmness of lot GA-7 sets the latest. ' +
        'Opens 2026-W38, pinned, and is packed out by 2026-W39.',
    );
  });

  test('that the schedule opens in a week before this one is marked, a pinned one is not', () => {
    const at = view.columns.indexOf('Opens');
    expect(row('R2-fuji')?.description).toContain('Opens 2026-W36 (week has passed)');
    expect(row('R2-fuji')?.cells[at]).toBe('2026-W36 (week has passed)');
    const late = timelineView(season, [], { revision: 1, today: day('2027-03-01') });
    expect(row('R10-gala', late)?.opens?.passed).toBeUndefined();
    // In its own week, on a Sunday too, it has not passed yet.
    const sunday = timelineView(season, [], { revision: 1, today: day('2026-09-06') });
    expect(row('R2-fuji', sunday)?.opens?.passed).toBeUndefined();
  });

  test('that the schedule opens can be pinned to its week, one that is pinned cannot', () => {
    expect(row('R2-fuji')?.pin).toBe('2026-W36');
    expect(row('R10-gala')?.pin).toBeUndefined();
    expect(row('R2-fuji', timelineView(aSeason({ release: undefined }), [], { revision: 1 }))?.pin).toBe(
      undefined,
    );
  });

  test('says when it stays shut though the plan pins it', () => {
    const release = season.release && {
      ...season.release,
      result: {
        ...season.release.result,
        schedule: { ...season.release.result.schedule, opens: [null, 0] },
      },
    };
    const shut = row('R10-gala', timelineView(aSeason({ release }), [], { revision: 1 }));
    expect(shut?.opens).toBeUndefined();
    expect(shut?.description).toContain('Pinned to 2026-W38, which cannot be kept: stays shut');
  });

  test('has a cell for each column', () => {
    // What is looked for first is in sight without scrolling.
    expect(view.columns.slice(0, 6)).toEqual([
      'Room',
      'Variety',
      'Opens',
      'Window from',
      'Best before',
      'Latest',
    ]);
    for (const { cells } of view.rows) expect(cells).toHaveLength(view.columns.length);
    const cells = Object.fromEntries(view.columns.map((name, at) => [name, row('R10-gala')?.cells[at]]));
    expect(cells).toMatchObject({
      Room: 'R10',
      'Window from': '2026-W38',
      Bins: '100',
      Sealed: '2026-09-07',
      Latest: '2026-W39',
      Opens: '2026-W38 (pinned)',
      'Empty by': '2026-W39',
    });
  });

  test('counts the findings that stand in its fill or its room', () => {
    const found = (severity: string, start: number) =>
      ({ severity, at: { file: FILE, start, end: start + 1 } }) as unknown as Finding;
    const findings = [
      found('error', 110),
      found('warning', 310),
      found('warning', 320),
      found('notice', 900),
    ];
    const { rows } = timelineView(season, findings, { revision: 1 });
    const r10 = rows.find(({ key }) => key === 'R10-gala');
    expect(r10?.findings).toEqual({ errors: 1, warnings: 2, notices: 0 });
    expect(r10?.description).toMatch(/1 error, 2 warnings\.$/);
  });
});

describe('demand and supply', () => {
  const [all, fuji, gala] = view.supply;

  test('come for all varieties together, then for each', () => {
    expect(view.supply.map(({ name }) => name)).toEqual(['All varieties', 'Fuji', 'Gala']);
    expect(all?.demand).toEqual([500, 500, 800, 300]);
    expect(all?.supply).toEqual([500, 400, 800, 0]);
    expect(gala?.demand).toEqual([0, 0, 800, 0]);
  });

  test('of a variety in several pack classes stand by class behind it, and add up to it', () => {
    const release = season.release;
    if (!release) throw new Error('no schedule');
    const { problem, result } = release;
    const gala = problem.products.findIndex(({ variety }) => variety === 'Gala');
    const wanted = problem.demands.findIndex(({ product }) => product === gala);
    const one = problem.demands[wanted];
    if (!one) throw new Error('no demand for Gala');
    const half = { ...one, product: problem.products.length, cartons: one.cartons.map((n) => n / 4) };
    const two = {
      ...release,
      problem: {
        ...problem,
        products: [...problem.products, { variety: 'Gala', packClass: 'second' }],
        demands: [...problem.demands, half],
      },
      result: {
        ...result,
        schedule: { ...result.schedule, sold: [...result.schedule.sold, half.cartons.map(() => 0)] },
      },
    };
    const { supply } = timelineView(aSeason({ release: two }), [], { revision: 1 });
    expect(supply.map(({ name }) => name)).toEqual([
      'All varieties',
      'Fuji',
      'Gala',
      `Gala, ${problem.products[gala]?.packClass}`,
      'Gala, second',
    ]);
    const [, , both, first, second] = supply;
    expect(second?.demand).toEqual([0, 0, 200, 0]);
    expect(second?.short).toEqual([2]);
    expect(first?.short).toEqual([]);
    for (const key of ['demand', 'supply'] as const)
      expect(both?.[key]).toEqual(first?.[key].map((n, week) => n + (second?.[key][week] ?? 0)));
  });

  test('say which weeks are short and by how much', () => {
    expect(fuji?.short).toEqual([1, 3]);
    expect(gala?.short).toEqual([]);
    expect(fuji?.description).toBe(
      'Fuji: short by 400 in 2 weeks; most in 2026-W39, 300. ' +
        '1,300 cartons wanted, 900 supplied, 200 to processing. Short weeks: 2026-W37, 2026-W39.',
    );
    expect(gala?.description).toBe('Gala: no week is short. 800 cartons wanted, 800 supplied.');
  });

  test('show what is packed for nobody, which does not make up for what is short', () => {
    expect(fuji?.surplus).toEqual([90, 110, 0, 0]);
    expect(all?.short).toEqual([1, 3]);
  });

  test('without a schedule are demand alone', () => {
    const plan = {
      ...season.plan,
      demand: new Map([
        [
          'fuji',
          {
            ...entry('fuji', 800),
            variety: { value: 'Fuji' },
            packClass: { value: 'first' },
            weeks: { value: { first: week('2026-W37'), last: week('2026-W38') } },
            cartons: figure('cartons/week', 50),
            byWeek: new Map(),
            price: figure('money', 20),
          },
        ],
      ]),
    } as unknown as typeof season.plan;
    const [first] = timelineView(aSeason({ plan, release: undefined }), [], { revision: 1 }).supply;
    expect(first).toMatchObject({ demand: [0, 50, 50, 0], supply: [], short: [] });
    expect(first?.surplus).toBeUndefined();
  });
});

describe('scrubbers', () => {
  test('are those that serve a filled room, with load by week against the limit of the plan', () => {
    expect(view.scrubbers).toHaveLength(1);
    expect(view.scrubbers[0]).toMatchObject({ name: 'S1', share: [0, 80, 95, 40], limit: 90 });
    expect(view.scrubbers[0]?.target).toEqual({ file: FILE, start: 600, end: 605 });
    expect(view.scrubbers[0]?.description).toBe(
      "Scrubber S1, 1 room: highest load 95 % of 50.0 kg/day, in 2026-W38. Above the plan's limit of 90 % in 2026-W38.",
    );
  });
});

describe('the note on the schedule', () => {
  const noteFor = (over: Partial<NonNullable<typeof season.release>['result']>) => {
    const release = season.release && { ...season.release, result: { ...season.release.result, ...over } };
    return timelineView(aSeason({ release }), [], { revision: 1 }).scheduleNote;
  };

  test('gives its value and its distance from a proven bound', () => {
    expect(noteFor({})).toBe('Release schedule worth EUR 12,345, within 2.0 % of a proven bound.');
  });

  test('says once how many rooms it opens in weeks that have passed', () => {
    expect(view.scheduleNote).toMatch(
      / One room is scheduled in a week that has passed: pin what really happened\.$/,
    );
    const filled = new Map(
      [...season.filled].map(([id, one]) => {
        return [id, { ...one, fill: { ...one.fill, open: undefined } }];
      }),
    );
    const { problem, result } = season.release ?? {};
    if (!problem || !result) throw new Error('the season has a schedule');
    const rooms = problem.rooms.map((one) => ({ ...one, pinned: null }));
    const release = { problem: { ...problem, rooms }, result };
    const unpinned = aSeason({ filled, release });
    const later = timelineView(unpinned, [], { revision: 1, today: day('2026-11-25') });
    expect(later.scheduleNote).toContain('2 rooms are scheduled in weeks that have passed');
  });

  test('tells a quick schedule, a proven one, one without a bound, and conflicts', () => {
    expect(noteFor({ boundRestsOn: SIMPLE_BOUND_RESTS_ON })).toMatch(/^Quick schedule worth .*searches/);
    expect(noteFor({ provenOptimal: true })).toContain('proven to be the most that any is worth');
    expect(noteFor({ bound: Number.POSITIVE_INFINITY, gap: Number.POSITIVE_INFINITY })).toContain(
      'no proven bound',
    );
    expect(noteFor({ conflicts: ['R1 is pinned too late.', 'R2 too.'] })).toContain(
      '2 rooms must stay shut; the first: R1 is pinned too late.',
    );
  });

  test('says so where there is no schedule', () => {
    expect(timelineView(aSeason({ release: undefined }), [], { revision: 1 }).scheduleNote).toMatch(
      /^No release schedule/,
    );
  });
});

describe('a plan with nothing to draw', () => {
  const emptied = (over: Parameters<typeof aSeason>[0]) => timelineView(aSeason(over), [], { revision: 1 });

  test('says why, and what to write', () => {
    const bare = { ...season.plan, rooms: new Map(), fills: new Map() };
    expect(emptied({ plan: bare, filled: new Map() }).empty).toContain('no rooms yet');
    expect(emptied({ plan: { ...season.plan, fills: new Map() }, filled: new Map() }).empty).toContain(
      'No room is filled',
    );
    expect(emptied({ filled: new Map() }).empty).toContain('No fill names a room');
    expect(view.empty).toBeUndefined();
  });

  test('still carries the caution', () => {
    expect(emptied({ filled: new Map() }).caution).toBe(caution);
    expect(view.caution).toBe(caution);
  });
});

test('the model is plain data, and says which plan its revision counts for', () => {
  const named = timelineView(season, [], { revision: 7, plan: 'folder#1' });
  expect(JSON.parse(JSON.stringify(named))).toEqual(named);
  expect(named).toMatchObject({ plan: 'folder#1', revision: 7 });
});
