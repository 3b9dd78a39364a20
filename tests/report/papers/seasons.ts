import fs from 'node:fs';
import path from 'node:path';
import { computeSeason } from '../../../src/findings/compute';
import type { ComputedSeason } from '../../../src/findings/types';
import { parseDay } from '../../../src/plan/dates';
import { readPlan } from '../../../src/plan/read';
import type { SeasonAccount } from '../../../src/report/papers/account';
import type { Paper, Reader } from '../../../src/report/papers/paper';
import { papersFor } from '../../../src/report/papers/papers';
import { type AccountOptions, seasonAccount } from '../../../src/report/papers/season-account';

export const root = path.resolve(__dirname, '../../..');
export const SAMPLES = ['first-season', 'us-units', 'full-season', 'with-mistakes'] as const;

/** Day of an ISO date. */
export function on(text: string): number {
  const day = parseDay(text);
  if (day === undefined) throw new Error(`no day: ${text}`);
  return day;
}

export function sampleFiles(name: string): { path: string; text: string }[] {
  const folder = path.join(root, 'sample-plans', name);
  return fs
    .readdirSync(folder, { recursive: true })
    .map(String)
    .filter((file) => file.endsWith('.lotplan.yaml'))
    .sort()
    .map((file) => ({ path: file, text: fs.readFileSync(path.join(folder, file), 'utf8') }));
}

const seasons = new Map<string, ComputedSeason>();

/** A sample's season, with its text changed where asked for. */
export function seasonOf(name: string, change: readonly [from: string, to: string][] = []): ComputedSeason {
  const key = JSON.stringify([name, change]);
  const known = seasons.get(key);
  if (known) return known;
  const files = sampleFiles(name).map((file) => ({
    ...file,
    text: change.reduce((text, [from, to]) => text.replace(from, to), file.text),
  }));
  const season = computeSeason(readPlan(files), { release: 'quick', seed: 1, courses: true });
  seasons.set(key, season);
  return season;
}

export function accountOf(
  name: string,
  options: AccountOptions = {},
  change: readonly [from: string, to: string][] = [],
): SeasonAccount {
  return seasonAccount(seasonOf(name, change), options);
}

export function paperOf(account: SeasonAccount, reader: Reader): Paper {
  const [paper] = papersFor(account, reader);
  if (!paper) throw new Error(`no paper for ${reader}`);
  return paper;
}
