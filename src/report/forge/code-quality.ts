import type { Severity } from '../../plan/problem';
import type { ForgeFinding } from './forge-finding';

/** One entry of a Code Quality report, as GitLab reads it from a job's artifacts. */
export interface CodeQualityEntry {
  readonly description: string;
  readonly check_name: string;
  readonly fingerprint: string;
  readonly severity: 'info' | 'minor' | 'major' | 'critical' | 'blocker';
  readonly location: { readonly path: string; readonly lines: { readonly begin: number } };
}

const SEVERITY: Readonly<Record<Severity, CodeQualityEntry['severity']>> = {
  error: 'critical',
  warning: 'major',
  notice: 'info',
};

/** Findings as a Code Quality report, worst first. Source: GitLab Docs, "Code Quality", report format. */
export function codeQuality(findings: readonly ForgeFinding[]): CodeQualityEntry[] {
  return findings.map(({ finding, place, fingerprint }) => ({
    description: finding.message,
    check_name: finding.code,
    fingerprint,
    severity: SEVERITY[finding.severity],
    location: { path: place.file, lines: { begin: place.line } },
  }));
}
