import type { ComputedSeason } from '../../findings/types';
import { formatWeek } from '../../plan/dates';
import { countedFigure, type Figure } from '../../plan/figure';
import type { Span } from '../../plan/span';
import type { Consequences } from './consequences-types';

/** What the present schedule delivers of a demand. */
export function demandOutcome(season: ComputedSeason, id: string): Consequences | undefined {
  const demand = season.plan.demand.get(id);
  if (!demand) return undefined;
  const title = `Demand ${id}`;
  const release = season.release;
  const index = release?.problem.demands.findIndex((entry) => entry.id === id) ?? -1;
  const wanted = release?.problem.demands[index]?.cartons;
  if (!release || !wanted)
    return { title, figures: [], sentences: ['No schedule has been computed for it yet.'] };
  const sold = release.result.schedule.sold[index] ?? [];
  // Amounts are not rounded: less than half a carton is none.
  const short = wanted.flatMap((cartons, week) => (cartons - (sold[week] ?? 0) >= 0.5 ? [week] : []));
  return {
    title,
    figures: [cartons('wanted', wanted, demand.at), cartons('delivered', sold, demand.at)],
    sentences: [shortSentence(short.map((week) => formatWeek(release.problem.firstWeek + week)))],
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
