/** Writes the JSON Schemas of the command line's reports to `schemas/`. `npx tsx src/tools/generate-report-schemas.ts` */
import fs from 'node:fs';
import { reportSchemaFiles } from './report-schema-files';

for (const { path, text } of reportSchemaFiles()) {
  fs.mkdirSync('schemas', { recursive: true });
  fs.writeFileSync(path, text);
  console.log(path);
}
