import type { Plan } from '../../plan/model';
import { entriesOf } from '../../plan/sections';
import type { Span } from '../../plan/span';
import { SECTIONS } from './entries';

/** A name in a plan file by what it stands for, so that editors can show each in its own colour. */
export interface PaintedName {
  readonly at: Span;
  readonly kind: 'defined' | 'own' | 'built-in';
}

/** The names of entries in one file: where they are defined, where they are named, and those that are built in. */
export function paintedNamesOf(plan: Plan, file: string): PaintedName[] {
  const painted = new Map<number, PaintedName>();
  for (const { section, id, at } of plan.references) {
    if (at.file !== file) continue;
    const own = entriesOf(plan, section).has(id);
    // What is neither the plan's nor built in is a finding already.
    if (own) painted.set(at.start, { at, kind: 'own' });
    else if (section === 'varieties' || section === 'regimes')
      painted.set(at.start, { at, kind: 'built-in' });
  }
  for (const entries of [...SECTIONS.map((section) => entriesOf(plan, section)), plan.demand])
    for (const { at } of entries.values())
      if (at.file === file) painted.set(at.start, { at, kind: 'defined' });
  return [...painted.values()].sort((a, b) => a.at.start - b.at.start);
}
