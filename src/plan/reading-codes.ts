import type { Problem, Severity } from './problem';

/** The codes of what reading a plan finds, each with its severity and one line for lists. */
export const readingCodes: readonly {
  readonly code: string;
  readonly summary: string;
  readonly severity: Severity;
}[] = [
  error('file-too-large', 'A file, or a part of one, is too large to be read.'),
  error('not-text', 'A file is not text, or not saved as UTF-8.'),
  error('merge-conflict', 'Marks of a merge that is not resolved.'),
  warning('line-ending', 'Lines end with a carriage return alone.'),
  error('tab-indent', 'Lines are indented with tabs.'),
  error('yaml-syntax', 'The text is not valid YAML.'),
  error(
    'yaml-feature-not-allowed',
    'A part of YAML that plans do without: anchors, aliases, tags, merge keys, directives, several documents.',
  ),
  error('duplicate-key', 'A key stands twice.'),
  error(
    'duplicate-identifier',
    'Two entries have the same identifier, or a section that stands once stands twice.',
  ),
  error('unknown-key', 'A key that the plan language does not have.'),
  error('missing-key', 'A key that must be there is not.'),
  error('missing-value', 'A key has no value yet.'),
  error('wrong-type', 'A value of another kind than the key needs.'),
  error('wrong-dimension', 'A quantity of another dimension than the key needs.'),
  error('unit-missing', 'A number without a unit where one matters.'),
  error('unknown-unit', 'A unit that is not known for the key.'),
  error('not-a-quantity', 'A text where a quantity is expected.'),
  error('out-of-range', 'A value beyond what makes sense for the key.'),
  error('not-a-date', 'A text that is no calendar date.'),
  error('not-a-week', 'A text that is no ISO week.'),
  error('span-reversed', 'A span of days or weeks ends before it starts.'),
  error('not-allowed-value', 'A word that is not one of those the key allows.'),
  error(
    'bad-identifier',
    'An identifier that does not start with a letter, or has characters it may not have.',
  ),
  error('language-version', 'A version of the plan language that is not known.'),
  warning(
    'language-version-missing',
    'The plan does not say which version of the plan language it is written in.',
  ),
  warning('allowance-without-reason', 'A comment that should allow a finding lacks the code or the reason.'),
  error('too-many-problems', 'More problems in one file than are shown.'),
];

const ERRORS: ReadonlySet<string> = new Set(
  readingCodes.flatMap(({ code, severity }) => (severity === 'error' ? [code] : [])),
);

/** Whether what stands at its place could not be read, and so is left out of the plan. */
export function isReadingError({ code, severity = 'error' }: Problem): boolean {
  return severity === 'error' && ERRORS.has(code);
}

function error(code: string, summary: string) {
  return { code, summary, severity: 'error' as const };
}

function warning(code: string, summary: string) {
  return { code, summary, severity: 'warning' as const };
}
