import { hasRule, ruleOf } from '../findings/rules';
import type { ComputedSeason, Finding } from '../findings/types';
import { formatDay } from '../plan/dates';
import type { UnitSystem } from '../plan/display';
import type { Plan, PlanText } from '../plan/model';
import type { Severity } from '../plan/problem';
import { counted } from '../plan/wording';
import { caution, isCautioned, withCautionAbove } from '../room/caution';
import { withFolderTyped } from './command-to-copy';
import { noPaint, type Paint } from './paint';
import { countFindings, findingJson, planPart } from './parts';
import { lineText, type Place } from './place';
import type { CheckReport, FindingCounts, FindingJson } from './schemas';
import { PAGE_WIDTH, visibleWidth, wrap } from './table';

const RANK: Readonly<Record<Severity, number>> = { error: 2, warning: 1, notice: 0 };

/**
 * Whether any finding is at or above the severity at which a run fails. The caution, which is told for as long as a sealed
 * room is to be opened and cannot be turned off, is nobody's to cure: as a notice it fails nothing.
 */
export function fails(
  findings: readonly { readonly severity: Severity; readonly code?: string }[],
  failOn: Severity,
): boolean {
  return findings.some(
    ({ severity, code }) =>
      RANK[severity] >= RANK[failOn] && !(severity === 'notice' && code !== undefined && isCaution(code)),
  );
}

function isCaution(code: string): boolean {
  return hasRule(code) && ruleOf(code).isKept === true;
}

/** Findings in the order they come in: by file and place. */
export function checkReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  options: { readonly units: UnitSystem; readonly failOn: Severity },
): CheckReport {
  const { plan } = season;
  return {
    format: 'lotwright-check-report',
    version: 1,
    plan: planPart(plan),
    units: options.units,
    failOn: options.failOn,
    failed: fails(findings, options.failOn),
    ...lookedFrom(plan),
    counts: countFindings(findings),
    findings: findings.map((finding) => findingJson(plan, finding)),
  };
}

function lookedFrom({ stand, asOf }: Plan): Pick<CheckReport, 'lookedFrom'> {
  if (stand === undefined) return {};
  return { lookedFrom: { day: formatDay(stand), by: asOf === undefined ? 'records' : 'as-of' } };
}

/**
 * The report as text: findings by file, each with its line of the plan; then a line that sums up. The caution stands once
 * before all of them, in full, where one of them speaks of opening: told in each it would no longer be read.
 */
export function checkText(
  report: CheckReport,
  files: ReadonlyMap<string, PlanText>,
  paint: Paint = noPaint,
  folder?: string,
): string {
  const lines = report.findings.flatMap((finding) => {
    const message = withFolderTyped(withCautionAbove(finding.message), folder);
    return [...findingText({ ...finding, message }, files, paint), ''];
  });
  const isTold = report.findings.some(({ message }) => isCautioned(message));
  const first = isTold ? [...wrap(caution, PAGE_WIDTH).map(paint.bold), ''] : [];
  return [...first, ...lines, ...lookedFromLine(report), summaryLine(report, paint)].join('\n');
}

function lookedFromLine({ lookedFrom: from }: CheckReport): string[] {
  if (!from) return [];
  const why = from.by === 'as-of' ? 'as asked' : 'the last day recorded';
  return [`Looked at from the end of ${from.day}, ${why}.`];
}

/** A line for each finding, however long, then the line that sums up: for programs that read line by line. */
export function checkLines(report: CheckReport): string {
  const lines = report.findings.map(({ place, severity, code, message }) =>
    `${place.file}:${place.line}:${place.column} ${severity} ${code} ${message}`.replace(/\s+/g, ' '),
  );
  return [...lines, summaryLine(report, noPaint)].join('\n');
}

/** One finding with its source line and a mark under what it speaks of. */
export function findingText(
  finding: FindingJson,
  files: ReadonlyMap<string, PlanText>,
  paint: Paint = noPaint,
): string[] {
  const { place, severity } = finding;
  const head = `${place.file}:${place.line}:${place.column} ${paint[severity](severity)} ${paint.bold(finding.code)}`;
  const oneLine = `${head} ${finding.message}`;
  const message =
    visibleWidth(oneLine) <= PAGE_WIDTH
      ? [oneLine]
      : [head, ...wrap(finding.message, PAGE_WIDTH - 2).map((line) => `  ${line}`)];
  return [
    ...message,
    ...excerpt(place, files.get(place.file), paint[severity]),
    ...finding.related.flatMap((related) => relatedText(related)),
    ...finding.fixes.flatMap(({ title }) => wrap(`  fix: ${title}`, PAGE_WIDTH, '       ')),
  ];
}

function relatedText({ place, message }: FindingJson['related'][number]): string[] {
  return wrap(`  see ${place.file}:${place.line}:${place.column} ${message}`, PAGE_WIDTH, '      ');
}

/** The line of the plan, cut to the page around the place, and a mark under the place. */
function excerpt(place: Place, file: PlanText | undefined, paint: (text: string) => string): string[] {
  const text = lineText(file, place.line).replaceAll('\t', ' ');
  if (text.trim() === '') return [];
  const number = String(place.line);
  const room = PAGE_WIDTH - number.length - 5;
  const start = place.column - 1;
  const from = start < room ? 0 : start - Math.floor(room / 3);
  const shown = text.slice(from, from + room).trimEnd();
  const end = place.endLine > place.line ? text.length : place.endColumn - 1;
  const before = visibleWidth(text.slice(from, start));
  const length = Math.max(1, Math.min(visibleWidth(text.slice(start, end).trimEnd()), room - before));
  return [
    `  ${number} | ${shown}`,
    `  ${' '.repeat(number.length)} | ${' '.repeat(before)}${paint('^'.repeat(length))}`,
  ];
}

function summaryLine(report: CheckReport, paint: Paint): string {
  const files = counted(report.plan.files.length, 'file');
  const found = countsText(report.counts);
  if (found === undefined) return paint.good(`No findings in ${files}.`);
  const verdict = report.failed
    ? paint.error(`Fails at severity ${report.failOn}.`)
    : `None at severity ${report.failOn} or above.`;
  // At that severity all that is left is the caution.
  const isCautionOnly = report.failOn === 'notice' && !report.failed;
  return `${found} in ${files}. ${isCautionOnly ? 'The caution alone fails no check.' : verdict}`;
}

/** `2 errors, 1 warning`; undefined where there are none. */
export function countsText(counts: FindingCounts): string | undefined {
  const parts = [
    counts.errors > 0 ? counted(counts.errors, 'error') : '',
    counts.warnings > 0 ? counted(counts.warnings, 'warning') : '',
    counts.notices > 0 ? counted(counts.notices, 'notice') : '',
  ].filter((part) => part !== '');
  return parts.length === 0 ? undefined : parts.join(', ');
}
