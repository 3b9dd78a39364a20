import type { Finding } from '../types';
import { mayComeOfFills } from './culprits';

/** Whether a finding stands against fruit in a room. */
export type StandsAgainst = (finding: Finding) => boolean;

interface Counts {
  readonly all: ReadonlyMap<string, number>;
  /** Of them, those that stand against fruit in a room. */
  readonly against: ReadonlyMap<string, number>;
}

/**
 * Errors and warnings that a plan has as it is. What a proposal makes of them is new where there are more of a kind, and
 * where one that a planner could live with has become one that loses fruit or cannot be done.
 */
export class KnownFindings {
  private all: ReadonlyMap<string, number> = new Map();
  private against: ReadonlyMap<string, number> = new Map();

  /** What is found in one of several ways; of the same finding as many count as one of them finds. */
  add(found: readonly Finding[], standsAgainst: StandsAgainst): void {
    const counts = countsOf(found, standsAgainst);
    this.all = mostOf(this.all, counts.all);
    this.against = mostOf(this.against, counts.against);
  }

  newAmong(found: readonly Finding[], standsAgainst: StandsAgainst): Finding[] {
    const seen = new Map<string, number>();
    const seenAgainst = new Map<string, number>();
    return found.filter((finding) => {
      if (finding.severity === 'notice' || !mayComeOfFills(finding)) return false;
      const isMore = countUp(seen, finding) > (this.all.get(keyOf(finding)) ?? 0);
      if (!standsAgainst(finding)) return isMore;
      const isMoreAgainst = countUp(seenAgainst, finding) > (this.against.get(keyOf(finding)) ?? 0);
      return isMore || isMoreAgainst;
    });
  }

  /** Those that the plan has as it is. */
  oldAmong(found: readonly Finding[]): Finding[] {
    return found.filter((finding) => finding.severity !== 'notice' && this.all.has(keyOf(finding)));
  }
}

function countsOf(found: readonly Finding[], standsAgainst: StandsAgainst): Counts {
  const [all, against] = [new Map<string, number>(), new Map<string, number>()];
  for (const finding of found) {
    if (finding.severity === 'notice') continue;
    countUp(all, finding);
    if (standsAgainst(finding)) countUp(against, finding);
  }
  return { all, against };
}

function countUp(counts: Map<string, number>, finding: Finding): number {
  const count = (counts.get(keyOf(finding)) ?? 0) + 1;
  counts.set(keyOf(finding), count);
  return count;
}

function keyOf({ fingerprint }: Finding): string {
  return fingerprint.replace(/#\d+$/, '');
}

function mostOf(
  one: ReadonlyMap<string, number>,
  other: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  const most = new Map(one);
  for (const [key, count] of other) most.set(key, Math.max(count, most.get(key) ?? 0));
  return most;
}
