import { type DisplayUnits, measureLabel, significant, type UnitSystem } from '../plan/display';
import type { Figure, Source } from '../plan/figure';
import type { Plan } from '../plan/model';
import { toldUnits } from '../plan/told-units';
import { type Derivation, derivationOf, type Step, StepList } from './derivation';
import type { Place } from './place';
import { PAGE_WIDTH, wrap } from './table';

export interface ExplainOptions {
  readonly format?: 'text' | 'markdown';
  /** How many levels of inputs are shown below the figure; all by default. */
  readonly depth?: number;
  /** The address a place in the plan leads to, for Markdown; without one, places are plain text. */
  readonly link?: (place: Place) => string | undefined;
}

/** One step as it is told: at its depth, under the name its formula gives it, in full only the first time. */
interface Told {
  readonly step: Step;
  readonly depth: number;
  /** The name it has in the formula above it; undefined for the figure asked for. */
  readonly key: string | undefined;
  readonly repeated: boolean;
  /** Inputs left out because the depth asked for ends here. */
  readonly cut: number;
}

/**
 * How a figure came about, so that a person can follow it with a pocket calculator: formula, the same with numbers,
 * the result; then each input with its place in the plan or its source. Formulas hold in metric units, so US values
 * stand in brackets beside the metric ones.
 */
export function explainFigure(
  figure: Figure,
  plan: Plan,
  units: UnitSystem,
  options: ExplainOptions = {},
): string {
  const display = displayUnits(plan, units);
  return explainDerivation(derivationOf(figure, plan, display), display, options);
}

/** The units a plan's results are shown in: as asked for, or as the plan's season says. */
export function displayUnits(plan: Pick<Plan, 'season' | 'toldIn'>, system?: UnitSystem): DisplayUnits {
  const units = toldUnits(plan);
  return system === undefined ? units : { ...units, system };
}

/** The same from a derivation made before. */
export function explainDerivation(
  derivation: Derivation,
  units: DisplayUnits,
  options: ExplainOptions = {},
): string {
  const byId = new Map(derivation.steps.map((step) => [step.id, step]));
  const sources = new SourceList();
  const lines = derivationLines(derivation.result, byId, units, sources, new Set(), options);
  return [...lines, ...sources.lines(options.format === 'markdown')].join('\n');
}

/**
 * Several figures one after another, in the order given: what one of them rests on is told with the first that does,
 * and stands there as "above" for those that follow. The sources are one list for all.
 */
export function explainTogether(
  figures: readonly Figure[],
  plan: Plan,
  units: UnitSystem,
): { readonly texts: readonly string[]; readonly sources: string } {
  const display = displayUnits(plan, units);
  const list = new StepList(plan, display);
  const results = figures.map((figure) => list.add(figure));
  const byId = new Map(list.steps.map((step) => [step.id, step]));
  const [sources, seen] = [new SourceList(), new Set<string>()];
  const texts = results.map((id) => derivationLines(id, byId, display, sources, seen, {}).join('\n'));
  return { texts, sources: sources.lines(false).join('\n').trim() };
}

/** `seen`: steps that were told before. */
function derivationLines(
  result: string,
  byId: ReadonlyMap<string, Step>,
  units: DisplayUnits,
  sources: SourceList,
  seen: Set<string>,
  options: ExplainOptions,
): string[] {
  const told = tell(result, byId, options.depth ?? Number.POSITIVE_INFINITY, seen);
  return told.flatMap((entry) =>
    options.format === 'markdown'
      ? markdownLines(entry, byId, units, sources, options)
      : textLines(entry, byId, units, sources),
  );
}

/** Sources by number, in the order they are first cited: many values come from the same few. */
export class SourceList {
  private readonly numbers = new Map<string, number>();

  /** `from memory [2]` */
  cite({ citation, known }: Source): string {
    const number = this.numbers.get(citation) ?? this.numbers.size + 1;
    this.numbers.set(citation, number);
    return `${known} [${number}]`;
  }

  lines(markdown: boolean): string[] {
    if (this.numbers.size === 0) return [];
    const cited = [...this.numbers].map(([citation, number]) => `[${number}] ${citation}`);
    if (markdown) return ['', ...cited.map((line) => `${escapeMarkdown(line)}  `)];
    return ['', ...cited.flatMap((line) => wrap(line, PAGE_WIDTH, '    '))];
  }
}

