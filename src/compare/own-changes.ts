import type { Span } from '../plan/span';
import type { Consequence, Edit, FoundFinding, PlanChange, ProductsTouched, Thing } from './types';

/** What a consequence is told of, as far as changes can be about it. */
export type Told = Pick<Consequence, 'kind' | 'about' | 'oldFinding' | 'newFinding'>;

/**
 * Changes that go together, those first that are about what a consequence is of: of a room's week its pin, then its fill,
 * its room, its equipment. Others stay in their order.
 */
export function ownChangesFirst(
  { changes, products }: Edit,
  one: Told,
): readonly [PlanChange, ...PlanChange[]] {
  const [first, ...rest] = changes;
  const rankOf = (change: PlanChange) => rank(change, products, one);
  const chief = rest.reduce((best, change) => (rankOf(change) < rankOf(best) ? change : best), first);
  return [chief, ...changes.filter((change) => change !== chief)];
}

/** Indexes of edits, those first that hold such a change. */
export function ownEditsFirst(own: readonly number[], edits: readonly Edit[], one: Told): number[] {
  const rankOf = (edit: number) => Math.min(...ranksOf(edits[edit], one));
  return [...own].sort((a, b) => rankOf(a) - rankOf(b));
}

/** Of edits of one entry, those in whose text a finding stands, in the plan that has it; all where none does. */
export function editsAtPlace(own: readonly number[], edits: readonly Edit[], one: Told): readonly number[] {
  const finding = one.newFinding ?? one.oldFinding;
  if (!finding) return own;
  const atPlace = own.filter((edit) => ranksOf(edits[edit], one).includes(0));
  return atPlace.length > 0 ? atPlace : own;
}

function ranksOf(edit: Edit | undefined, one: Told): number[] {
  return edit ? edit.changes.map((change) => rank(change, edit.products, one)) : [];
}

/** How near a change is to what a consequence is of: 0 is nearest. */
function rank(
  change: PlanChange,
  products: Edit['products'],
  { kind, about, oldFinding, newFinding }: Told,
): number {
  const { things, oldAt, newAt } = change;
  const touched = products.get(change);
  const isOf = (...kinds: readonly [Thing['kind'], string][]) =>
    things.some((thing) => kinds.some(([own, id]) => thing.kind === own && thing.id === id));
  const finding = newFinding ?? oldFinding;
  if (finding) {
    if (overlap(finding.at, newFinding ? newAt : oldAt)) return 0;
    const isNamed =
      things.some(({ id }) => names(finding.message, id)) ||
      [...(touched?.varieties ?? [])].some((variety) => finding.message.includes(variety));
    if (isOfKey(finding, change.key)) return isNamed ? 1 : 3;
    return isNamed ? 2 : FAR;
  }
  switch (about.of) {
    case 'fill':
      if (!isOf(['fills', about.fill])) return isOf(['rooms', about.room]) ? 2 : FAR;
      return kind === 'opens' && change.kind === 'pin-changed' ? 0 : 1;
    case 'equipment':
      return isOf([about.thing.kind, about.thing.id]) ? 0 : FAR;
    case 'product':
      return rankOfProduct(touched, about);
    case 'season':
      return FAR;
  }
}

const FAR = 4;

/** What is of the variety and the class comes first, then what may be of any; last what is of another variety. */
function rankOfProduct(
  touched: ProductsTouched | undefined,
  { variety, packClass }: { readonly variety: string; readonly packClass: string },
): number {
  if (!touched || touched.varieties.size === 0) return 1;
  if (!touched.varieties.has(variety)) return FAR;
  return touched.packClass === undefined || touched.packClass === packClass ? 0 : 2;
}

/** Keys by what a finding is of, where its code does not have the key's word: how many bins a room holds is of its size. */
const KEYS_OF: readonly (readonly [code: RegExp, key: RegExp])[] = [
  [/^room-(overfilled|partly-filled)$/, /^(inside|places|stacking|clearances?|bin-type)\b/],
  [/^sealed-late$/, /^(sealed|first-bin|last-bin)\b/],
  [/^intake-too-fast$/, /^(inside|places|arrivals|first-bin|last-bin)\b/],
  [/^room-too-leaky$|^oxygen-climbs$/, /^tightness\b/],
  [/^room-too-large-to-empty$|^packing-overbooked$/, /^(bins-a-week|days-to-empty)\b/],
];

/** Whether a key is what a finding speaks of: in its words, in its code, or by what the finding is of. */
function isOfKey({ code, message }: FoundFinding, key: string | undefined): boolean {
  if (key === undefined) return false;
  const parts = key.split('.');
  const [first = ''] = parts;
  return (
    message.includes(`\`${parts.at(-1)}\``) ||
    code.split('-').includes(first) ||
    KEYS_OF.some(([codes, keys]) => codes.test(code) && keys.test(key))
  );
}

function overlap(one: Span, other: Span | undefined): boolean {
  return other !== undefined && one.file === other.file && one.start < other.end && other.start < one.end;
}

/** True where a text names a thing as a word of its own. */
function names(text: string, id: string): boolean {
  return text.split(/[^\p{L}\p{N}_.-]+/u).some((word) => word.replace(/\.$/, '') === id);
}
