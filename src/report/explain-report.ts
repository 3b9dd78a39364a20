import { counted } from '../findings/say';
import type { ComputedSeason, Finding } from '../findings/types';
import { type DisplayUnits, measureLabel, measureOf, showMeasure, type UnitSystem } from '../plan/display';
import type { PlanText } from '../plan/model';
import type { Span } from '../plan/span';
import { findingText } from './check-report';
import { StepList } from './derivation';
import { displayUnits, explainDerivation } from './explain';
import type { Found } from './find-thing';
import { figureId } from './named-figures';
import { noPaint, type Paint } from './paint';
import { findingJson, planPart, present } from './parts';
import { placeOf } from './place';
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
  const asked =
    explained.kind === 'figure' ? [explained.figure] : thing.figures.filter(({ minor }) => !minor);
  const figures = asked.map((named) => ({
    id: figureId(named),
    name: named.figure.name,
    step: list.add(named.figure),
    ...present({ shown: measureOf(named.figure, units) }),
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
    ...present({ page: options.page }),
    findings:
      explained.kind === 'figure'
        ? []
        : findings.filter((finding) => concerns(thing, finding)).map((finding) => findingJson(plan, finding)),
  };
}

function concerns(thing: Thing, finding: Finding): boolean {
  if (thing.kind === 'finding') return finding.code === thing.id;
  return thing.within.some((span) => holds(span, finding.at)) || thing.at.some((at) => holds(at, finding.at));
}

function holds(outer: Span, inner: Span): boolean {
  return outer.file === inner.file && outer.start <= inner.start && inner.end <= outer.end;
}

/** The report as text: one figure with all it rests on, or a thing with a line for each of its figures. */
export function explainText(
  report: ExplainReport,
  files: ReadonlyMap<string, PlanText>,
  units: DisplayUnits,
  paint: Paint = noPaint,
): string {
  const { subject } = report;
  const places = subject.places.map(({ file, line }) => `${file}:${line}`).join(', ');
  const heading = [
    `${paint.bold(subject.kind === 'section' ? subject.id : `${subject.kind} ${subject.id}`)}${places === '' ? '' : `  ${paint.dim(places)}`}`,
    ...wrap(subject.summary ?? '', PAGE_WIDTH),
  ];
  const body = subject.kind === 'figure' ? figureLines(report, units) : thingLines(report);
  return [...heading, ...body, ...pageLines(report), ...findingLines(report, files, paint)].join('\n');
}

function figureLines(report: ExplainReport, units: DisplayUnits): string[] {
  const [figure] = report.figures;
  if (!figure) return [];
  return ['', explainDerivation({ result: figure.step, steps: report.steps }, units)];
}

function thingLines(report: ExplainReport): string[] {
  if (report.figures.length === 0) return [];
  const steps = new Map(report.steps.map((step) => [step.id, step]));
  const lines = table(
    [
      { title: 'Figure' },
      { title: 'Value', align: 'right' },
      { title: 'Unit' },
      { title: 'How', breaks: true },
    ],
    report.figures.map(({ id, step, shown }) => [
      id,
      shown ? showMeasure(shown) : 'not finite',
      shown ? measureLabel(shown.unit) : '',
      howText(steps.get(step)),
    ]),
  );
  const example =
    report.figures.find(({ step }) => steps.get(step)?.kind === 'computed') ?? report.figures[0];
  return ['', ...lines, '', `Each in full, with its inputs: lotwright explain "${example?.id ?? ''}"`];
}

function howText(step: ExplainReport['steps'][number] | undefined): string {
  switch (step?.kind) {
    case 'plan':
      return `${step.place.file}:${step.place.line} "${step.text}"`;
    case 'counted':
      return `counted: ${step.what}`;
    case 'reference':
      return `${step.source.known}: ${step.source.citation}`;
    case 'computed':
      return `= ${step.formula}`;
    case undefined:
      return '';
  }
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