function tell(result: string, byId: ReadonlyMap<string, Step>, depth: number, seen: Set<string>): Told[] {
  const told: Told[] = [];
  const visit = (id: string, level: number, key: string | undefined): void => {
    const step = byId.get(id);
    if (!step) return;
    // What is asked for is told in full, wherever it stood before.
    const repeated = level > 0 && seen.has(id);
    const inputs = repeated ? [] : inputsOf(step);
    const cut = level >= depth ? inputs.length : 0;
    told.push({ step, depth: level, key, repeated, cut });
    seen.add(id);
    if (cut === 0) for (const [name, input] of inputs) visit(input, level + 1, name);
  };
  visit(result, 0, undefined);
  return told;
}

/** What a step is computed from, then what stands beside it. */
function inputsOf(step: Step): readonly (readonly [name: string, id: string])[] {
  const beside = (step.beside ?? []).map(({ kind, step: id }) => [kind, id] as const);
  return [...(step.kind === 'computed' ? Object.entries(step.inputs) : []), ...beside];
}

function textLines(
  told: Told,
  byId: ReadonlyMap<string, Step>,
  units: DisplayUnits,
  sources: SourceList,
): string[] {
  const indent = '  '.repeat(told.depth);
  const name = told.key === undefined || told.key === told.step.name ? '' : `${told.key}: `;
  const [head, ...rest] = statements(told, byId, units, sources, placeText);
  const lines = [`${name}${told.step.name} ${head}`, ...rest.map((line) => `  ${line}`)];
  const width = Math.max(40, PAGE_WIDTH - indent.length);
  return lines.flatMap((line) => {
    const hanging = line.startsWith('  ') ? '      ' : '    ';
    return wrap(line, width, hanging).map((part) => indent + part);
  });
}

function markdownLines(
  told: Told,
  byId: ReadonlyMap<string, Step>,
  units: DisplayUnits,
  sources: SourceList,
  options: ExplainOptions,
): string[] {
  const indent = '  '.repeat(told.depth);
  const key = told.key === undefined || told.key === told.step.name ? '' : `\`${told.key}\` `;
  const name = told.depth === 0 ? `**${escapeMarkdown(told.step.name)}**` : escapeMarkdown(told.step.name);
  const place = (at: Place) => placeMarkdown(at, options.link);
  const [head = '', ...rest] = statements(told, byId, units, sources, place, code);
  return [`${indent}- ${key}${name} ${head}`, ...rest.map((line) => `${indent}  ${line}`)].map(
    (line, at, all) => (at < all.length - 1 ? `${line}  ` : line),
  );
}

/** What is said of a step: the first statement follows its name, the others stand below. */
function statements(
  told: Told,
  byId: ReadonlyMap<string, Step>,
  units: DisplayUnits,
  sources: SourceList,
  place: (at: Place) => string,
  formulaText: (formula: string) => string = (formula) => formula,
): string[] {
  const { step, cut } = told;
  const rest = [
    ...besideTexts(step, byId, units),
    ...(cut > 0 ? [`from ${cut} ${cut === 1 ? 'input' : 'inputs'} not shown here`] : []),
  ];
  const shownFormula = (formula: string) => formulaText(forPeople(formula));
  const result = `= ${resultText(step, units)}`;
  if (told.repeated) return [`${result} (above)`];
  switch (step.kind) {
    case 'plan':
      return [
        `${result}   from ${place(step.place)} "${step.text}"${step.source ? `, source: ${step.source}` : ''}`,
      ];
    case 'counted':
      return [`${result}   ${howCounted(step.what)}${placesText(step.places, place)}`, ...rest];
    case 'reference':
      return [`${result}   reference value, ${sources.cite(step.source)}`];
    case 'computed':
      return [
        `= ${shownFormula(step.formula)}`,
        // A formula that only hands on one input has nothing to reckon.
        ...(step.formula in step.inputs
          ? []
          : [`= ${shownFormula(withNumbers(step.formula, step.inputs, byId))}`]),
        result,
        ...(step.source ? [`formula: ${sources.cite(step.source)}`] : []),
        ...rest,
      ];
  }
}

