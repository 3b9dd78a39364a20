import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { fruitAccount, stockByWeek, valueParts } from '../../src/report/release-account';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { sampleFiles } from '../samples/sample';

const seasons = ['first-season', 'full-season'].map((name) => {
  const season = computeSeason(readPlan(sampleFiles(name)), { seed: 1 });
  if (!season.release) throw new Error('the sample has a schedule');
  return { name, season, problem: season.release.problem, schedule: season.release.result.schedule };
});

describe.each(seasons)('$name', ({ season, problem, schedule }) => {
  test('gains less costs are the value', () => {
    const { sales, unsold, shortages, waiting, risk, changes } = valueParts(problem, schedule);
    expect(sales + unsold - shortages - waiting - risk - changes).toBeCloseTo(schedule.value, 1);
  });

  test('sold, unsold, not packed and left in rooms are all fruit in the rooms', () => {
    const fruit = fruitAccount(season, problem, schedule);
    if (!fruit) throw new Error('the sample tells its fruit');
    const { cartonsInRooms, cartonsSold, cartonsUnsold, cartonsNotPacked, cartonsLeftInRooms } = fruit;
    expect(cartonsSold + cartonsUnsold + cartonsNotPacked + cartonsLeftInRooms).toBeCloseTo(
      cartonsInRooms,
      1,
    );
    const kilograms = problem.rooms.flatMap(({ fill }) => season.filled.get(fill)?.fruit?.value ?? []);
    const tonnes = kilograms.reduce((sum, one) => sum + one, 0);
    const carton = season.plan.season?.cartonMass?.value ?? 0;
    expect(cartonsInRooms).toBeCloseTo((tonnes * 1000) / carton, 1);
    // Packout is under 85 % of the fruit in both samples, and storage takes some more.
    expect(cartonsNotPacked).toBeGreaterThan(0.15 * cartonsInRooms);
  });

  test('stock is what is packed so far, less what is sold and what stays unsold', () => {
    const stock = stockByWeek(problem, schedule);
    expect(Math.min(...stock)).toBeGreaterThanOrEqual(0);
    expect(stock.at(-1)).toBeCloseTo(0, 3);
    // No carton is sold that is not there: what is sold in a week was in stock the week before or is packed in it.
    const bins = problem.rooms.map(({ cartonsABin }) => cartonsABin);
    stock.forEach((left, week) => {
      const packed = schedule.packed.reduce(
        (sum, row, room) =>
          sum + (row[week] ?? 0) * (bins[room]?.[week]?.reduce((all, one) => all + one, 0) ?? 0),
        0,
      );
      const out = [...schedule.sold, ...schedule.processed].reduce((sum, row) => sum + (row[week] ?? 0), 0);
      expect((stock[week - 1] ?? 0) + packed - out).toBeCloseTo(left, 2);
    });
  });

  test('the text adds up as it is shown', () => {
    const release = { problem, result: season.release?.result ?? never() };
    const report = releaseReport(season, release, [], { violations: [], stoppedEarly: false });
    const text = releaseText(report).replace(/\n {2}/g, ' ');
    const number = (shown: string | undefined) => Number((shown ?? 'none').replaceAll(',', ''));
    const money =
      /Value EUR (\S+): sales (\S+), plus (\S+) for unsold fruit, less (\S+) for shortages, (\S+) for waiting and (\S+) for the risk/;
    const [value, sales, unsold, short, waiting, risk] = (money.exec(text) ?? []).slice(1).map(number);
    expect((sales ?? 0) + (unsold ?? 0) - (short ?? 0) - (waiting ?? 0) - (risk ?? 0)).toBe(value);
    const fruit = /worth: (\S+) = (\S+) sold \+ (\S+) packed and unsold \+ (\S+) not packed/.exec(text) ?? [];
    const [all, ...parts] = fruit.slice(1).map(number);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBe(all);
  });
});

function never(): never {
  throw new Error('the sample has a schedule');
}

test('a room that stays shut is counted as left, and its bins are packed into nothing', () => {
  const [first] = seasons;
  if (!first) throw new Error('there is a first sample');
  const { season, problem, schedule } = first;
  const shut = {
    ...schedule,
    opens: schedule.opens.map((week, at) => (at === 0 ? null : week)),
    packed: schedule.packed.map((row, at) => (at === 0 ? row.map(() => 0) : row)),
  };
  const room = problem.rooms[0];
  const kilograms = (season.filled.get(room?.fill ?? '')?.fruit?.value ?? 0) * 1000;
  expect(fruitAccount(season, problem, shut)?.cartonsLeftInRooms).toBeCloseTo(kilograms / 18, 1);
});
