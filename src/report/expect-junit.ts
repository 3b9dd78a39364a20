import type { ExpectationRow } from './expect-report';
import { amountsText } from './expect-text';
import { xmlText } from './papers/xml';
import type { ExpectReport } from './schemas';

/**
 * The promises as a JUnit report: a suite a file, a case a promise, so that build servers list them as tests. Nothing in
 * it depends on when or where it was made.
 */
export function expectJunit(report: ExpectReport): string {
  const { counts, expectations: rows } = report;
  const files = [...new Set(rows.map(({ place }) => place.file))];
  const all = { tests: rows.length, failures: counts.broken, errors: 0, skipped: counts.notJudged };
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites${attributes({ name: 'lotwright expect', ...all })}>`,
    ...files.flatMap((file) =>
      suite(
        file,
        rows.filter(({ place }) => place.file === file),
        report.caution,
      ),
    ),
    '</testsuites>',
    '',
  ].join('\n');
}

function suite(file: string, rows: readonly ExpectationRow[], caution: string | undefined): string[] {
  const count = (state: ExpectationRow['state']) => rows.filter((row) => row.state === state).length;
  const counts = { tests: rows.length, failures: count('broken'), errors: 0, skipped: count('not judged') };
  return [
    `  <testsuite${attributes({ name: file, ...counts })}>`,
    ...rows.flatMap((row) => testCase(row)),
    ...(caution === undefined ? [] : [`    <system-out>${xmlText(caution)}</system-out>`]),
    '  </testsuite>',
  ];
}

function testCase(row: ExpectationRow): string[] {
  const { id, place, state, claim, because, why, cures } = row;
  const open = `    <testcase${attributes({ name: id, classname: place.file, file: place.file, line: place.line })}`;
  if (state === 'kept') return [`${open}/>`];
  if (state === 'not judged')
    return [`${open}>`, `      <skipped${attributes({ message: why })}/>`, '    </testcase>'];
  const text = [
    `${place.file}:${place.line}:${place.column}`,
    claim,
    amountsText(row),
    ...(because === undefined ? [] : [`because: ${because}`]),
    why,
    ...cures.map((cure) => `cure: ${cure.text}`),
  ].join('\n');
  return [
    `${open}>`,
    `      <failure${attributes({ message: `${claim}: ${amountsText(row)}`, type: row.kind ?? 'expectation' })}>${xmlText(text)}</failure>`,
    '    </testcase>',
  ];
}

function attributes(values: Readonly<Record<string, string | number>>): string {
  return Object.entries(values)
    .map(([name, value]) => ` ${name}="${attributeText(String(value))}"`)
    .join('');
}

/** Line ends and tabs within quotes are read as spaces where they are not written as references. */
function attributeText(text: string): string {
  return xmlText(text).replace(/[\t\n\r]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
