import path from 'node:path';
import { type Command, Option } from 'commander';
import { outlineOf } from '../plan/outline';
import type { OutlineReport } from '../report/schemas';
import { CannotRun } from './io';
import { EXIT, type Run } from './run';

const HELP = `
Prints one plan file as lines that each say one value with its whole path, sorted, without comments
and layout. A number stands as it is written:

  lots L12 bins: 140
  lots L12 maturity firmness: 78 N

With it, git shows differences of plan files as changes of the plan: entries that were only moved,
reordered or commented differ in nothing. Once for a repository:

  echo '*.lotplan.yaml diff=lotplan' >> .gitattributes
  git config diff.lotplan.textconv 'lotwright outline'
  git config diff.lotplan.cachetextconv true

From then on git diff, git show and git log -p use it; --no-textconv shows the text itself. A file
that cannot be read as YAML, or has marks of a merge conflict, is printed as it stands.

Examples:
  lotwright outline plans/2026/lots.lotplan.yaml
  git log -p -- plans/2026
`;

export function addOutline(program: Command, run: Run): void {
  program
    .command('outline')
    .argument('<file>', 'the plan file')
    .description('a plan file as sorted lines, a value each: what git compares')
    .addOption(
      new Option('--format <format>', 'text for git, json for programs')
        .choices(['text', 'json'])
        .default('text'),
    )
    .addHelpText('after', HELP)
    .action((file: string, { format }: { readonly format: 'text' | 'json' }) => {
      const text = run.io.files.read(path.resolve(run.io.cwd, file));
      if (typeof text !== 'string') throw new CannotRun(`${file} could not be read: ${text.failure}.`);
      const outline = outlineOf(text);
      const report = {
        format: 'lotwright-outline-report',
        version: 1,
        file,
        lines: outline.split('\n').slice(0, -1),
      } satisfies OutlineReport;
      run.io.out.write(format === 'json' ? `${JSON.stringify(report, null, 2)}\n` : outline);
      run.exitCode = EXIT.clean;
    });
}
