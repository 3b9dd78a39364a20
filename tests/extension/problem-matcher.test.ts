import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CheckReport } from '../../src/report/schemas';
import { lotwright, root } from '../cli/in-process';

interface Pattern {
  readonly regexp: string;
  readonly file?: number;
  readonly line?: number;
  readonly column?: number;
  readonly severity?: number;
  readonly code?: number;
  readonly message?: number;
}

interface Caught {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly severity: string;
  readonly code: string;
  readonly message: string;
}

const { contributes } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
const [matcher] = contributes.problemMatchers;
const pattern: Pattern = matcher.pattern;

/** As the editor does it, line by line. */
function caughtIn(output: string): Caught[] {
  return output.split(/\r?\n/).flatMap((line) => {
    const match = new RegExp(pattern.regexp).exec(line);
    if (!match) return [];
    const part = (group: number | undefined) => match[group ?? -1] ?? '';
    return [
      {
        file: part(pattern.file),
        line: Number(part(pattern.line)),
        column: Number(part(pattern.column)),
        severity: part(pattern.severity),
        code: part(pattern.code),
        message: part(pattern.message),
      },
    ];
  });
}

async function foundIn(plan: string): Promise<[CheckReport, string]> {
  const json = await lotwright(['check', plan, '--format', 'json']);
  const lines = await lotwright(['check', plan, '--format', 'lines']);
  return [JSON.parse(json.out), lines.out];
}

describe('the problem matcher of the task', () => {
  it.each(['with-mistakes', 'first-season', 'full-season', 'in-march'])(
    'catches every finding of %s in what `check` prints, and nothing else',
    async (name) => {
      const [report, lines] = await foundIn(`sample-plans/${name}`);
      expect(report.findings.length).toBeGreaterThan(0);
      const caught = caughtIn(lines);
      const asCaught = report.findings.map(({ place, severity, code, message }) => ({
        file: place.file,
        line: place.line,
        column: place.column,
        severity,
        code,
        message,
      }));
      const byPlace = (a: Caught, b: Caught) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
      expect([...caught].sort(byPlace)).toEqual(asCaught.sort(byPlace));
    },
  );

  it('takes paths with blanks, colons and drives, and no line of a summary', () => {
    const [windows] = caughtIn(
      'C:\\plans\\a b.lotplan.yaml:12:5 notice room-partly-filled Room R1: 40 of 120.',
    );
    expect(windows).toEqual({
      file: 'C:\\plans\\a b.lotplan.yaml',
      line: 12,
      column: 5,
      severity: 'notice',
      code: 'room-partly-filled',
      message: 'Room R1: 40 of 120.',
    });
    expect(caughtIn('3 errors, 2 warnings\n  in 2 files\n\nplan: all is well')).toEqual([]);
  });

  it('has a severity for notices, which the editor does not know by that name', () => {
    // The editor takes error, warning and info; any other word gets the severity of the matcher.
    expect(matcher.severity).toBe('info');
    expect(matcher).toMatchObject({ name: 'lotwright', owner: 'lotwright', source: 'Lotwright' });
    expect(matcher.fileLocation).toContain('autoDetect');
  });

  it('is what the tasks are made with', () => {
    const tasks = readFileSync(path.join(root, 'extension/check-tasks.ts'), 'utf8');
    expect(tasks).toContain(`'$${matcher.name}'`);
    expect(tasks).toContain("'check', plan, '--format', 'lines'");
    expect(contributes.taskDefinitions.map(({ type }: { type: string }) => type)).toEqual(['lotwright']);
  });
});
