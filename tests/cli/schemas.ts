import fs from 'node:fs';
import path from 'node:path';
import type { ValidateFunction } from 'ajv';
import Ajv2020 from 'ajv/dist/2020';
import { root } from './in-process';

const compiled = new Map<string, ValidateFunction>();

/** What a published schema finds wrong with a report; empty where it fits. */
export function errorsAgainst(name: string, report: unknown): string[] {
  const validate = compiled.get(name) ?? compile(name);
  if (validate(report)) return [];
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

function compile(name: string): ValidateFunction {
  const schema = JSON.parse(fs.readFileSync(path.join(root, `schemas/${name}.schema.json`), 'utf8'));
  const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);
  compiled.set(name, validate);
  return validate;
}
