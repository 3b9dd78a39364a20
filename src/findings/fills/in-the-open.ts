import type { ComputedSeason, Finding } from '../types';
import { aboutOf } from './culprits';

/**
 * Warnings of shared plant, of levels that drift and of claims: they lose no fruit by themselves, and a planner may
 * choose to live with them. A proposal that makes one is given, and the warning is told with it.
 */
const OPEN = new Set([
  'refrigeration-group-overloaded',
  'nitrogen-queue',
  'set-point-late',
  'lime-short',
  'bed-saturated-early',
  'beds-not-continuous',
  'cartons-wait-too-long',
  'claim-not-supported',
  'claim-before-law-allows',
  'room-too-dry',
]);

/** A scrubber loaded above its policy still does its work up to this, per cent of what it can remove. */
const MOST_OF_SCRUBBER = 100;
/** What a leak may let in of the oxygen that the fruit uses, per cent: with more the level cannot be held. */
const MOST_OF_FRUIT_USE = 100;
/** By how much of its set-point oxygen may have climbed at opening before it counts as lost keeping; rule of thumb. */
const MOST_CLIMB = 1 / 3;

/** Whether a new finding keeps fruit out of a room: it loses fruit, or cannot be done. With `strict` every one does. */
export function standsAgainst(season: ComputedSeason, finding: Finding, strict: boolean): boolean {
  if (finding.severity === 'notice') return false;
  if (strict || finding.severity === 'error') return true;
  const about = aboutOf(finding.code, finding.fingerprint);
  switch (finding.code) {
    case 'scrubber-overloaded':
      return scrubberShare(season, about) > MOST_OF_SCRUBBER;
    case 'oxygen-climbs':
      return oxygenClimb(season, about) > MOST_CLIMB;
    case 'room-too-leaky':
      return leakShare(season, about) > MOST_OF_FRUIT_USE;
    default:
      return !OPEN.has(finding.code);
  }
}

/** Load of the worst week, per cent of what the scrubber can remove. What is not known stands against a proposal. */
function scrubberShare({ plant }: ComputedSeason, id: string): number {
  const load = plant?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  return load?.peak?.share?.value ?? Number.POSITIVE_INFINITY;
}

/** Oxygen at opening above the set-point, as a share of it. */
function oxygenClimb({ courses, filled }: ComputedSeason, fill: string): number {
  const level = courses?.courses.get(fill)?.oxygenAtEnd.value;
  const setPoint = filled.get(fill)?.regime?.oxygen?.value;
  return level === undefined || !setPoint ? Number.POSITIVE_INFINITY : level / setPoint - 1;
}

/** Oxygen that leaks in in service, per cent of what the fruit of the room uses. */
function leakShare({ filled }: ComputedSeason, room: string): number {
  const shares = [...filled.values()]
    .filter((one) => one.room.id === room && one.fill.sealed)
    .map(({ leakShareOfFruitUse }) => leakShareOfFruitUse?.value ?? Number.POSITIVE_INFINITY);
  return Math.max(...shares, 0);
}
