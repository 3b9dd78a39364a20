import schema from '../../../schemas/lot-plan.schema.json';
import type { ReferableSection } from '../../plan/schema/values';

/** A node of the plan language's JSON Schema, with the facts about a key that hovers and completion show. */
export interface Guide {
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly enum?: readonly string[];
  readonly const?: unknown;
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Guide>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Guide | boolean;
  readonly items?: Guide;
  readonly 'x-default'?: string;
  readonly 'x-unit'?: string;
  readonly 'x-dimension'?: string;
  readonly 'x-kind'?: 'day' | 'day-span' | 'week' | 'week-span';
  readonly 'x-refers-to'?: ReferableSection;
  readonly 'x-key-refers-to'?: ReferableSection;
  readonly 'x-names'?: 'market' | 'class' | 'grower' | 'code' | 'demand';
  readonly 'x-section'?: ReferableSection;
}

/** The guide of a whole plan file: the published schema, which says the same as the one plans are checked by. */
export const planGuide: Guide = schema as Guide;

/** The guide of the value that the path leads to; undefined where the language has no such key. */
export function guideAt(path: readonly string[]): Guide | undefined {
  let guide: Guide | undefined = planGuide;
  for (const step of path) guide = guide && inside(guide, step);
  return guide;
}

function inside(guide: Guide, step: string): Guide | undefined {
  if (step === '[]') return guide.items;
  if (guide.properties && Object.hasOwn(guide.properties, step)) return guide.properties[step];
  return typeof guide.additionalProperties === 'object' ? guide.additionalProperties : undefined;
}
