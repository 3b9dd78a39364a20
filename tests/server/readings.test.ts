import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { type RoomCardAnswer, requests } from '../../src/server/protocol';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const first = samplePlan('first-season');
const csv = readFileSync(path.resolve(__dirname, '../../sample-plans/first-season/readings.csv'), 'utf8');
const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const PLAN = `${ROOT}/orrowby.lotplan.yaml`;
const CSV = `${ROOT}/readings.csv`;

describe('what was read in a room', () => {
  let client: TestClient | undefined;
  afterEach(() => client?.stop());

  async function start(readings: string | undefined): Promise<TestClient> {
    const files = new Map(first.map(({ path: name, text }) => [`${ROOT}/${name}`, text]));
    if (readings !== undefined) files.set(CSV, readings);
    client = new TestClient(files);
    await client.start();
    return client;
  }
  async function card(of: TestClient, key: string) {
    const answer: RoomCardAnswer = await of.connection.sendRequest(requests.roomCard, { uri: FRUIT, key });
    return answer.card;
  }
  const readOf = (charts: RoomCardAnswer['card']['charts'], look: string) =>
    charts.flatMap(({ lines }) => lines).find((line) => line.look === look)?.values;

  it("is laid over its card's charts, day by day, and the chart says how far apart they are", async () => {
    const of = await start(csv);
    const { charts, days } = await card(of, 'R2-gala');
    const oxygen = readOf(charts, 'oxygen-read') ?? [];
    expect(oxygen).toHaveLength(days.length);
    // The analyser was out from 16 to 19 October.
    expect(oxygen[days.indexOf('2026-10-15')]).toBeGreaterThan(1);
    expect(oxygen[days.indexOf('2026-10-16')]).toBeNull();
    expect(oxygen[days.indexOf('2026-10-20')]).toBeGreaterThan(1);
    const gas = charts.find(({ id }) => id === 'gas');
    expect(gas?.description).toMatch(
      /Oxygen read lies 0\.\d\d % above what is computed, on average of \d+ days\./,
    );
    expect(readOf(charts, 'room-read')).toHaveLength(days.length);
  });

  it('is among its findings where it is not as expected, with what to look at first', async () => {
    const of = await start(csv);
    const [first] = (await card(of, 'R3-golden')).findings;
    expect(first).toMatchObject({ severity: 'warning', code: 'oxygen-high' });
    expect(first?.message).toMatch(/too high.* Since 2026-11-1\d 00:00\. First: Run calibration gas/);
    // The analyser that reads a little high from the first day is no finding.
    const codes = (await card(of, 'R2-gala')).findings.map(({ code }) => code);
    expect(codes).not.toContain('oxygen-high');
  });

  it('is left out where the file is not there, and nothing else is lost', async () => {
    const of = await start(undefined);
    const { charts } = await card(of, 'R2-gala');
    expect(charts.map(({ id }) => id)).toEqual(['gas', 'temperature', 'cooling', 'weight']);
    expect(readOf(charts, 'oxygen-read')).toBeUndefined();
  });

  it('is a finding of the plan, told again when the file grows, and of which then only the new rows are read', async () => {
    const rows = csv.trimEnd().split('\n');
    const until = (day: string) => `${rows.filter((row, at) => at === 0 || row < day).join('\n')}\n`;
    const of = await start(until('2026-11-18'));
    const codes = () => of.codes(FRUIT);
    await of.until('the gap', () => codes().includes('record-gap'));
    await of.settled();
    expect(codes()).not.toContain('oxygen-high');
    const before = of.grown.reduce((sum, { letters }) => sum + letters, 0);
    expect(before).toBe(until('2026-11-18').length);
    of.writeFile(CSV, csv);
    await of.until('the oxygen', () => codes().includes('oxygen-high'));
    const after = of.grown.reduce((sum, { letters }) => sum + letters, 0);
    expect(after - before).toBe(csv.length - before);
    const found = of.diagnostics(FRUIT).find(({ code }) => code === 'oxygen-high');
    expect(found?.message).toMatch(
      /^R3: Oxygen is up to 0\.\d\d points too high.* Since 2026-11-1\d 00:00\. Likely/,
    );
    expect(found?.message).toMatch(
      /\(1\) Air leaks in.* Check first: Run calibration gas .* Sealed rooms kill/,
    );
    expect(found?.codeDescription?.href).toBe('file:///lotwright/pages/oxygen-high.md');
    expect(found?.relatedInformation?.map(({ location }) => location.uri)).toEqual([PLAN, CSV]);
    // Lines that come above the entry in the plan are no reason to fetch anything.
    const times = of.grown.length;
    of.open(PLAN, of.files.get(PLAN) ?? '');
    of.change(PLAN, `# the plan\n${of.files.get(PLAN) ?? ''}`);
    await of.settled();
    expect(of.grown.length).toBe(times);
    expect(codes()).toContain('oxygen-high');
  });

  it('follows the plan and the file: allowed, gone with its entry, and told where the file is missing', async () => {
    const of = await start(csv);
    const codes = () => of.codes(FRUIT);
    const fruit = of.files.get(FRUIT) ?? '';
    const plan = of.files.get(PLAN) ?? '';
    await of.until('the oxygen', () => codes().includes('oxygen-high'));
    const allowed = fruit.replace(
      /^( +)(R3-golden:)/m,
      '$1# lotwright: allow oxygen-high -- the analyser is being changed\n$1$2',
    );
    of.open(FRUIT, fruit);
    of.change(FRUIT, allowed);
    await of.until('it is allowed', () => !codes().includes('oxygen-high'));
    of.change(FRUIT, fruit);
    await of.until('it is told again', () => codes().includes('oxygen-high'));
    of.writeFile(CSV, undefined);
    await of.until('the file is missed', () => of.codes(PLAN).includes('readings-not-read'));
    await of.until('nothing is seen', () => !codes().includes('oxygen-high'));
    of.writeFile(CSV, csv);
    await of.until('it is seen again', () => codes().includes('oxygen-high'));
    await of.until('it is missed no more', () => !of.codes(PLAN).includes('readings-not-read'));
    of.open(PLAN, plan);
    of.change(PLAN, plan.replace(/^readings:\n(?: .*\n)*/m, ''));
    await of.until('no readings, no sightings', () => !codes().includes('oxygen-high'));
  });
});
