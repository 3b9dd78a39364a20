import { describe, expect, test } from 'vitest';
import { checkText, countsText, fails, findingText } from '../../src/report/check-report';
import type { CheckReport, FindingJson } from '../../src/report/schemas';
import { visibleWidth } from '../../src/report/table';
import { textOf } from './hand-made';

const text =
  "rooms:\n  R1:\n    bin-type: plastik-1200   # the new bins\n\tstack: 9\n  R2: { stack: 'é日本', law: none }\n";
const files = new Map([['a.lotplan.yaml', textOf('a.lotplan.yaml', text)]]);

function finding(
  line: number,
  column: number,
  endColumn: number,
  more: Partial<FindingJson> = {},
): FindingJson {
  return {
    code: 'unknown-bin-type',
    family: 'plan',
    severity: 'error',
    message: 'There is no bin type "plastik-1200".',
    place: { file: 'a.lotplan.yaml', line, column, endLine: line, endColumn },
    related: [],
    fixes: [],
    fingerprint: 'unknown-bin-type:R1',
    ...more,
  };
}

function report(findings: FindingJson[], more: Partial<CheckReport> = {}): CheckReport {
  return {
    format: 'lotwright-check-report',
    version: 1,
    plan: { files: ['a.lotplan.yaml'] },
    units: 'metric',
    failOn: 'error',
    failed: findings.length > 0,
    counts: { errors: findings.length, warnings: 0, notices: 0 },
    findings,
    ...more,
  };
}

describe('a finding as text', () => {
  test('has its place, severity, code and message, and a mark under what it speaks of', () => {
    expect(findingText(finding(3, 15, 27), files)).toEqual([
      'a.lotplan.yaml:3:15 error unknown-bin-type There is no bin type "plastik-1200".',
      '  3 |     bin-type: plastik-1200   # the new bins',
      '    |               ^^^^^^^^^^^^',
    ]);
  });

  test('has other places it speaks of, and what would cure it', () => {
    const place = { file: 'b.lotplan.yaml', line: 7, column: 3, endLine: 7, endColumn: 9 };
    const lines = findingText(
      finding(3, 15, 27, {
        related: [{ place, message: 'Bin types are defined here.' }],
        fixes: [{ title: 'Write plastic-1200', edits: [] }],
      }),
      files,
    );
    expect(lines.slice(3)).toEqual([
      '  see b.lotplan.yaml:7:3 Bin types are defined here.',
      '  fix: Write plastic-1200',
    ]);
  });

  test('marks the right place after tabs and letters of other scripts', () => {
    expect(findingText(finding(4, 2, 7), files).slice(1)).toEqual(['  4 |  stack: 9', '    |  ^^^^^']);
    // Letters of some scripts take two places in a terminal.
    const marked = findingText(finding(5, 23, 26), files);
    const before = (marked[1] ?? '').slice(0, (marked[1] ?? '').indexOf('law'));
    expect(marked[2]?.indexOf('^^^')).toBe(visibleWidth(before));
    expect(visibleWidth(before)).toBe(before.length + 2);
  });

  test('marks one place where the finding is about an empty one, and stays in the line of a long one', () => {
    expect(findingText(finding(2, 3, 3), files)[2]).toBe('    |   ^');
    const long = finding(3, 15, 1, { place: { ...finding(3, 15, 15).place, endLine: 5, endColumn: 2 } });
    expect(findingText(long, files)[2]).toBe(
      `    |               ${'^'.repeat('plastik-1200   # the new bins'.length)}`,
    );
  });

  test('keeps to the page, however long the message and the line', () => {
    const wide = `rooms: { ${'x'.repeat(400)}: here }`;
    const wideFiles = new Map([['a.lotplan.yaml', textOf('a.lotplan.yaml', wide)]]);
    const at = wide.indexOf('here') + 1;
    const lines = findingText(
      finding(1, at, at + 4, { message: 'A long message. '.repeat(20).trim() }),
      wideFiles,
    );
    expect(Math.max(...lines.map(visibleWidth))).toBeLessThanOrEqual(100);
    expect(lines.find((line) => line.includes('here }'))).toBeDefined();
    expect(lines.at(-1)).toContain('^^^^');
  });
});

describe('the summary', () => {
  test('says how many, in how many files, and whether that fails', () => {
    expect(
      checkText(report([finding(3, 15, 27)]), files)
        .split('\n')
        .at(-1),
    ).toBe('1 error in 1 file. Fails at severity error.');
    const warned = report([finding(3, 15, 27, { severity: 'warning' })], {
      failed: false,
      counts: { errors: 0, warnings: 1, notices: 0 },
    });
    expect(checkText(warned, files).split('\n').at(-1)).toBe(
      '1 warning in 1 file. None at severity error or above.',
    );
  });

  test('of a plan without findings is one line', () => {
    const clean = report([], { counts: { errors: 0, warnings: 0, notices: 0 } });
    expect(checkText(clean, files)).toBe('No findings in 1 file.');
  });

  test('counts by severity', () => {
    expect(countsText({ errors: 2, warnings: 1, notices: 0 })).toBe('2 errors, 1 warning');
    expect(countsText({ errors: 0, warnings: 0, notices: 0 })).toBeUndefined();
  });
});

test.each([
  ['error', 'error', true],
  ['warning', 'error', false],
  ['warning', 'warning', true],
  ['notice', 'warning', false],
  ['notice', 'notice', true],
] as const)('a finding of severity %s under --fail-on %s: fails %s', (severity, failOn, expected) => {
  expect(fails([{ severity }], failOn)).toBe(expected);
});
