import type { Finding } from '../../findings/types';
import type { Plan } from '../../plan/model';
import type { Severity } from '../../plan/problem';
import { type Place, placeOf } from '../place';

/** A path from the repository's root, with forward slashes, of a file of the plan. */
export type RepositoryPath = (file: string) => string;

/** A finding as a forge shows it: beside the line it is about, in a repository. */
export interface ForgeFinding {
  readonly finding: Finding;
  /** The place, its file from the repository's root. */
  readonly place: Place;
  /** Told apart from every other finding of the run, and the same after lines have moved. */
  readonly fingerprint: string;
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, notice: 2 };

/** Findings worst first, then by file and place: forges show no more than the first of many. */
export function forgeFindings(
  plan: Plan,
  findings: readonly Finding[],
  repositoryPath: RepositoryPath,
): ForgeFinding[] {
  const times = new Map<string, number>();
  const placed = findings.map((finding) => {
    const time = (times.get(finding.fingerprint) ?? 0) + 1;
    times.set(finding.fingerprint, time);
    return {
      finding,
      place: placeInRepository(plan, finding.at, repositoryPath),
      fingerprint: time === 1 ? finding.fingerprint : `${finding.fingerprint}/${time}`,
    };
  });
  return placed.sort(
    (a, b) =>
      RANK[a.finding.severity] - RANK[b.finding.severity] ||
      compareText(a.place.file, b.place.file) ||
      a.place.line - b.place.line ||
      a.place.column - b.place.column ||
      compareText(a.fingerprint, b.fingerprint),
  );
}

export function placeInRepository(plan: Plan, span: Finding['at'], repositoryPath: RepositoryPath): Place {
  const place = placeOf(plan, span);
  return { ...place, file: repositoryPath(place.file) };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
