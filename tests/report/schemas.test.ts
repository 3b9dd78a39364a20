import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { reportSchemaFiles } from '../../src/tools/report-schema-files';

const root = path.resolve(__dirname, '../..');

test.each(reportSchemaFiles())('$path is the one made from the code', ({ path: file, text }) => {
  expect(fs.readFileSync(path.join(root, file), 'utf8')).toBe(text);
});
