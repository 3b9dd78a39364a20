import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { windowMoves } from '../../src/keeping/moves';
import { roomKeeping } from '../../src/keeping/room-keeping';
import { planWith, present } from '../fruit/plans';
import { type RoomValues, roomOf } from './rooms';

const fruit = fruitData(planWith());

function movesOf(values: RoomValues) {
  const { plan, filled } = roomOf(values);
  const keeping = roomKeeping(plan, filled);
  return { window: present(keeping.window), moves: windowMoves(plan, fruit, keeping) };
}

function latestWith(values: RoomValues, change: string) {
  const { window, moves } = movesOf(values);
  const move = moves.find((one) => one.change.startsWith(change));
  return move && move.window.latest.week - window.latest.week;
}

describe('what would move a window', () => {
  const weak = { id: 'L2', firmnessLbf: 14, starch: 5 };
  const mixed: RoomValues = { lots: [{ firmnessLbf: 18, starch: 2.5 }, weak], regime: 'gala-low-oxygen' };

  test('is what a plan with the change says', () => {
    const { window, moves } = movesOf(mixed);
    const strong = movesOf({ ...mixed, lots: [{ firmnessLbf: 18, starch: 2.5 }] }).window;
    const treated = movesOf({
      ...mixed,
      lots: [
        { firmnessLbf: 18, starch: 2.5 },
        { ...weak, treatments: ['1-mcp'] },
      ],
    }).window;
    expect(window.latest.lot?.id).toBe('L2');
    expect(moves.find(({ change }) => change === 'without lot L2')?.window.latest.week).toBe(
      strong.latest.week,
    );
    expect(moves.find(({ change }) => change === 'lot L2 treated with 1-MCP')?.window.latest.week).toBe(
      treated.latest.week,
    );
  });

  test('another regime, a quicker packing and less confidence are tried too', () => {
    const life: RoomValues = { lots: [{ firmnessLbf: 19, starch: 2 }] };
    expect(latestWith(life, 'in gala-low-oxygen')).toBeGreaterThan(4);
    expect(latestWith(life, 'emptied in 7 days instead of 14')).toBe(1);
    expect(latestWith({ ...life, regime: 'gala-low-oxygen' }, 'at 80 % confidence')).toBeGreaterThan(0);
    expect(latestWith({ ...life, sealed: '2026-10-06' }, 'sealed 30 days sooner')).toBeGreaterThan(0);
  });

  test('a regime with less oxygen than its variety bears is not among them, as a check would refuse it', () => {
    const room: RoomValues = { lots: [{ firmnessLbf: 19, starch: 2 }] };
    const tried = movesOf(room).moves.map(({ change }) => change);
    expect(tried).toContain('in gala-low-oxygen');
    expect(tried).not.toContain('in gala-dynamic');
    expect(fruit.regime('gala-dynamic')?.oxygen?.value).toBeLessThan(
      fruit.variety('Gala')?.leastOxygen.value ?? 0,
    );
  });

  test('the law and the season are named where they set an edge', () => {
    const { window, moves } = movesOf({ law: 'washington' });
    const unclaimed = moves.find(({ change }) => change === 'sold without the claim "CA"');
    expect(unclaimed && window.earliest.week - unclaimed.window.earliest.week).toBe(6);
    expect(latestWith({ regime: 'gala-low-oxygen', seasonEnds: '2026-12-27' }, 'with a season')).toBe(4);
  });

  test('nothing is said that moves nothing, and a room of one lot is not left empty', () => {
    const { window, moves } = movesOf({});
    for (const { window: after } of moves) {
      const edges = ({ earliest, bestBefore, latest }: typeof after) =>
        [earliest, bestBefore, latest].map(({ week }) => week);
      expect(edges(after)).not.toEqual(edges(window));
    }
    expect(moves.some(({ change }) => change.startsWith('without'))).toBe(false);
  });
});
