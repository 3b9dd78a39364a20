import type { Plan } from '../../plan/model';
import type { ReferableSection } from '../../plan/schema/values';
import { entriesOf } from '../../plan/sections';
import type { Span } from '../../plan/span';

/** A place in a plan file. */
export interface PlacePoint {
  readonly file: string;
  readonly offset: number;
}

export function covers(span: Span, point: PlacePoint): boolean {
  return span.file === point.file && span.start <= point.offset && point.offset <= span.end;
}

export const SECTIONS = [
  'bins',
  'rooms',
  'scrubbers',
  'nitrogen',
  'refrigeration',
  'varieties',
  'regimes',
  'lots',
  'fills',
] as const satisfies readonly ReferableSection[];

/** An entry by its section and identifier, whether or not the plan defines it. */
export interface EntryName {
  readonly section: ReferableSection;
  readonly id: string;
  /** Where it is named here. */
  readonly at: Span;
}

/** The entry that is named or defined at the place. */
export function entryNameAt(plan: Plan, point: PlacePoint): EntryName | undefined {
  const named = plan.references.find(({ at }) => covers(at, point));
  if (named) return named;
  for (const section of SECTIONS)
    for (const entry of entriesOf(plan, section).values())
      if (covers(entry.at, point)) return { section, id: entry.id, at: entry.at };
  return undefined;
}
