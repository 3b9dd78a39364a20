import type { Span } from '../plan/span';
import type { Consequence, Edit, PlanChange, Thing } from './types';

/** What a consequence is told of, as far as changes can be about it. */
export type Told = Pick<Consequence, 'kind' | 'about' | 'oldFinding' | 'newFinding'>;

/**
 * Changes that go together, those first that are about what a consequence is of: of a room's week its pin, then its fill,
 * its room, its equipment. Others stay in their order.
 */
export function ownChangesFirst({ changes }: Edit, one: Told): readonly [PlanChange, ...PlanChange[]] {
  const [first, ...rest] = changes;
  const chief = rest.reduce((best, change) => (rank(change, one) < rank(best, one) ? change : best), first);
  return [chief, ...changes.filter((change) => change !== chief)];
}

/** Indexes of edits, those first that hold such a change. */
export function ownEditsFirst(own: readonly number[], edits: readonly Edit[], one: Told): number[] {
  const rankOf = (edit: number) =>
    Math.min(...(edits[edit]?.changes.map((change) => rank(change, one)) ?? []));
  return [...own].sort((a, b) => rankOf(a) - rankOf(b));
}

/** How near a change is to what a consequence is of: 0 is nearest. */
function rank(change: PlanChange, { kind, about, oldFinding, newFinding }: Told): number {
  const { things, oldAt, newAt } = change;
  const isOf = (...kinds: readonly [Thing['kind'], string][]) =>
    things.some((thing) => kinds.some(([own, id]) => thing.kind === own && thing.id === id));
  const finding = newFinding ?? oldFinding;
  if (finding) {
    if (overlap(finding.at, newFinding ? newAt : oldAt)) return 0;
    return things.some(({ id }) => names(finding.message, id)) ? 1 : FAR;
  }
  switch (about.of) {
    case 'fill':
      if (!isOf(['fills', about.fill])) return isOf(['rooms', about.room]) ? 2 : FAR;
      return kind === 'opens' && change.kind === 'pin-changed' ? 0 : 1;
    case 'equipment':
      return isOf([about.thing.kind, about.thing.id]) ? 0 : FAR;
    case 'product':
      return isOf(['varieties', about.variety]) ? 0 : FAR;
    case 'season':
      return FAR;
  }
}

const FAR = 3;

function overlap(one: Span, other: Span | undefined): boolean {
  return other !== undefined && one.file === other.file && one.start < other.end && other.start < one.end;
}

/** True where a text names a thing as a word of its own. */
function names(text: string, id: string): boolean {
  return text.split(/[^\p{L}\p{N}_.-]+/u).some((word) => word.replace(/\.$/, '') === id);
}
