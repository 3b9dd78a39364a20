import { rules } from '../../findings/rules';
import type { ComputedSeason } from '../../findings/types';
import { fruitData } from '../../fruit/data';
import type { FruitData } from '../../fruit/types';
import type { Plan } from '../../plan/model';
import { type Dimension, dimensions, unitSpellings } from '../../plan/quantity';
import type { ReferableSection } from '../../plan/schema/values';
import { entriesOf } from '../../plan/sections';
import { likelyDays } from './completion-days';
import { newEntry } from './completion-entry';
import { newFillsFor } from './completion-fills';
import { likelyFruit } from './completion-fruit';
import { knownKeys, knownValues, lotsForFill, namedInPlan } from './completion-known';
import { newRecords } from './completion-records';
import type { CompletionItem, Proposal } from './completion-types';
import { type CursorPlace, cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { lineStartOf } from './key-scan';
import { type Guide, guideAt } from './schema-guide';

/**
 * What could be written at the place: keys of the section, allowed values, names of entries, units, and what the plan
 * makes likely. `season` may be that of a moment ago: typing must not wait for a new one.
 */
export function completionAt(plan: Plan, point: PlacePoint, season?: ComputedSeason): CompletionItem[] {
  const text = plan.files.get(point.file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, point.offset);
  if (!place) return [];
  const fruit = fruitData(plan);
  const proposals =
    place.at === 'value'
      ? values(plan, fruit, place, season)
      : keys(plan, fruit, place, columnOf(text ?? '', place));
  const at = { file: point.file, start: place.start, end: Math.max(place.end, point.offset) };
  return proposals.map((proposal, order) => ({ ...proposal, at, order }));
}

function columnOf(text: string, { start }: CursorPlace): number {
  return start - lineStartOf(text, start);
}

function keys(plan: Plan, fruit: FruitData, place: CursorPlace, column: number): Proposal[] {
  const parent = place.at === 'key' ? place.path.slice(0, -1) : place.path;
  const guide = guideAt(parent);
  if (!guide) return [];
  const written = (key: string) => place.siblings.has(key) && key !== place.text;
  // On a whole key the colon stands already.
  const colon = place.at === 'key' ? '' : ': ';
  const required = new Set(guide.required);
  const own = Object.entries(guide.properties ?? {})
    .filter(([key]) => !written(key))
    .sort(([a], [b]) => Number(required.has(b)) - Number(required.has(a)))
    .map(([key, child]) => keyProposal(key, child, required.has(key), colon));
  const named = guide['x-key-refers-to'];
  const names = named ? entryNames(plan, fruit, named).filter((name) => !written(name)) : [];
  const isFillLots = parent.length === 3 && parent[0] === 'fills' && parent[2] === 'lots';
  const entries = isFillLots
    ? lotsForFill(plan, fruit, plan.fills.get(parent[1] ?? ''), colon).filter(({ label }) => !written(label))
    : (knownKeys(plan, parent, colon)?.filter(({ label }) => !written(label)) ??
      names.map((name) => entryProposal(name, named ?? 'lots', `${name}${colon}`)));
  return [
    ...own,
    ...entries,
    ...(place.at === 'new-key'
      ? [
          ...newRecords(plan, parent, column, written),
          ...(parent.join('.') === 'fills' ? newFillsFor(plan, fruit, column) : []),
          ...newEntry(parent, column),
        ]
      : []),
    ...ruleCodes(parent)
      .filter(({ label }) => !written(label))
      .map((rule) => ({ ...rule, newText: `${rule.label}${colon}` })),
  ];
}

function keyProposal(key: string, guide: Guide, required: boolean, colon: string): Proposal {
  const example = guide.examples?.[0];
  return {
    label: key,
    kind: 'key',
    detail: required ? 'required' : (guide['x-default'] && `default: ${guide['x-default']}`) || '',
    documentation: [
      guide.description,
      example === undefined || typeof example === 'object' ? '' : `Example: ${String(example)}`,
    ]
      .filter(Boolean)
      .join('\n\n'),
    newText: hasKeys(guide) ? `${key}${colon.trimEnd()}` : `${key}${colon}`,
  };
}

function hasKeys(guide: Guide): boolean {
  return guide.type === 'object' || guide.type === 'array';
}

function ruleCodes(parent: readonly string[]): Proposal[] {
  return parent.join('.') === 'policy.findings' ? allRuleCodes() : [];
}

function allRuleCodes(): Proposal[] {
  return rules
    .filter(({ find }) => find)
    .map(({ code, summary, severity }) => ({
      label: code,
      kind: 'key',
      detail: `${severity} by default`,
      documentation: summary,
      newText: code,
    }));
}

function values(
  plan: Plan,
  fruit: FruitData,
  place: CursorPlace,
  season: ComputedSeason | undefined,
): Proposal[] {
  const guide = guideAt(place.path);
  if (!guide) return [];
  const known = knownValues(plan, season, place.path);
  if (known && known.length > 0) return known;
  if (guide['x-kind'] === 'day') {
    const days = likelyDays(plan, fruit, season?.plan.stand, place.path);
    if (days.length > 0) return days;
  }
  const names = guide['x-names'];
  if (names) return names === 'code' ? allRuleCodes() : namedInPlan(plan, names);
  if (guide.enum) return guide.enum.map((value) => valueProposal(value));
  if (guide.const !== undefined) return [valueProposal(String(guide.const))];
  if (guide['x-refers-to']) {
    const section = guide['x-refers-to'];
    const names = entryNames(plan, fruit, section);
    return (
      likelyFruit(plan, fruit, place.path, names) ?? names.map((name) => entryProposal(name, section, name))
    );
  }
  if (guide['x-dimension']) return units(guide['x-dimension'], place.text);
  const example = guide.examples?.[0];
  return example === undefined || typeof example === 'object'
    ? []
    : [valueProposal(String(example), 'example')];
}

function valueProposal(value: string, detail = ''): Proposal {
  return { label: value, kind: 'value', detail, documentation: '', newText: value };
}

function entryProposal(name: string, section: ReferableSection, newText: string): Proposal {
  return { label: name, kind: 'entry', detail: section, documentation: '', newText };
}

/** Names that may stand at a reference: the plan's entries, and for fruit the built-in ones after them. */
function entryNames(plan: Plan, fruit: FruitData, section: ReferableSection): string[] {
  const own = [...entriesOf(plan, section).keys()];
  const builtIn =
    section === 'varieties' ? fruit.varietyNames : section === 'regimes' ? fruit.regimeNames : [];
  return [...new Set([...own, ...builtIn])];
}

function units(dimension: string, written: string): Proposal[] {
  const number = /^[+-]?[\d.]+/.exec(written)?.[0];
  if (number === undefined || !isDimension(dimension)) return [];
  return unitSpellings(dimension).map((unit) => ({
    label: `${number} ${unit}`,
    kind: 'unit',
    detail: dimension,
    documentation: '',
    newText: `${number} ${unit}`,
  }));
}

function isDimension(text: string): text is Dimension {
  return Object.hasOwn(dimensions, text);
}
