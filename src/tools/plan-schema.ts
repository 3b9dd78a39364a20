import { z } from 'zod';
import type { Schema } from '../plan/check/schema-types';
import { LANGUAGE_VERSION } from '../plan/schema/language-version';
import { planFile } from '../plan/schema/plan-file';

/** The published JSON Schema of a plan file (draft-07, which every editor with YAML support understands). */
export function planSchema(): Schema {
  const { $schema, ...rest } = z.toJSONSchema(planFile, { io: 'input', target: 'draft-7' }) as Schema & {
    $schema: string;
  };
  return {
    $schema,
    $id: `urn:lotwright:schema:lot-plan:${LANGUAGE_VERSION}`,
    'x-version': LANGUAGE_VERSION,
    ...rest,
  };
}