/** What says itself how it was come by needs no word before it. */
export function howCounted(what: string): string {
  return /^(counted|integrated|found) /.test(what) ? what : `counted: ${what}`;
}

/** Of a figure that is integrated or counted: what a formula makes of it, and where the difference comes from. */
function besideTexts(
  step: Step,
  byId: ReadonlyMap<string, Pick<Step, 'value' | 'unit' | 'shown'>>,
  units: DisplayUnits,
): string[] {
  return (step.beside ?? []).flatMap(({ kind, step: id, because }) => {
    const other = byId.get(id);
    if (!other) return [];
    if (kind === 'terms') return [`terms below: ${because}`];
    const how = step.kind === 'counted' && step.what.startsWith('integrated') ? 'integrated' : 'counted';
    const compared = `${resultText(other, units)} by the closed form, ${resultText(step, units)} ${how}`;
    return [`${compared}: ${differenceText(step, other.value)}. ${because}`];
  });
}

/** `1.9 % more`, of the value by the formula; of temperatures in kelvins. */
function differenceText({ value, unit }: Pick<Step, 'value' | 'unit'>, byFormula: number): string {
  const difference = value - byFormula;
  if (unit === 'degC') {
    if (Math.abs(difference) < 0.05) return 'the same to a tenth of a kelvin';
    return `${Math.abs(difference).toFixed(1)} K ${difference > 0 ? 'warmer' : 'colder'}`;
  }
  if (difference === 0) return 'the same';
  const share = (100 * difference) / Math.abs(byFormula);
  if (!Number.isFinite(share)) return 'not the same';
  if (Math.abs(share) < 0.05) return 'the same to a thousandth';
  return `${Math.abs(share).toFixed(1)} % ${share > 0 ? 'more' : 'less'}`;
}

/** A formula as people write it: the natural logarithm, which programs call `log`, is `ln`. */
export function forPeople(formula: string): string {
  return formula.replace(/\blog\(/g, 'ln(');
}

/** The formula with each name replaced by its value; names of functions stay. */
export function withNumbers(
  formula: string,
  inputs: Readonly<Record<string, string>>,
  byId: ReadonlyMap<string, Pick<Step, 'value'>>,
): string {
  return formula.replace(/[A-Za-z_][A-Za-z0-9_]*/g, (name) => {
    const step = Object.hasOwn(inputs, name) ? byId.get(inputs[name] ?? '') : undefined;
    if (!step) return name;
    const number = significant(step.value);
    return step.value < 0 ? `(${number})` : number;
  });
}

function resultText(step: Pick<Step, 'value' | 'unit' | 'shown'>, units: DisplayUnits): string {
  const unit = step.unit === 'money' ? units.currency : step.unit === '1' ? '' : step.unit;
  const metric = `${significant(step.value)} ${measureLabel(metricSpelling(unit))}`.trimEnd();
  if (!step.shown || units.system === 'metric' || step.shown.unit === metricSpelling(step.unit))
    return metric;
  if (step.unit === 'money') return metric;
  return `${metric} (${significant(step.shown.value)} ${measureLabel(step.shown.unit)})`;
}

/** Temperatures are written with the degree sign wherever people read them. */
function metricSpelling(unit: string): string {
  return unit === 'degC' ? '°C' : unit;
}

const PLACES_SHOWN = 4;

function placesText(places: readonly Place[], place: (at: Place) => string): string {
  if (places.length === 0) return '';
  const more = places.length > PLACES_SHOWN ? ` and ${places.length - PLACES_SHOWN} more` : '';
  return ` (${places.slice(0, PLACES_SHOWN).map(place).join(', ')}${more})`;
}

function placeText(at: Place): string {
  return `${at.file}:${at.line}`;
}

function placeMarkdown(at: Place, link: ExplainOptions['link']): string {
  const address = link?.(at);
  return address === undefined
    ? escapeMarkdown(placeText(at))
    : `[${escapeMarkdown(placeText(at))}](${address})`;
}

function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]<>#|]/g, '\\$&');
}

function code(formula: string): string {
  return `\`${formula.replace(/`/g, "'")}\``;
}
