import type { Severity } from '../../plan/problem';
import { counted } from '../../plan/wording';
import type { ForgeFinding } from './forge-finding';

/**
 * Findings as workflow commands, which GitHub shows beside the lines of a pull request: one a line, worst first,
 * since it shows ten of each severity a step. The last line, no command, sums up.
 * Source: GitHub Docs, "Workflow commands for GitHub Actions"; escaping as in its toolkit's `command.ts`.
 */
export function annotations(findings: readonly ForgeFinding[]): string {
  return [...findings.map(annotation), sum(findings)].join('\n');
}

function annotation({ finding, place }: ForgeFinding): string {
  const properties = {
    file: place.file,
    line: String(place.line),
    endLine: String(place.endLine),
    // Columns are taken only where the place lies on one line.
    ...(place.line === place.endLine
      ? { col: String(place.column), endColumn: String(place.endColumn) }
      : {}),
    title: finding.code,
  };
  const written = Object.entries(properties).map(([name, value]) => `${name}=${escapeProperty(value)}`);
  return `::${finding.severity} ${written.join(',')}::${escapeMessage(finding.message)}`;
}

function escapeMessage(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function escapeProperty(text: string): string {
  return escapeMessage(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}

function sum(findings: readonly ForgeFinding[]): string {
  const count = (severity: Severity) =>
    findings.filter(({ finding }) => finding.severity === severity).length;
  if (findings.length === 0) return 'No findings.';
  return `${counted(count('error'), 'error')}, ${counted(count('warning'), 'warning')}, ${counted(count('notice'), 'notice')}.`;
}
