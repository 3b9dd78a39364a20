import { growerWish } from '../../fill/growers';
import { nearest } from '../../plan/nearest';
import type { Fix, Problem } from '../../plan/problem';
import { placeAt } from '../../plan/span';
import { counted, listed } from '../../plan/wording';
import type { ComputedSeason, Rule } from '../types';

/** The word under `policy: growers:` that stands for those not named. */
const ALL = 'all';

function* growersNotInPlan({ plan }: ComputedSeason): Iterable<Problem> {
  if (!plan.policy.growers || areAllThere(plan, plan.policy.growers.keys())) return;
  const growers = [...new Set([...plan.lots.values()].flatMap(({ grower }) => grower ?? []))].sort();
  for (const [name, wish] of plan.policy.growers) {
    if (name === ALL || growers.includes(name)) continue;
    const place = plan.policy.places && placeAt(plan.policy.places, ['growers', name]);
    const at = place?.key ?? wish.at;
    const meant = nearest(name, growers);
    const fixes: Fix[] = meant ? [{ title: `Change to \`${meant}\``, edits: [{ at, newText: meant }] }] : [];
    const there = growers.length === 0 ? ' No lot names its grower.' : ` They are of ${listed(growers, 6)}.`;
    yield {
      code: 'grower-not-in-plan',
      message: `No lot of this plan is of the grower \`${name}\`, so that nothing is kept ${wish.value}.${meant ? ` Is \`${meant}\` meant?` : there}`,
      at,
      about: name,
      fixes,
    };
  }
}

/** Whether there is a lot of each of these growers; the first lots mostly tell. */
function areAllThere({ lots }: ComputedSeason['plan'], names: Iterable<string>): boolean {
  const missing = new Set(names);
  missing.delete(ALL);
  if (missing.size === 0) return true;
  for (const { grower } of lots.values()) {
    if (grower !== undefined && missing.delete(grower) && missing.size === 0) return true;
  }
  return false;
}

function* growersShareARoom({ plan }: ComputedSeason): Iterable<Problem> {
  // Most plans keep nobody apart, and need not look at their lots.
  if (![...(plan.policy.growers?.values() ?? [])].some(({ value }) => value === 'apart')) return;
  for (const fill of plan.fills.values()) {
    const lots = fill.lots.flatMap(({ lot }) => plan.lots.get(lot.value) ?? []);
    const growers = [...new Set(lots.flatMap(({ grower }) => grower ?? []))].sort();
    const apart = lots.find((lot) => growerWish(plan, lot) === 'apart')?.grower;
    const others = growers.filter((grower) => grower !== apart);
    const unnamed = lots.filter(({ grower }) => grower === undefined).map(({ id }) => id);
    if (apart === undefined || others.length + unnamed.length === 0) continue;
    const beside = others.length > 0 ? others : unnamed;
    const bins = fill.lots
      .filter(({ lot }) => plan.lots.get(lot.value)?.grower === apart)
      .reduce((sum, one) => sum + one.bins.value, 0);
    yield {
      code: 'growers-share-a-room',
      message: `${fill.room?.value ?? fill.id} holds ${counted(bins, 'bin')} of ${apart}, whose fruit the policy keeps apart, beside fruit of ${listed(beside, 4)}. Put one or the other into a room of its own, or set ${apart} to \`any\`.`,
      at: placeAt(fill.places, ['lots']).key ?? fill.at,
      about: fill.id,
    };
  }
}

export const growerRules: readonly Rule[] = [
  {
    code: 'grower-not-in-plan',
    severity: 'warning',
    family: 'plan',
    summary: 'The policy names a grower of whom there is no lot.',
    find: growersNotInPlan,
  },
  {
    code: 'growers-share-a-room',
    severity: 'warning',
    family: 'room',
    summary: 'A room holds fruit of a grower who is kept apart, and of another.',
    find: growersShareARoom,
  },
];
