import { z } from 'zod';
import { reportSchemas } from '../report/schemas';

/** The JSON Schemas of the reports as files of the repository; a test holds that those committed are these. */
export function reportSchemaFiles(): { path: string; text: string }[] {
  return Object.entries(reportSchemas).map(([name, schema]) => ({
    path: `schemas/${name}.schema.json`,
    text: `${JSON.stringify(z.toJSONSchema(schema), null, 2)}\n`,
  }));
}
