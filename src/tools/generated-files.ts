import { isOftenTyped, itemKinds } from '../plan/check/item-kinds';
import { fruitReference } from './fruit-reference';
import { planReference } from './plan-reference';
import { planSchema } from './plan-schema';
import { validatorCode, validatorTypes } from './validator-code';

/** Every generated file of the plan language, by its path from the repository's root. */
export function generatedFiles(): Record<string, string> {
  const schema = planSchema();
  return {
    'schemas/lot-plan.schema.json': `${JSON.stringify(schema, null, 2)}\n`,
    'schemas/README.md': planReference(schema),
    'schemas/reference-data.md': fruitReference(),
    'src/plan/check/validate-often.generated.js': validatorCode(schema, itemKinds.filter(isOftenTyped)),
    'src/plan/check/validate-often.generated.d.ts': validatorTypes('OftenTyped'),
    'src/plan/check/validate-seldom.generated.js': validatorCode(
      schema,
      itemKinds.filter((kind) => !isOftenTyped(kind)),
    ),
    'src/plan/check/validate-seldom.generated.d.ts': validatorTypes('SeldomTyped'),
  };
}
