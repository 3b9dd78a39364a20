import type { Entry, Plan } from '../../plan/model';
import { shortened } from '../../plan/shortened';
import type { Span } from '../../plan/span';

/** An item of a file's outline. `whole` covers what a click should select, `name` lies inside it. */
export interface OutlineItem {
  readonly name: string;
  readonly detail: string;
  readonly kind: 'section' | 'entry';
  readonly nameAt: Span;
  readonly whole: Span;
  readonly children: readonly OutlineItem[];
}

/** Editors grow slow with very long outlines; what is left out is said in the section's detail. */
const MOST_ENTRIES = 5000;

/** The outline of one file of the plan: its sections, and their entries with what tells them apart. */
export function outlineOf(plan: Plan, file: string): OutlineItem[] {
  const groups = groupsOf(plan).map(([name, entries]) => section(plan, file, name, entries));
  const single = [
    ['season', plan.season?.at, shortened(plan.season?.name?.value ?? '')],
    ['packing', plan.packing?.at, ''],
    ['policy', plan.policy.at, ''],
  ] as const;
  const singles = single.map(([name, at, detail]) =>
    at?.file === file
      ? { name, detail, kind: 'section' as const, nameAt: at, whole: at, children: [] }
      : undefined,
  );
  return [...singles, ...groups]
    .filter((item) => item !== undefined)
    .sort((a, b) => a.whole.start - b.whole.start);
}

type Detail = (entry: Entry) => string;

function groupsOf(plan: Plan): [string, { entry: Entry; detail: string }[]][] {
  const list = <E extends Entry>(entries: ReadonlyMap<string, E>, detail: (entry: E) => string) =>
    [...entries.values()].map((entry) => ({ entry, detail: detail(entry) }));
  const plain: Detail = () => '';
  return [
    ['bins', list(plan.binTypes, ({ material }) => material ?? '')],
    ['rooms', list(plan.rooms, ({ binType }) => binType?.value ?? '')],
    [
      'plant',
      [
        ...list(plan.scrubbers, ({ kind }) => `${kind ?? ''} scrubber`.trim()),
        ...list(plan.nitrogenSources, ({ kind }) => `${kind ?? ''} nitrogen`.trim()),
        ...list(plan.refrigerationGroups, ({ refrigerant }) => refrigerant ?? 'refrigeration'),
      ],
    ],
    ['varieties', list(plan.varieties, plain)],
    ['regimes', list(plan.regimes, plain)],
    ['lots', list(plan.lots, ({ variety, block }) => [variety?.value, block].filter(Boolean).join(', '))],
    [
      'fills',
      list(plan.fills, ({ room, regime }) => [room?.value, regime?.value].filter(Boolean).join(', ')),
    ],
    [
      'demand',
      list(plan.demand, ({ market, variety }) => [market?.value, variety?.value].filter(Boolean).join(', ')),
    ],
    ['expect', list(plan.expectations, ({ claims }) => claims.map(({ kind }) => kind).join(', '))],
    ['scenarios', list(plan.scenarios, ({ says }) => says ?? '')],
  ];
}

function section(
  plan: Plan,
  file: string,
  name: string,
  all: readonly { entry: Entry; detail: string }[],
): OutlineItem | undefined {
  const here = all
    .filter(({ entry }) => entry.at.file === file)
    .sort((a, b) => a.entry.at.start - b.entry.at.start);
  const [first, last] = [here[0], here.at(-1)];
  if (!first || !last) return undefined;
  const heading = headingBefore(plan.files.get(file)?.text ?? '', name, first.entry.at);
  const shown = here.slice(0, MOST_ENTRIES);
  const more = here.length > shown.length ? `, the first ${MOST_ENTRIES} shown` : '';
  return {
    name,
    detail: `${here.length}${more}`,
    kind: 'section',
    nameAt: heading,
    whole: { file, start: heading.start, end: Math.max(heading.end, wholeOf(last.entry).end) },
    children: shown.map(({ entry, detail }) => ({
      name: entry.id,
      detail,
      kind: 'entry' as const,
      nameAt: entry.at,
      whole: wholeOf(entry),
      children: [],
    })),
  };
}

function wholeOf(entry: Entry): Span {
  const { span } = entry.places;
  return { file: entry.at.file, start: entry.at.start, end: Math.max(entry.at.end, span.end) };
}

/** A section's own key, the last one of that name at the beginning of a line above its first entry. */
function headingBefore(text: string, name: string, first: Span): Span {
  if (text.startsWith(`${name}:`) && text.lastIndexOf(`\n${name}:`, first.start) < 0)
    return { file: first.file, start: 0, end: name.length };
  const at = text.lastIndexOf(`\n${name}:`, first.start);
  if (at < 0) return first;
  return { file: first.file, start: at + 1, end: at + 1 + name.length };
}
