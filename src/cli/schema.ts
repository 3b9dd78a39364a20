import { type Command, Option } from 'commander';
import { nearest } from '../plan/nearest';
import type { SchemaListReport } from '../report/schemas';
import { PAGE_WIDTH, table } from '../report/table';
import { CannotRun, type Resources } from './io';
import { EXIT, type Run } from './run';

const HELP = `
Examples:
  lotwright schema
  lotwright schema check
  lotwright schema release-report > release-report.schema.json
`;

export function addSchema(program: Command, run: Run): void {
  program
    .command('schema')
    .description('print a published JSON Schema, or list them all')
    .argument('[name]', 'the schema, as check-report, or check for short')
    .addOption(
      new Option('--format <format>', 'how the list is shown; a schema itself is always JSON')
        .choices(['text', 'json'])
        .default('text'),
    )
    .addHelpText('after', HELP)
    .action((name: string | undefined, options: { readonly format: 'text' | 'json' }) => {
      const { resources, out } = run.io;
      if (name !== undefined) out.write(schemaText(resources, name));
      else if (options.format === 'json') out.write(`${JSON.stringify(listReport(resources), null, 2)}\n`);
      else out.write(`${listText(listReport(resources))}\n`);
      run.exitCode = EXIT.clean;
    });
}

function schemaText(resources: Resources, name: string): string {
  const text = resources.schema(name) ?? resources.schema(`${name}-report`);
  if (text !== undefined) return text;
  const near = nearest(name, resources.schemaNames);
  const hint = near === undefined ? '' : ` Nearest: ${near}.`;
  throw new CannotRun(`There is no schema "${name}".${hint} There are: ${resources.schemaNames.join(', ')}`);
}

function listReport(resources: Resources): SchemaListReport {
  return {
    format: 'lotwright-schema-list-report',
    version: 1,
    schemas: resources.schemaNames.map((name) => {
      const { title = '', description = '' } = JSON.parse(resources.schema(name) ?? '{}');
      return { name, title, description };
    }),
  };
}

function listText(report: SchemaListReport): string {
  return table(
    [{ title: 'Schema' }, { title: 'What it describes', breaks: true }],
    report.schemas.map(({ name, description }) => [name, description]),
    { width: PAGE_WIDTH },
  ).join('\n');
}
