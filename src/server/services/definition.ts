import type { Plan } from '../../plan/model';
import { entriesOf } from '../../plan/sections';
import type { Span } from '../../plan/span';
import { entryNameAt, type PlacePoint } from './entries';

/** Where the entry that is named at the place is defined. Built-in varieties and regimes are defined nowhere. */
export function definitionAt(plan: Plan, point: PlacePoint): Span | undefined {
  const name = entryNameAt(plan, point);
  return name && entriesOf(plan, name.section).get(name.id)?.at;
}

/** Every place that names the entry at the place, in the order of the plan's files; its definition first if wanted. */
export function referencesAt(plan: Plan, point: PlacePoint, withDefinition: boolean): Span[] {
  const name = entryNameAt(plan, point);
  if (!name) return [];
  const definition = entriesOf(plan, name.section).get(name.id)?.at;
  const places = plan.references
    .filter(({ section, id }) => section === name.section && id === name.id)
    .map(({ at }) => at)
    .filter(({ file, start }) => file !== definition?.file || start !== definition.start);
  return [...(withDefinition && definition ? [definition] : []), ...places];
}
