import { describe, expect, it } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { readPlan } from '../../src/plan/read';
import type { ReferableSection } from '../../src/plan/schema/values';
import { entriesOf } from '../../src/plan/sections';
import { completionAt } from '../../src/server/services/completion';
import { type Guide, planGuide } from '../../src/server/services/schema-guide';
import { atCaret } from './cursor';
import { samplePlan } from './plans';

/** A place of the language where an identifier may stand: as a value, or as a key. */
interface Place {
  readonly path: readonly string[];
  readonly section: ReferableSection;
  readonly as: 'value' | 'key';
}

/** Deeper than the language nests. */
const DEEPEST = 9;

/** Every such place of the published schema; an entry of a section is called `new-one`. */
function placesOf(guide: Guide, path: readonly string[] = []): Place[] {
  if (path.length > DEEPEST) return [];
  const found: Place[] = [];
  const value = guide['x-refers-to'];
  if (value) found.push({ path, section: value, as: 'value' });
  const key = guide['x-key-refers-to'];
  if (key) found.push({ path, section: key, as: 'key' });
  for (const [step, child] of Object.entries(guide.properties ?? {}))
    found.push(...placesOf(child, [...path, step]));
  if (typeof guide.additionalProperties === 'object') {
    // Under a map by identifier the value stands behind one that is there.
    found.push(...placesOf(guide.additionalProperties, [...path, 'new-one']));
  }
  if (guide.items) found.push(...placesOf(guide.items, [...path, '[]']));
  return found;
}

/** A text that leads to the place, with the caret there. */
function textTo({ path, as }: Place): string {
  const lines: string[] = [];
  let indent = '';
  path.forEach((step, at) => {
    const next = path[at + 1];
    if (step === '[]') return;
    const isItem = path[at - 1] === '[]';
    const before = isItem ? `${indent.slice(2)}- ` : indent;
    const isLast = at === path.length - 1;
    const isList = next === '[]' && at + 1 === path.length - 1;
    const end = isLast
      ? as === 'value'
        ? ' ‸'
        : ' { ‸ }'
      : isList
        ? as === 'value'
          ? ' [‸]'
          : ' [{ ‸ }]'
        : '';
    lines.push(`${before}${step}:${end}`);
    indent += next === '[]' ? '    ' : '  ';
  });
  return `${lines.join('\n')}\n`;
}

const places = placesOf(planGuide);
const rest = [
  ...samplePlan('in-march'),
  {
    path: 'own.lotplan.yaml',
    text: 'lotwright: 1\nvarieties:\n  Own: { like: Gala }\nregimes:\n  own: { like: gala-standard }\n',
  },
];
const file = 'more.lotplan.yaml';

describe('wherever an identifier may stand', () => {
  it('there are many such places, and of every kind', () => {
    expect(places.length).toBeGreaterThan(40);
    expect(new Set(places.map(({ as }) => as)).size).toBe(2);
    const plan = readPlan(rest);
    const empty = places.filter(({ section }) => entriesOf(plan, section).size === 0);
    expect(new Set(empty.map(({ section }) => section))).toEqual(new Set());
  });

  it.each(places.map((place) => [`${place.path.join('.')} (${place.as})`, place] as const))(
    '%s: all entries of its section are offered, and of no other',
    (_name, place) => {
      const { text, offset } = atCaret(textTo(place));
      const plan = readPlan([...rest, { path: file, text }]);
      const labels = completionAt(plan, { file, offset }).map(({ label }) => label);
      const own = [...entriesOf(plan, place.section).keys()].filter((id) => id !== 'new-one');
      expect(labels).toEqual(expect.arrayContaining(own));
      const fruit = fruitData(plan);
      const builtIn = new Set([...fruit.varietyNames, ...fruit.regimeNames]);
      const others = (['rooms', 'lots', 'fills'] as const)
        .filter((section) => section !== place.section)
        .flatMap((section) => [...entriesOf(plan, section).keys()])
        .filter((id) => !own.includes(id) && !builtIn.has(id));
      expect(labels.filter((label) => others.includes(label))).toEqual([]);
    },
  );
});
