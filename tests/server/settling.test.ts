import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { PlanSession, type Snapshot } from '../../src/server/plan-session';
import { sampleFiles } from '../samples/sample';

/** A session whose clock goes on a millisecond each time it is looked at, so that a slice is a few steps. */
function open(files: { path: string; text: string }[]) {
  let clock = 0;
  let due: (() => void) | undefined;
  const told: Snapshot[] = [];
  const session = new PlanSession(
    {
      files: () => files,
      severities: () => new Map(),
      later: (_, work) => {
        due = work;
        return () => {
          due = undefined;
        };
      },
      now: () => clock++,
      computed: (snapshot) => told.push(snapshot),
    },
    { idle: 0 },
  );
  /** The next slice; false where there is nothing left to do. */
  const slice = () => {
    const work = due;
    due = undefined;
    work?.();
    return work !== undefined;
  };
  return { session, told, slice };
}

const files = () => sampleFiles('first-season').map((file) => ({ ...file }));

function replaced(all: { path: string; text: string }[], from: RegExp, to: string): void {
  const file = all.find(({ text }) => from.test(text));
  if (!file) throw new Error(`no file has ${from}`);
  file.text = file.text.replace(from, to);
}

function atOnce(all: readonly { readonly path: string; readonly text: string }[]) {
  const season = computeSeason(readPlan(all), { courses: true });
  return { schedule: season.release?.result.schedule, messages: messagesOf(findingsOf(season)) };
}

function messagesOf(findings: Snapshot['findings']): string[] {
  return findings.map(({ code, message, at }) => `${at.file}:${at.start} ${code}: ${message}`);
}

describe('the findings of an edit', () => {
  it('are found in slices, and dropped for those of the next edit', () => {
    const all = files();
    const { session, slice, told } = open(all);
    session.edited();
    while (slice());
    const before = told.length;
    for (const day of ['10-01', '10-02', '10-03']) {
      replaced(all, /sealed: 2026-\d\d-\d\d/, `sealed: 2026-${day}`);
      session.edited();
      slice();
      slice();
    }
    expect(told.length).toBe(before);
    expect(session.latestSeason()).toBe(told.at(-1)?.season);
    while (told.length === before) slice();
    const { release, courses } = told[before - 1]?.season ?? {};
    const plan = readPlan(all);
    const season = { ...computeSeason(plan, { release: release ?? 'none', ...(courses && { courses }) }) };
    expect(messagesOf(told[before]?.findings ?? [])).toEqual(messagesOf(findingsOf(season)));
  });
});

describe('what can wait for the findings of an edit', () => {
  it('gets those of the newest text, without holding up the next key', async () => {
    const all = files();
    const { session, slice } = open(all);
    session.edited();
    while (slice());
    const asked: Promise<Snapshot>[] = [];
    for (const day of ['10-01', '10-02']) {
      replaced(all, /sealed: 2026-\d\d-\d\d/, `sealed: 2026-${day}`);
      session.edited();
      asked.push(session.soon());
      slice();
    }
    expect(session.latestSeason()?.plan).not.toBe(session.plan());
    while (slice());
    for (const answer of await Promise.all(asked)) expect(answer.plan).toBe(session.plan());
    expect((await session.soon()).plan).toBe(session.plan());
  });
});

describe('what settles after an edit', () => {
  it('comes to the same in slices as at once, and till then the last answer stands as an older one', () => {
    const all = files();
    const { session, slice, told } = open(all);
    session.edited();
    let slices = 0;
    while (slice()) {
      slices++;
      expect(session.snapshot()).toBe(told.at(-1));
    }
    expect(slices).toBeGreaterThan(10);
    expect(told.map(({ isSettled }) => isSettled).indexOf(true)).toBe(told.length - 1);
    const settled = session.snapshot();
    const { schedule, messages } = atOnce(all);
    expect(settled.season.release?.result.schedule).toEqual(schedule);
    expect(messagesOf(settled.findings)).toEqual(messages);
  });

  it('is dropped when an edit comes between, and found for the edited plan', async () => {
    const all = files();
    const { session, slice, told } = open(all);
    session.edited();
    const asked = session.settledSoon();
    for (let count = 0; count < 8; count++) slice();
    expect(told.some(({ isSettled }) => isSettled)).toBe(false);
    replaced(all, /sealed: 2026-09-(\d\d)/, 'sealed: 2026-10-$1');
    session.edited();
    while (slice());
    const settled = await asked;
    expect(settled.isSettled).toBe(true);
    const { schedule, messages } = atOnce(all);
    expect(settled.season.release?.result.schedule).toEqual(schedule);
    expect(messagesOf(settled.findings)).toEqual(messages);
  });

  it('keeps the courses of rooms for which nothing differs', () => {
    const all = files();
    const { session, slice } = open(all);
    session.edited();
    while (slice());
    const before = session.snapshot().season.courses;
    replaced(all, /sealed: 2026-09-(\d\d)/, 'sealed: 2026-10-$1');
    session.edited();
    while (slice());
    const after = session.snapshot().season.courses;
    const fresh = computeSeason(readPlan(all), { courses: true }).courses;
    const levels = (courses: typeof after) =>
      [...(courses?.courses ?? [])].map(([fill, { course }]) => [fill, course.points]);
    expect(after).not.toBe(before);
    expect(levels(after)).toEqual(levels(fresh));
  });
});
