import type { Finding } from '../../findings/types';
import type { Plan } from '../../plan/model';

/** More than these in one file are not read by anyone, and slow the editor down. */
const MOST_IN_A_FILE = 1000;

/** The findings of each file of the plan; a file without any has an empty list. */
export function findingsByFile(plan: Plan, findings: readonly Finding[]): Map<string, Finding[]> {
  const byFile = new Map<string, Finding[]>([...plan.files.keys()].map((file) => [file, []]));
  for (const finding of findings) {
    const list = byFile.get(finding.at.file) ?? [];
    byFile.set(finding.at.file, list);
    list.push(finding);
  }
  return byFile;
}

const RANK = { error: 0, warning: 1, notice: 2 } as const;

/** What is published of a file's findings: all, or the gravest where there are very many. */
export function mostImportant(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= MOST_IN_A_FILE) return findings;
  return [...findings].sort((a, b) => RANK[a.severity] - RANK[b.severity]).slice(0, MOST_IN_A_FILE);
}
