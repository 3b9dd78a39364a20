import { type DisplayUnits, type Measure, measureOf } from '../plan/display';
import type { Beside, Figure, Source } from '../plan/figure';
import type { Plan } from '../plan/model';
import { type Place, placeOf } from './place';

/**
 * How a figure came about, as a flat list of steps. A figure that several steps use stands in the list once. Values
 * are in the units figures are computed in, so that each formula holds for the numbers as they stand; `shown` is the
 * same value in the units results are shown in.
 */
export interface Derivation {
  /** The step that gives the figure asked for. */
  readonly result: string;
  /** Inputs before what is computed from them. */
  readonly steps: readonly Step[];
}

interface StepCommon {
  readonly id: string;
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly shown?: Measure;
  /** Of a step that is integrated or counted: the same by a formula, or the terms that are in it. */
  readonly beside?: readonly StepBeside[];
}

export interface StepBeside {
  readonly kind: Beside['kind'];
  /** The step that gives it. */
  readonly step: string;
  readonly because: string;
}

export type Step =
  | (StepCommon & {
      readonly kind: 'plan';
      readonly place: Place;
      readonly text: string;
      /** Where the planner has the value from, in the plan's own words. */
      readonly source?: string;
    })
  | (StepCommon & { readonly kind: 'counted'; readonly what: string; readonly places: readonly Place[] })
  | (StepCommon & { readonly kind: 'reference'; readonly source: Source })
  | (StepCommon & {
      readonly kind: 'computed';
      readonly formula: string;
      /** The step that each name in the formula stands for. */
      readonly inputs: Readonly<Record<string, string>>;
      readonly source?: Source;
    });

type WithoutId<T> = T extends unknown ? Omit<T, 'id'> : never;

/** Gathers the steps of one or several figures; a step that two of them share is kept once. */
export class StepList {
  readonly steps: Step[] = [];
  private readonly byFigure = new Map<Figure, string>();
  private readonly byContent = new Map<string, string>();

  constructor(
    private readonly plan: Pick<Plan, 'files'>,
    private readonly units: DisplayUnits,
  ) {}

  /** Adds a figure with all it rests on, and returns its step's identifier. */
  add(figure: Figure): string {
    const known = this.byFigure.get(figure);
    if (known !== undefined) return known;
    const step = this.stepOf(figure);
    // Equal figures made twice (a room's length in two formulas) are one step to the reader.
    const content = JSON.stringify(step);
    const id = this.byContent.get(content) ?? `s${this.steps.length + 1}`;
    if (!this.byContent.has(content)) this.steps.push({ id, ...step });
    this.byContent.set(content, id);
    this.byFigure.set(figure, id);
    return id;
  }

  private stepOf(figure: Figure): WithoutId<Step> {
    const { name, value, unit, origin } = figure;
    const shown = measureOf(figure, this.units);
    const beside = figure.beside?.map(({ kind, figure: other, because }) => ({
      kind,
      step: this.add(other),
      because,
    }));
    const common = { name, value, unit, ...(shown ? { shown } : {}), ...(beside ? { beside } : {}) };
    switch (origin.kind) {
      case 'plan':
        return {
          ...common,
          kind: 'plan',
          place: placeOf(this.plan, origin.at),
          text: origin.text,
          ...(origin.source ? { source: origin.source } : {}),
        };
      case 'counted':
        return {
          ...common,
          kind: 'counted',
          what: origin.what,
          places: origin.places.map((at) => placeOf(this.plan, at)),
        };
      case 'reference':
        return { ...common, kind: 'reference', source: origin.source };
      case 'computed':
        return {
          ...common,
          kind: 'computed',
          formula: origin.formula,
          inputs: this.inputsOf(origin.inputs),
          ...(origin.source ? { source: origin.source } : {}),
        };
    }
  }

  private inputsOf(inputs: Readonly<Record<string, Figure>>): Record<string, string> {
    return Object.fromEntries(Object.entries(inputs).map(([key, figure]) => [key, this.add(figure)]));
  }
}

/** The derivation of one figure. */
export function derivationOf(figure: Figure, plan: Pick<Plan, 'files'>, units: DisplayUnits): Derivation {
  const list = new StepList(plan, units);
  const result = list.add(figure);
  return { result, steps: list.steps };
}
