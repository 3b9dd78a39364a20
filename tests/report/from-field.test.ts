import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { fruitAccount, valueParts } from '../../src/report/release-account';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { releaseReport as shape } from '../../src/report/schema/release';
import { sampleFiles } from '../samples/sample';

const LOT =
  '  F1: { variety: Gala, picked: 2026-09-18..2026-09-22, bins: 300, packed-at-harvest: 10 days, maturity: { firmness: 73 N } }\n';
const files = sampleFiles('first-season').map(({ path, text }) => ({
  path,
  text: text.replace('  # Gala picked in time for keeping\n', LOT),
}));
const season = computeSeason(readPlan(files), { seed: 1 });

function made() {
  const { release } = season;
  if (!release) throw new Error('no schedule');
  return { ...release, schedule: release.result.schedule };
}

describe('a season with a lot packed at harvest, more of it than can be packed and sold', () => {
  const { problem, result, schedule } = made();
  const report = releaseReport(season, { problem, result }, [], { violations: [], stoppedEarly: false });
  const text = releaseText(report).replace(/\n {2}/g, ' ');

  it('has the published shape, and tells the lot week by week', () => {
    expect(() => shape.parse(report)).not.toThrow();
    const [lot] = report.fromField ?? [];
    expect(lot).toMatchObject({ lot: 'F1', variety: 'Gala', bins: 300, from: '2026-W38', until: '2026-W40' });
    const packed = (lot?.weeks ?? []).reduce((sum, { bins }) => sum + bins, 0);
    expect(packed).toBeGreaterThan(5);
    expect(packed + (lot?.binsToProcessing ?? 0)).toBeCloseTo(300, 1);
    // 22 bins on the Friday of picking, and two weeks of 110 and 110.
    expect(lot?.binsToProcessing).toBeGreaterThan(300 - 22 - 220 - 1);
    for (const { week, bins } of lot?.weeks ?? [])
      expect(report.weeks.find((one) => one.week === week)?.binsFromField).toBeCloseTo(bins, 2);
  });

  it('names it as no room', () => {
    expect(report.rooms.map(({ room }) => room)).toEqual(['R1', 'R2', 'R3', 'R4']);
    expect(report.weeks.flatMap(({ opens }) => opens)).not.toContain('F1');
    expect(report.weeks.flatMap(({ opens }) => opens).join()).not.toContain('field');
    expect(text).toContain('from the field');
    expect(text).toContain('release schedule for 4 rooms');
  });

  it('accounts for all its fruit and its money', () => {
    const { sales, unsold, shortages, waiting, risk, inAir, changes, unevenWork } = valueParts(
      problem,
      schedule,
    );
    const costs = shortages + waiting + risk + inAir + changes + unevenWork;
    expect(sales + unsold - costs).toBeCloseTo(schedule.value, 1);
    const fruit = fruitAccount(season, problem, schedule);
    if (!fruit) throw new Error('no account');
    const { cartonsInRooms, cartonsFromField = 0, cartonsNeverPacked = 0 } = fruit;
    expect(cartonsFromField).toBeCloseTo((300 * 300) / 18, 3);
    expect(cartonsNeverPacked).toBeCloseTo(((report.fromField?.[0]?.binsToProcessing ?? 0) * 300) / 18, 1);
    expect(
      fruit.cartonsSold +
        fruit.cartonsUnsold +
        fruit.cartonsNotPacked +
        fruit.cartonsLeftInRooms +
        cartonsNeverPacked,
    ).toBeCloseTo(cartonsInRooms + cartonsFromField, 1);
    const [, shown = '', ...parts] =
      /worth: (\S+) = (\S+) sold \+ (\S+) packed and unsold \+ (\S+) not packed.*? \+ (\S+) from the field to processing/.exec(
        text,
      ) ?? [];
    const number = (one: string) => Number(one.replaceAll(',', ''));
    expect(parts.map(number).reduce((sum, one) => sum + one, 0)).toBe(number(shown));
  });
});
