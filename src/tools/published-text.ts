import type { MadeCheck } from '../../tests/published/published';
import type { HowKnown } from '../plan/figure';

/** The table of published checks as Markdown. The same checks give the same text, in whatever order they were made. */

const KNOWN: readonly HowKnown[] = ['published', 'common practice', 'from memory'];

const INTRO = `<!-- Written by \`npm run published\`. Do not edit. -->

# Published checks

Each line holds a value that stands in a source outside this repository, or that follows from such values by
arithmetic, against what the tool computes. They run with every test run; a value that leaves its tolerance fails it.

- **Difference** is ours less the source's, both as shown.
- **Tolerance** is half of the last digit that the source prints, unless the test says why it is more: a range in the
  source, a rule of thumb, or two sources that differ.
- Where the two are equal, the tool mostly holds the source's value as reference data: the check shows that it is
  carried, converted and used right.
- **Known** says how the source's value was come by. *published*: read in the publication named, or arithmetic on
  values read there, or physics. *common practice*: what the trade does, with no one publication behind it. *from
  memory*: recalled from the publication named and not read again; to be confirmed against it. A check against a value
  from memory shows that the tool computes with what it says it computes with, no more.

A subject is the test file of that name in this folder. \`npm run published\` runs the checks and writes this page;
\`npm test\` fails when it is out of date.
`;

/** Throws where two checks have one name, since a reader could not tell which is meant. */
export function publishedTable(checks: readonly MadeCheck[]): string {
  refuseTwins(checks);
  const names = [...new Set(checks.map(({ subject }) => subject))].sort();
  const of = (name: string) => checks.filter(({ subject }) => subject === name);
  const sections = names.map((name) => sectionText(name, of(name)));
  return [INTRO, countsText(names, checks, of), ...sections].join('\n');
}

function refuseTwins(checks: readonly MadeCheck[]): void {
  const seen = new Map<string, string>();
  for (const { id, subject } of checks) {
    const other = seen.get(id);
    if (other !== undefined) throw new Error(`two checks are named ${id}: in ${other} and in ${subject}`);
    seen.set(id, subject);
  }
}

function countsText(
  names: readonly string[],
  checks: readonly MadeCheck[],
  of: (name: string) => readonly MadeCheck[],
): string {
  const counts = (some: readonly MadeCheck[]) => [
    ...KNOWN.map((known) => String(some.filter((one) => one.known === known).length)),
    String(some.length),
  ];
  const rows = names.map((name) => [`[${titleOf(name)}](#${name})`, ...counts(of(name))]);
  const all = ['**All**', ...counts(checks).map((count) => `**${count}**`)];
  const rule = ['---', ...KNOWN.map(() => '---:'), '---:'];
  return tableText(['Subject', ...KNOWN, 'all'], rule, [...rows, all]);
}

/** One subject: its checks in the order of its test file, and its sources, numbered as they first come. */
function sectionText(name: string, checks: readonly MadeCheck[]): string {
  const sources = [...new Set(checks.map(({ source }) => source))];
  const rows = checks.map((check) => [
    check.what,
    `${sources.indexOf(check.source) + 1}`,
    ...valuesOf(check),
    check.unit === '1' ? '' : check.unit,
    check.known,
  ]);
  const head = ['What', 'Source', 'Its value', 'Ours', 'Difference', 'Tolerance', 'Unit', 'Known'];
  const rule = ['---', '---:', '---:', '---:', '---:', '---:', '---', '---'];
  const list = sources.map((source, index) => `${index + 1}. ${source}`).join('\n');
  return `## ${titleOf(name)}\n\n${tableText(head, rule, rows)}\nSources:\n\n${list}\n`;
}

/** The source's value, ours, the difference and the tolerance. */
function valuesOf({ expected, actual, tolerance }: MadeCheck): string[] {
  const digits = Math.max(digitsOf(shown(expected)), digitsToTell(tolerance));
  const ours = rounded(actual, digits);
  const difference = rounded(ours - Number(shown(expected)), digits);
  const sign = difference > 0 ? '+' : '';
  return [shown(expected), plain(ours), `${sign}${plain(difference)}`, plain(tolerance)];
}

/**
 * Decimals that tell a difference of a tenth of the tolerance. Six at most: beyond them stands the noise of floating
 * point, which is not the same on every machine.
 */
function digitsToTell(tolerance: number): number {
  if (tolerance === 0) return 0;
  return Math.min(6, Math.max(0, Math.ceil(1 - Math.log10(tolerance) - 1e-9)));
}

/** Rounded in two steps, so that noise about half a digit cannot turn it. */
function rounded(value: number, digits: number): number {
  return Number(Number(value.toPrecision(12)).toFixed(digits)) + 0;
}

/** The source's value as it prints it; a third and its like to eight digits. */
function shown(value: number): string {
  return plain(Number(value.toPrecision(8)));
}

/** A number without an exponent or the noise of floating point. */
function plain(value: number): string {
  return Math.abs(value) < 1e-6 ? '0' : String(Number(value.toPrecision(12)));
}

function digitsOf(text: string): number {
  return text.split('.')[1]?.length ?? 0;
}

function titleOf(name: string): string {
  const words = name.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function tableText(head: readonly string[], rule: readonly string[], rows: readonly string[][]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |\n`;
  return [head, rule, ...rows].map(line).join('');
}
