import type { ComputedSeason } from '../../findings/types';
import { formatWeek, type Week } from '../../plan/dates';
import { countedFigure, type Figure } from '../../plan/figure';
import type { Span } from '../../plan/span';
import type { Consequences } from './consequences-types';

/** What the present schedule delivers of a demand. */
export function demandOutcome(season: ComputedSeason, id: string): Consequences | undefined {
  const demand = season.plan.demand.get(id);
  if (!demand) return undefined;
  const title = `Demand ${id}`;
  const { release } = season;
  const index = release?.problem.demands.findIndex((entry) => entry.id === id) ?? -1;
  const wanted = release?.problem.demands[index]?.cartons;
  const short = shortCartons(season, id);
  if (!release || !wanted || !short)
    return { title, figures: [], sentences: ['No schedule has been computed for it yet.'] };
  const sold = release.result.schedule.sold[index] ?? [];
  return {
    title,
    figures: [cartons('wanted', wanted, demand.at), cartons('delivered', sold, demand.at)],
    sentences: [shortSentence(short.weeks.map(formatWeek))],
  };
}

/** Weeks in which the schedule at hand delivers less than a demand wants, and by how many cartons in all. */
export function shortCartons(
  { release }: Pick<ComputedSeason, 'release'>,
  id: string,
): { readonly weeks: readonly Week[]; readonly cartons: number } | undefined {
  const index = release?.problem.demands.findIndex((entry) => entry.id === id) ?? -1;
  const wanted = release?.problem.demands[index]?.cartons;
  if (!release || !wanted) return undefined;
  const sold = release.result.schedule.sold[index] ?? [];
  const missing = wanted.map((cartons, week) => cartons - (sold[week] ?? 0));
  // Amounts are not rounded: less than half a carton is none.
  const short = missing.flatMap((cartons, week) => (cartons >= 0.5 ? [{ week, cartons }] : []));
  return {
    weeks: short.map(({ week }) => release.problem.firstWeek + week),
    cartons: short.reduce((sum, { cartons }) => sum + cartons, 0),
  };
}

function cartons(name: string, weeks: readonly number[], at: Span): Figure<'cartons'> {
  const sum = weeks.reduce((total, week) => total + week, 0);
  return countedFigure(name, 'cartons', sum, 'the sum over its weeks in the present schedule', [at]);
}

const WEEKS_SHOWN = 6;

function shortSentence(weeks: readonly string[]): string {
  if (weeks.length === 0) return 'The present schedule delivers it in every week.';
  const more = weeks.length > WEEKS_SHOWN ? ` and ${weeks.length - WEEKS_SHOWN} more` : '';
  return `The present schedule falls short in ${weeks.slice(0, WEEKS_SHOWN).join(', ')}${more}.`;
}
