import { afterEach, describe, expect, it } from 'vitest';
import { formatWeek, parseDay } from '../../src/plan/dates';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { quickRelease } from '../../src/release/quick';
import { cautionInTitle } from '../../src/room/caution';
import {
  type PinsAnswer,
  type ReleaseProblemAnswer,
  requests,
  type TimelineAnswer,
} from '../../src/server/protocol';
import { fillAt, pinsOf, pinTo } from '../../src/server/services/pins';
import { ROOT, TestClient } from './client';
import { caretIn, computed, samplePlan, type TextFile } from './plans';

const first = samplePlan('first-season');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const fruit = first.find(({ path }) => path === 'fruit.lotplan.yaml')?.text ?? '';

describe.each(['first-season', 'full-season', 'us-units'])('pinning the weeks found for %s', (name) => {
  const files = samplePlan(name);
  const { season } = computed(files);
  const pins = pinsOf(season.plan, season.release);
  const after: TextFile[] = files.map(({ path, text }) => ({
    path,
    text: applyEdits(
      text,
      pins.filter(({ file }) => file === path).flatMap(({ edits }) => edits),
    ),
  }));

  it('adds one key to each fill without a pin, and leaves every other byte as it was', () => {
    expect(pins.length).toBeGreaterThan(0);
    for (const { edits, week } of pins) {
      expect(edits.map(({ at }) => at.end - at.start)).toEqual([0]);
      // A line of its own, or behind the last key between braces.
      expect(edits[0]?.newText).toMatch(new RegExp(`^(\\n +|, )open: ${week}$`));
    }
    for (const { path, text } of files) {
      const touched = pins.filter(({ file }) => file === path);
      const lines = (after.find((file) => file.path === path)?.text ?? '').split('\n');
      const kept = lines.filter((line) => !/^ +open: /.test(line) || text.split('\n').includes(line));
      const inLine = touched.filter(({ edits }) => edits[0]?.newText.startsWith(','));
      expect(lines.length - text.split('\n').length).toBe(touched.length - inLine.length);
      const changed = text.split('\n').filter((line, at) => line !== kept[at]);
      expect(changed).toHaveLength(inLine.length);
    }
  });

  it('reads back as the schedule, and has nothing more to pin', () => {
    const plan = readPlan(after);
    for (const { fill, week } of pins) {
      const open = plan.fills.get(fill)?.open?.value;
      expect(open === undefined ? undefined : formatWeek(open)).toBe(week);
    }
    for (const [id, { open }] of season.plan.fills)
      if (open) expect(plan.fills.get(id)?.open?.value).toBe(open.value);
    expect(pinsOf(plan, season.release)).toEqual([]);
  });
});

describe('the fill a place is in', () => {
  const { season } = computed(first);
  it.each([
    ['  R3-gol‸den:', 'R3-golden'],
    ['    room: R‸2', 'R2-gala'],
    ['    seal‸ed: 2026-09-18', 'R2-gala'],
    ['  G‸4: { variety: Gala', undefined],
  ])('%s', (marked, fill) => {
    expect(fillAt(season.plan, caretIn(first, 'fruit.lotplan.yaml', marked))).toBe(fill);
  });
});

