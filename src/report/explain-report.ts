import type { ComputedSeason, Finding } from '../findings/types';
import { formatDay, formatWeek } from '../plan/dates';
import {
  type DisplayUnits,
  isAsGiven,
  type Measure,
  measureLabel,
  measureOf,
  showMeasure,
  showSetPoint,
  type UnitSystem,
} from '../plan/display';
import type { PlanText } from '../plan/model';
import type { Span } from '../plan/span';
import { counted } from '../plan/wording';
import { reasonFor } from '../release/reasons';
import { caution } from '../room/caution';
import { findingText } from './check-report';
import { commandLines, commandToCopy } from './command-to-copy';
import { StepList } from './derivation';
import { displayUnits, explainDerivation, forPeople, howCounted, SourceList } from './explain';
import type { Found } from './find-thing';
import { figureId, type NamedFigure } from './named-figures';
import { noPaint, type Paint } from './paint';
import { findingJson, planPart, present } from './parts';
import { placeOf } from './place';
import { reasonJson } from './reason-json';
import { reasonText } from './reason-text';
import type { ExplainReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import type { Thing } from './thing';

type Explained = Extract<Found, { kind: 'thing' | 'figure' }>;

export interface ExplainReportOptions {
  readonly units?: UnitSystem | undefined;
  /** For a finding's code: its page, as Markdown. */
  readonly page?: string | undefined;
}

/** How a thing's figures came about, and the findings in it. */
export function explainReport(
  season: ComputedSeason,
  findings: readonly Finding[],
  explained: Explained,
  options: ExplainReportOptions = {},
): ExplainReport {
  const { plan } = season;
  const { thing } = explained;
  const units = displayUnits(plan, options.units);
  const list = new StepList(plan, units);
  const reason = explained.kind === 'figure' ? undefined : weekReason(season, thing);
  const asked =
    explained.kind === 'figure' ? [explained.figure] : thing.figures.filter(({ minor }) => !minor);
  const figures = asked.map((named) => ({
    id: figureId(named),
    name: named.figure.name,
    step: list.add(named.figure),
    ...present({ shown: measureOf(named.figure, units), ...countedJson(named) }),
  }));
  return {
    format: 'lotwright-explain-report',
    version: 1,
    plan: planPart(plan),
    units: units.system,
    subject: {
      kind: explained.kind === 'figure' ? 'figure' : thing.kind,
      id: explained.kind === 'figure' ? figureId(explained.figure) : thing.id,
      summary: thing.summary,
      places: thing.at.map((at) => placeOf(plan, at)),
    },
    figures,
    steps: list.steps as ExplainReport['steps'],
    ...present({
      reason,
      page: options.page,
      caution:
        reason || asked.some(({ slug }) => isAboutOpening(slug)) || speaksOfOpening(options.page)
          ? caution
          : undefined,
    }),
    findings:
      explained.kind === 'figure'
        ? []
        : findings.filter((finding) => concerns(thing, finding)).map((finding) => findingJson(plan, finding)),
  };
}

function countedJson({ counted }: NamedFigure) {
  const { from } = counted ?? {};
  return {
    week: counted && formatWeek(counted.week),
    countedFrom: from && { day: formatDay(from.day), what: from.what },
  };
}

/** Why a room, or a fill, opens in its week in the schedule. */
function weekReason({ plan, release }: ComputedSeason, thing: Thing): ExplainReport['reason'] {
  if (!release || (thing.kind !== 'room' && thing.kind !== 'fill')) return undefined;
  const { problem, result } = release;
  const at = problem.rooms.findIndex((one) => one[thing.kind === 'room' ? 'room' : 'fill'] === thing.id);
  if (at < 0) return undefined;
  const opens = result.schedule.opens[at] ?? undefined;
  return {
    ...present({ opens: opens === undefined ? undefined : formatWeek(problem.firstWeek + opens) }),
    ...reasonJson(plan, problem, reasonFor(problem, result.schedule, at)),
  };
}

/** Figures that speak of opening or entering a room. */
const ABOUT_OPENING = new Set([
  'earliest',
  'best-before',
  'latest',
  'oxygen-at-end',
  'oxygen-rise',
  'oxygen-balance',
  'carbon-dioxide-at-end',
  'carbon-dioxide-balance',
]);

function isAboutOpening(slug: string): boolean {
  return ABOUT_OPENING.has(slug) || slug.startsWith('fresh-air');
}

function concerns(thing: Thing, finding: Finding): boolean {
  if (thing.kind === 'finding') return finding.code === thing.id;
  return thing.within.some((span) => holds(span, finding.at)) || thing.at.some((at) => holds(at, finding.at));
}

function holds(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}

/**
 * The report as text: one figure with all it rests on, or a thing with a line for each of its figures. `folder`: the plan's
 * as it was typed, for the command that tells more.
 */
export function explainText(
  report: ExplainReport,
  files: ReadonlyMap<string, PlanText>,
  units: DisplayUnits,
  paint: Paint = noPaint,
  folder?: string,
): string {
  const { subject } = report;
  const places = subject.places.map(({ file, line }) => `${file}:${line}`).join(', ');
  const heading = [
    `${paint.bold(subject.kind === 'section' ? subject.id : `${subject.kind} ${subject.id}`)}${places === '' ? '' : `  ${paint.dim(places)}`}`,
    ...wrap(subject.summary ?? '', PAGE_WIDTH),
  ];
  const body = subject.kind === 'figure' ? figureLines(report, units) : thingLines(report, folder);
  const told = report.findings.some(({ message }) => report.caution && message.includes(report.caution));
  const cautions = report.caution === undefined || told ? [] : ['', ...wrap(report.caution, PAGE_WIDTH)];
  const lines = [
    ...heading,
    ...body,
    ...reasonLines(report, units),
    ...pageLines(report),
    ...findingLines(report, files, paint),
    ...cautions,
  ];
  return lines.join('\n');
}

function figureLines(report: ExplainReport, units: DisplayUnits): string[] {
  const [figure] = report.figures;
  if (!figure) return [];
  const { week, countedFrom } = figure;
  const from = countedFrom ? `; its days count from ${countedFrom.day} (${countedFrom.what})` : '';
  return [
    ...(week === undefined ? [] : ['', `Comes to week ${week}${from}.`]),
    '',
    explainDerivation({ result: figure.step, steps: report.steps }, units),
  ];
}

function thingLines(report: ExplainReport, folder: string | undefined): string[] {
  const { subject, figures } = report;
  if (figures.length === 0) return [];
  const steps = new Map(report.steps.map((step) => [step.id, step]));
  const sources = new SourceList();
  const own = `${subject.id}.`;
  const lines = table(
    [
      { title: 'Figure' },
      { title: 'Value', align: 'right' },
      { title: 'Unit' },
      { title: 'How', breaks: true },
    ],
    figures.map(({ id, step, shown, week, countedFrom }) => [
      id.startsWith(own) ? id.slice(own.length) : id,
      shown ? shownAs(shown, steps.get(step)) : 'not finite',
      shown ? measureLabel(shown.unit) : '',
      `${weekText({ week, countedFrom })}${howText(steps.get(step), subject.places[0]?.file, sources, steps)}`,
    ]),
  );
  const example = figures.find(({ step }) => steps.get(step)?.kind === 'computed') ?? figures[0];
  const inFull = commandToCopy(`explain "${example?.id ?? ''}"`, folder);
  return [
    '',
    ...lines,
    ...sources.lines(false),
    '',
    ...commandLines('Each in full, with its inputs', inFull),
  ];
}

/** `2026-W39, from 2026-09-18 (sealed): ` */
function weekText({ week, countedFrom }: Pick<ExplainReport['figures'][number], 'week' | 'countedFrom'>) {
  if (week === undefined) return '';
  return countedFrom ? `${week}, from ${countedFrom.day} (${countedFrom.what}): ` : `${week}: `;
}

function reasonLines({ reason }: ExplainReport, { currency }: DisplayUnits): string[] {
  if (!reason) return [];
  const told = reasonText({ opens: reason.opens, reason }, currency);
  const opens = reason.opens === undefined ? '' : `opens ${reason.opens}; `;
  const text = reason.opened ? `It ${told}.` : `In a quickly found schedule it ${opens}${told}.`;
  return ['', ...wrap(text, PAGE_WIDTH)];
}

/** A figure that is integrated or counted with what its closed form comes to, else how it is counted. */
function countedShort(
  step: Extract<ExplainReport['steps'][number], { kind: 'counted' }>,
  steps: ReadonlyMap<string, ExplainReport['steps'][number]>,
): string {
  const closed = step.beside?.find(({ kind }) => kind === 'closed form');
  const other = closed && steps.get(closed.step);
  if (!other?.shown) return howCounted(step.what);
  const how = step.what.startsWith('integrated') ? 'integrated' : 'counted';
  return `${how}; by its closed form ${showMeasure(other.shown)}`;
}

const LONGEST_FORMULA = 48;

/** A figure's value: what was written in the plan or a source, or is the middle of its range, as exactly as it was. */
function shownAs(shown: Measure, step: ExplainReport['steps'][number] | undefined): string {
  return step && isAsGiven(step) && /^(?:%|\u00b0[CF])$/.test(shown.unit)
    ? showSetPoint(shown)
    : showMeasure(shown);
}

/** Where a figure comes from, in a few words; `file` is the one the thing itself stands in. */
function howText(
  step: ExplainReport['steps'][number] | undefined,
  file: string | undefined,
  sources: SourceList,
  steps: ReadonlyMap<string, ExplainReport['steps'][number]>,
): string {
  switch (step?.kind) {
    case 'plan': {
      const { place } = step;
      const source = step.source ? `, source: ${step.source}` : '';
      return `${place.file === file ? 'line ' : `${place.file}:`}${place.line} "${step.text}"${source}`;
    }
    case 'counted':
      return countedShort(step, steps);
    case 'reference':
      return sources.cite(step.source);
    case 'computed':
      return shortFormula(forPeople(step.formula));
    case undefined:
      return '';
  }
}

function shortFormula(formula: string): string {
  return formula.length > LONGEST_FORMULA
    ? `= ${formula.slice(0, LONGEST_FORMULA).trimEnd()} ...`
    : `= ${formula}`;
}

/** A page that has the caution itself needs no second one. */
function speaksOfOpening(page: string | undefined): boolean {
  return (
    page !== undefined &&
    /\b(?:open(?:s|ed|ing)?|enter(?:s|ed|ing)?)\b/i.test(page) &&
    !page.includes('calibrated')
  );
}

function pageLines({ page }: ExplainReport): string[] {
  return page === undefined ? [] : ['', page.trim()];
}

function findingLines(
  { findings, subject }: ExplainReport,
  files: ReadonlyMap<string, PlanText>,
  paint: Paint,
): string[] {
  if (findings.length === 0) return subject.kind === 'finding' ? ['', 'This plan has no such finding.'] : [];
  const heading = `${counted(findings.length, 'finding')} ${subject.kind === 'finding' ? 'in this plan' : 'here'}`;
  return [
    '',
    paint.bold(heading),
    ...findings.flatMap((finding) => ['', ...findingText(finding, files, paint)]),
  ];
}
