import type { Finding } from '../findings/types';
import type { Plan } from '../plan/model';
import type { FoundFinding } from './types';

/** A finding with what it is about, for finding out which edit brought it. */
export interface Found {
  readonly finding: FoundFinding;
  readonly tags: readonly string[];
}

/** Findings by what they are about, so that one that only stands elsewhere, or is told in other words, is the same. */
export function foundByKey(
  findings: readonly Finding[],
  plan: Plan,
  tagsOf: (fill: string) => string[],
): Map<string, Found> {
  const found = new Map<string, Found>();
  for (const { code, family, severity, message, at, fingerprint } of findings) {
    const told = fingerprint.slice(code.length + 1);
    // What is about a file is the same in a file that was moved.
    const about = told.startsWith(at.file) ? told.slice(at.file.length) : told;
    let key = `${severity} ${code}:${about}`;
    for (let again = 2; found.has(key); again++) key = `${severity} ${code}:${about}#${again}`;
    const shortOrder = code === 'demand-short' && plan.demand.has(about) ? about : undefined;
    found.set(key, {
      finding: { code, family, severity, message, at, ...(shortOrder !== undefined && { shortOrder }) },
      tags: tagsFor(about, plan, tagsOf),
    });
  }
  return found;
}

/** Fills, varieties and equipment that a finding's fingerprint names. */
function tagsFor(about: string, plan: Plan, tagsOf: (fill: string) => string[]): string[] {
  // What it is about is a path of names, or a sentence that names them.
  const names = new Set([...about.split(/[#/,]/), ...about.split(/[^\w-]+/)]);
  return [...names].flatMap((name) => {
    const demand = plan.demand.get(name)?.variety?.value;
    return [
      ...(plan.fills.has(name) ? tagsOf(name) : []),
      ...(demand === undefined ? [] : [`variety:${demand}`]),
      ...(plan.scrubbers.has(name) ? [`scrubbers/${name}`] : []),
      ...(plan.nitrogenSources.has(name) ? [`nitrogen/${name}`] : []),
      ...(plan.refrigerationGroups.has(name) ? [`refrigeration/${name}`] : []),
      ...(plan.lots.has(name) ? [`lot:${name}`] : []),
      ...(plan.rooms.has(name) ? [`room:${name}`] : []),
      ...(plan.expectations.has(name) ? [`expect/${name}`] : []),
    ];
  });
}
