import { hasRecordsToLearnFrom } from '../learning/has-records';
import type { Snapshot } from './plan-session';
import { type OpenPlan, planName } from './plan-sessions';
import type { PlanComputed } from './protocol';

/** What a client is told of a plan that has been computed; `version` gives that of an open document. */
export function planComputed(
  open: OpenPlan,
  { plan, findings, season, revision, isSettled }: Snapshot,
  version: (uri: string) => number | undefined,
): PlanComputed {
  const count = (severity: string) => findings.filter((finding) => finding.severity === severity).length;
  // Everything is computed from the newest texts there are, so these are their versions.
  const versions = [...open.files()].map(([, uri]) => [uri, version(uri)] as const);
  return {
    root: open.root,
    name: planName(plan, open.root),
    revision,
    versions: Object.fromEntries(versions.filter((one): one is [string, number] => one[1] !== undefined)),
    isSettled,
    findings: { errors: count('error'), warnings: count('warning'), notices: count('notice') },
    rooms: season.filled.size,
    hasRecords: hasRecordsToLearnFrom(plan),
  };
}
