import fs from 'node:fs';
import path from 'node:path';
import Ajv2020 from 'ajv/dist/2020';
import { root } from './in-process';

/** What a published schema finds wrong with a report; empty where it fits. */
export function errorsAgainst(name: string, report: unknown): string[] {
  const schema = JSON.parse(fs.readFileSync(path.join(root, `schemas/${name}.schema.json`), 'utf8'));
  const ajv = new Ajv2020({ strict: true, allErrors: true });
  const validate = ajv.compile(schema);
  if (validate(report)) return [];
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}
