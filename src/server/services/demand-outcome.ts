import type { ComputedSeason } from '../../findings/types';
import { formatWeek, type Week } from '../../plan/dates';
import { countedFigure, type Figure } from '../../plan/figure';
import type { Span } from '../../plan/span';
import { notRecorded, toldOf } from '../../release/season-whole';
import type { Consequences } from './consequences-types';

/** What the present schedule delivers of a demand. */
export function demandOutcome(season: ComputedSeason, id: string): Consequences | undefined {
  const demand = season.plan.demand.get(id);
  if (!demand) return undefined;
  const title = `Demand ${id}`;
  const told = toldTo(season, id);
  const short = shortCartons(season, id);
  if (!told || !short)
    return { title, figures: [], sentences: ['No schedule has been computed for it yet.'] };
  return {
    title,
    figures: [cartons('wanted', told.wanted, demand.at), cartons('delivered', told.sold, demand.at)],
    sentences: [
      shortSentence(short.weeks.map(formatWeek)),
      ...(short.toldFrom === undefined
        ? []
        : [
            `What was delivered before ${formatWeek(short.toldFrom)} is not recorded: it is told neither as sold nor as short.`,
          ]),
    ],
  };
}

type Released = Pick<ComputedSeason, 'release' | 'plan'>;

/** Cartons of a demand by week, wanted and sold; in weeks of which it is not recorded what was delivered none. */
function toldTo({ release, plan }: Released, id: string) {
  if (!release) return undefined;
  const { demands, sold } = toldOf(release.problem, release.result.schedule, plan);
  const index = demands.findIndex((entry) => entry.id === id);
  const wanted = demands[index]?.cartons;
  return wanted && { wanted, sold: sold[index] ?? [] };
}

/**
 * Weeks in which the schedule at hand delivers less than a demand wants, and by how many cartons in all. `toldFrom` is the
 * first week of which that is told, where of those before it is not recorded what was delivered.
 */
export function shortCartons(
  season: Released,
  id: string,
):
  | { readonly weeks: readonly Week[]; readonly cartons: number; readonly toldFrom?: Week | undefined }
  | undefined {
  const { release, plan } = season;
  const told = toldTo(season, id);
  if (!release || !told) return undefined;
  const { wanted, sold } = told;
  const missing = wanted.map((cartons, week) => cartons - (sold[week] ?? 0));
  // Amounts are not rounded: less than half a carton is none.
  const short = missing.flatMap((cartons, week) => (cartons >= 0.5 ? [{ week, cartons }] : []));
  return {
    weeks: short.map(({ week }) => release.problem.firstWeek + week),
    cartons: short.reduce((sum, { cartons }) => sum + cartons, 0),
    toldFrom: notRecorded(release.problem, plan)?.before,
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
