import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import type { LearnReport } from '../../src/report/schemas';
import { lotwright, root } from '../cli/in-process';
import { LOGGED } from '../generate/logger-records';
import { sampleFiles } from './sample';

async function learned(...words: string[]): Promise<{ report: LearnReport; text: string }> {
  const command = ['learn', 'sample-plans/in-march', ...words];
  const { out } = await lotwright([...command, '--format', 'json']);
  return { report: JSON.parse(out), text: (await lotwright(command)).out };
}

describe('the hours that a logger wrote down in the sample season', () => {
  it('teach how the rooms breathe and leak, within limits that hold what the room was made with', async () => {
    const { report } = await learned();
    const season = computeSeason(readPlan(sampleFiles('in-march')), { release: 'none' });
    for (const { room, truth } of LOGGED) {
      const filled = [...season.filled.values()].find((one) => one.room.id === room);
      const of = (id: string) => report.lessons.find((lesson) => lesson.id === id)?.values[0]?.fitted;
      const [share, leak] = [of(`respiration/${filled?.fill.id}`), of(`leakage/${room}`)];
      // What the tool reckons for this fruit, in % of the room's gas an hour: the simulation has a rate of its own.
      const reference = (100 * (filled?.oxygenUse?.value ?? 0) * truth.quotient) / truth.gasVolumeM3;
      const made = (truth.share * truth.referenceRate) / reference;
      expect(share?.low.value, room).toBeLessThan(made);
      expect(share?.high.value, room).toBeGreaterThan(made);
      expect(leak?.low.value, room).toBeLessThan(truth.exchange * truth.gasVolumeM3);
      expect(leak?.high.value, room).toBeGreaterThan(truth.exchange * truth.gasVolumeM3);
    }
    expect(report.lessons.find(({ id }) => id === 'respiration/R2-gala')?.values[0]?.told).toBe(true);
  });

  it('are told with as many decimals as it takes to see which side of a limit the plan is on', async () => {
    const { report, text } = await learned('--of', 'leakage/R4');
    const { before, fitted, told } = report.lessons[0]?.values[0] ?? {};
    const row = /^leakage\/R4 .* ([\d.]+) m³\/h +[\d.]+ m³\/h +([\d.]+) to ([\d.]+)/m.exec(text);
    const [plan, low, high] = (row?.slice(1) ?? []).map(Number);
    expect(told).toBe((before?.value ?? 0) > (fitted?.high.value ?? 0));
    expect((plan ?? 0) > (high ?? 0)).toBe(told);
    expect(low).toBeCloseTo(fitted?.low.value ?? 0, 2);
    expect(report.lessons[0]?.series.map(({ name }) => name)).toEqual([
      'change of oxygen at rest, points a day',
    ]);
  });

  it('are told of as the README shows it', async () => {
    const readme = readFileSync(path.join(root, 'README.md'), 'utf8');
    const block = /^\$ lotwright learn (.*)\n([\s\S]*?)^```$/m.exec(readme);
    const { out } = await lotwright(['learn', ...(block?.[1] ?? '').split(' ')]);
    const lines = (block?.[2] ?? '').split('\n').filter((line) => line !== '' && line !== '...');
    expect(lines.length).toBeGreaterThan(4);
    for (const line of lines) expect(out.split('\n')).toContain(line);
  });
});
