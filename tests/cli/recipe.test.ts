import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { root } from './in-process';

/** The comment's step of the README's recipe, run in a shell with stand-ins for the forge's program and for ours. */

interface Workflow {
  readonly jobs: { readonly plan: { readonly steps: readonly { readonly run?: string }[] } };
}

function step(): string {
  const readme = fs.readFileSync(path.join(root, 'README.md'), 'utf8');
  const recipe = /\.github\/workflows\/plan\.yml`\):\n\n```yaml\n([\s\S]*?)^```/m.exec(readme)?.[1] ?? '';
  const workflow: Workflow = parse(recipe);
  return workflow.jobs.plan.steps.find(({ run }) => run?.includes('gh pr comment'))?.run ?? '';
}

let folder = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'lotwright-recipe-'));
  const stub = (name: string, text: string) =>
    fs.writeFileSync(path.join(folder, name), `#!/bin/sh\n${text}\n`, { mode: 0o755 });
  stub('lotwright', 'printf "%s" "$COMMENT"');
  // Lists the comments there are, through the filter's words; tells all else that it is asked.
  stub('gh', 'case "$*" in *--paginate*) printf "%s" "$THERE" ;; *) echo "$*" >> asked ;; esac');
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function asked(comment: string, there: string): string {
  fs.rmSync(path.join(folder, 'asked'), { force: true });
  execFileSync('bash', ['-eo', 'pipefail', '-c', step()], {
    cwd: folder,
    env: {
      ...process.env,
      PATH: `${folder}:${process.env.PATH ?? ''}`,
      COMMENT: comment,
      THERE: there,
      NUMBER: '12',
      BASE: 'origin/main',
      LINKS: 'https://forge.example/',
      GITHUB_REPOSITORY: 'us/plans',
    },
  });
  const file = path.join(folder, 'asked');
  return fs.existsSync(file) ? fs.readFileSync(file, 'utf8').trim() : '';
}

describe.skipIf(process.platform === 'win32')("the README's recipe for pull requests", () => {
  it('writes one comment, changes it in place from then on, and takes it away where nothing changes', () => {
    expect(asked('<!-- lotwright compare -->\ntext', '')).toBe('pr comment 12 --body-file comment.md');
    expect(asked('<!-- lotwright compare -->\ntext', '77\n')).toBe(
      'api -X PATCH repos/us/plans/issues/comments/77 -F body=@comment.md',
    );
    expect(asked('', '77\n')).toBe('api -X DELETE repos/us/plans/issues/comments/77');
    expect(asked('', '')).toBe('');
  });
});