describe('in the editor', () => {
  let client: TestClient;
  afterEach(() => client.stop(), 30_000);

  async function started(today?: string) {
    const day = today === undefined ? undefined : parseDay(today);
    const files = new Map(first.map(({ path, text }) => [`${ROOT}/${path}`, text]));
    client = new TestClient(files, day === undefined ? {} : { today: day });
    await client.start();
    client.open(FRUIT, fruit);
    await client.settled();
  }

  /** As an editor applies the edits: last first, so that earlier places stay right. */
  function pinned({ pins }: PinsAnswer, text: string): string {
    const lines = text.split('\n');
    const edits = pins.flatMap((pin) => pin.edits);
    for (const { range, newText } of edits.sort((a, b) => b.range.start.line - a.range.start.line)) {
      expect(range.start).toEqual(range.end);
      const line = lines[range.start.line] ?? '';
      lines[range.start.line] =
        line.slice(0, range.start.character) + newText + line.slice(range.start.character);
    }
    return lines.join('\n');
  }

  async function timeline() {
    return (await client.request<TimelineAnswer>(requests.timeline, { uri: FRUIT })).view;
  }

  async function takeSolved() {
    const params = { uri: FRUIT };
    const { root, problem } = await client.request<ReleaseProblemAnswer>(requests.releaseProblem, params);
    const result = { ...quickRelease(problem, { seed: 7, moves: 500 }), boundRestsOn: 'a linear program' };
    await client.request(requests.releaseResult, { root, problem, result });
    return timeline();
  }

  it('all pins, or those of the fill at the caret, come with the version they hold for', async () => {
    await started();
    const all = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT });
    expect(all.pins.map(({ fill }) => fill).sort()).toEqual(['R1-gala', 'R3-golden', 'R4-braeburn']);
    expect(all.versions).toEqual({ [FRUIT]: 1 });
    expect(all.schedule).toContain('schedule worth');
    const line = fruit.split('\n').indexOf('  R3-golden:');
    const position = { line, character: 4 };
    const one = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT, position });
    expect(one).toMatchObject({ fill: 'R3-golden', pins: [{ fill: 'R3-golden', room: 'R3' }] });
    const named = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT, fill: 'R3-golden' });
    expect(named).toEqual(one);
    const nowhere = { uri: FRUIT, position: { line: 0, character: 0 } };
    expect((await client.request<PinsAnswer>(requests.pins, nowhere)).pins).toEqual([]);
    const done = { uri: FRUIT, fill: 'R2-gala' };
    expect((await client.request<PinsAnswer>(requests.pins, done)).pins).toEqual([]);
  });

  it('pins to weeks that have passed say so: they may not be what happened', async () => {
    await started('2026-12-09');
    const { pins } = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT });
    // 9 December 2026 lies in ISO week 50.
    for (const { week, passed } of pins) expect(passed ?? false).toBe(week < '2026-W50');
    expect(pins.map(({ passed }) => passed ?? false)).toContain(true);
  });

  it('the schedule found outlives its own pins, and their undoing', async () => {
    await started();
    const found = await takeSolved();
    expect(found.scheduleNote).toMatch(/^Release schedule/);
    const weeks = found.rows.map(({ opens }) => opens?.week);
    const answer = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT });
    client.change(FRUIT, pinned(answer, fruit));
    await client.settled();
    const after = await timeline();
    expect(after.rows.map(({ opens }) => opens?.week)).toEqual(weeks);
    expect(after.rows.map(({ opens }) => opens?.pinned)).toEqual(weeks.map(() => true));
    expect(after.scheduleNote).toMatch(/^Release schedule/);
    client.change(FRUIT, fruit);
    await client.settled();
    const undone = await timeline();
    expect(undone.rows.map(({ opens }) => opens)).toEqual(found.rows.map(({ opens }) => opens));
    expect(undone.scheduleNote).toBe(found.scheduleNote);
  });

  it('the schedule found is there again when half-typed text has been mended', async () => {
    await started();
    const found = await takeSolved();
    client.change(FRUIT, fruit.replace('    room: R2\n', '    room: [R2\n'));
    await client.settled();
    expect((await timeline()).scheduleNote).not.toBe(found.scheduleNote);
    client.change(FRUIT, fruit);
    await client.settled();
    expect((await timeline()).scheduleNote).toBe(found.scheduleNote);
  });

  it('a pin to another week than the one found gives another schedule', async () => {
    await started();
    const found = await takeSolved();
    const { pins } = await client.request<PinsAnswer>(requests.pins, { uri: FRUIT, fill: 'R3-golden' });
    const row = found.rows.find(({ key }) => key === 'R3-golden');
    const other =
      row?.window?.bestBefore === row?.opens?.week ? row?.window?.earliest : row?.window?.bestBefore;
    const text = fruit.replace('  R3-golden:\n', `  R3-golden:\n    open: ${found.weeks[other ?? 0]}\n`);
    expect(pins[0]?.week).not.toBe(found.weeks[other ?? 0]);
    client.change(FRUIT, text);
    await client.settled();
    expect((await timeline()).scheduleNote).toMatch(/^Quick schedule/);
  });

  it("a fill without a pin offers the schedule's week as an action, a pinned one does not", async () => {
    await started();
    const titles = async (text: string) => {
      const at = { line: fruit.split('\n').indexOf(text), character: 4 };
      const actions = await client.request<{ title: string; edit?: unknown }[]>('textDocument/codeAction', {
        textDocument: { uri: FRUIT },
        range: { start: at, end: at },
        context: { diagnostics: [] },
      });
      return actions.filter(({ title }) => title.startsWith('Pin'));
    };
    const [offered, ...others] = await titles('  R3-golden:');
    expect(others).toEqual([]);
    expect(offered?.title).toMatch(/^Pin R3-golden to \d{4}-W\d\d, the schedule's week \(/);
    // It sets when a room is opened: whoever reads it reads what comes first.
    expect(offered?.title).toContain(`(${cautionInTitle})`);
    expect(cautionInTitle).toMatch(
      /not leave to enter.*oxygen and carbon dioxide readings.*local codes.*licensed people/,
    );
    expect(offered?.edit).toMatchObject({
      changes: { [FRUIT]: [{ newText: expect.stringMatching(/^\n {4}open: \d{4}-W\d\d$/) }] },
    });
    expect(await titles('  R2-gala:')).toEqual([]);
  });
});

describe("a pin to a week of the planner's choice", () => {
  const plan = readPlan(first);

  it('takes the place of the one a fill has, and nothing else changes', () => {
    const [pin] = pinTo(plan, 'R2-gala', '2027-W05');
    const text = first.find(({ path }) => path === pin?.file)?.text ?? '';
    const after = applyEdits(text, pin?.edits ?? []);
    expect(after).toBe(text.replace('open: 2027-W01', 'open: 2027-W05'));
    expect(readPlan([{ path: 'a', text: after }]).fills.get('R2-gala')?.open).toBeDefined();
  });

  it('is no edit where it is that week already, and none for what is no fill or no week', () => {
    expect(pinTo(plan, 'R2-gala', '2027-W01')).toEqual([]);
    expect(pinTo(plan, 'none', '2027-W05')).toEqual([]);
    expect(pinTo(plan, 'R2-gala', 'next week')).toEqual([]);
  });
});
