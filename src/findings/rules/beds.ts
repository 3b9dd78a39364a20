import { formatWeek, type Week, weekOfDay } from '../../plan/dates';
import { countedFigure, type Figure, figureWith } from '../../plan/figure';
import type { Scrubber } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { breakthroughTime, runsWithoutBreak } from '../../plant/carbon';
import { adsorbingShare } from '../../plant/scrubber';
import { meanCarbonDioxideLevel } from '../../plant/scrubber-load';
import type { ScrubberTurns } from '../../plant/scrubber-turns';
import { neededShower, perCent, shower } from '../say';
import type { ComputedSeason, Rule } from '../types';

/** The beds of carbon scrubbers: whether they take turns without a break, and whether the carbon lasts for a turn. */

function* bedsNotContinuous(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const { id, beds } of season.plan.scrubbers.values()) {
    // One is regenerated while another adsorbs.
    if (!beds || runsWithoutBreak(beds)) continue;
    const share = adsorbingShare(beds);
    const rests = share ? ` It scrubs ${perCent(100 * share.value)} of the time, and` : '';
    const [adsorb, regenerate] = [show(beds.adsorb), show(beds.regenerate)];
    yield {
      code: 'beds-not-continuous',
      message:
        beds.number < 2
          ? `${id} has one bed: while it is regenerated (${regenerate} after each ${adsorb}), nothing is scrubbed.${rests} the stated removal is lowered for it. A second bed would take its turn.`
          : `${id}: regeneration (${regenerate}) takes longer than a bed adsorbs (${adsorb}), so scrubbing pauses each turn.${rests} the stated removal is lowered for it. It would run on if regeneration took ${adsorb} at most, or beds adsorbed for ${regenerate} where their carbon lasts that long.`,
      at: beds.at,
      about: id,
    };
  }
}

/** A room's level that a scrubber works against, and when. */
interface Met {
  readonly level: Figure<'%'>;
  readonly fill?: string;
  readonly week?: Week;
}

function* bedsSaturatedEarly(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  for (const scrubber of season.plan.scrubbers.values()) {
    const { id, beds } = scrubber;
    if (scrubber.kind !== 'carbon' || !beds) continue;
    const early = levelsMet(season, scrubber).flatMap((met) => {
      const lasts = breakthroughTime(scrubber, met.level);
      return lasts && lasts.value < beds.adsorb.value ? [{ ...met, lasts }] : [];
    });
    const [first] = early;
    const worst = early.reduce<typeof first>(
      (most, one) => (!most || one.lasts.value < most.lasts.value ? one : most),
      undefined,
    );
    if (!first || !worst) continue;
    const since = first.week === undefined ? '' : ` from ${formatWeek(first.week)} on`;
    const where = worst.fill === undefined ? 'that its rooms hold' : `of ${worst.fill}`;
    const when = worst.week === undefined ? '' : ` in ${formatWeek(worst.week)}`;
    yield {
      code: 'bed-saturated-early',
      message: `${id}: a bed is saturated before its ${show(beds.adsorb)} are over${since}: at the ${show(worst.level)} carbon dioxide ${where}${when}, ${show(beds.carbon)} of carbon lasts ${worst.lasts.value.toFixed(1)} min at the stated removal, and for the rest of the turn the gas goes through unscrubbed. ${cures(scrubber, worst.lasts, neededShower(season))} The carbon's loading is from memory, the middle of a wide range: ask its maker.`,
      at: beds.at,
      related: season.plant?.scrubbers
        .find((one) => one.scrubber.id === id)
        ?.rooms.slice(0, 6)
        .map(({ room }) => ({ at: room.at, message: `${room.id} is on ${id}` })),
      about: id,
    };
  }
}

/** The least change of each kind that keeps a bed's turn within what its carbon takes up. */
function cures({ beds }: Scrubber, lasts: Figure<'min'>, needed: (figure: Figure) => string): string {
  if (!beds) return '';
  const carbon = figureWith(beds.carbon, {
    value: (beds.carbon.value * beds.adsorb.value) / lasts.value,
  });
  const more = `${needed(carbon)} of carbon in each bed would last`;
  const minutes = Math.floor(lasts.value);
  if (minutes < 1) return `${more}.`;
  const regenerate =
    beds.regenerate.value > minutes ? ', if regeneration takes no longer than that either' : '';
  return `Change beds after ${minutes} min${regenerate}, or ${more}.`;
}

/** Week by week the highest level it scrubs at; without courses, the mean of its rooms' set-points. */
function levelsMet({ courses, plant }: ComputedSeason, { id }: Scrubber): readonly Met[] {
  const turns = courses?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  if (turns) return highestOf(turns);
  const rooms = plant?.scrubbers.find(({ scrubber }) => scrubber.id === id)?.rooms;
  const level = rooms && meanCarbonDioxideLevel(rooms);
  return level ? [{ level }] : [];
}

const known = new WeakMap<ScrubberTurns, readonly Met[]>();

/** Found once for a scrubber's turns: it follows from them alone, and they hold thousands of points. */
function highestOf(turns: ScrubberTurns): readonly Met[] {
  const found = known.get(turns) ?? highestByWeek(turns);
  known.set(turns, found);
  return found;
}

function highestByWeek({ rooms }: ScrubberTurns): Met[] {
  const highest = new Map<Week, { readonly percent: number; readonly fill: string }>();
  for (const { course } of rooms) {
    let before = 0;
    for (const { hours, carbonDioxide, scrubbedKg } of course.course.points) {
      const week = weekOfDay(course.sealed + Math.floor(hours / 24));
      const works = scrubbedKg > before;
      before = scrubbedKg;
      if (works && carbonDioxide > (highest.get(week)?.percent ?? 0))
        highest.set(week, { percent: carbonDioxide, fill: course.fill });
    }
  }
  return [...highest]
    .sort(([a], [b]) => a - b)
    .map(([week, { percent, fill }]) => ({
      week,
      fill,
      level: countedFigure(
        'highest carbon dioxide among its rooms in the week',
        '%',
        percent,
        "integrated, each room's course",
      ),
    }));
}

export const bedRules: readonly Rule[] = [
  {
    code: 'beds-not-continuous',
    family: 'gas',
    severity: 'notice',
    summary: 'Regeneration is slower than adsorption.',
    find: bedsNotContinuous,
  },
  {
    code: 'bed-saturated-early',
    family: 'gas',
    severity: 'notice',
    summary: 'A carbon bed is saturated before its turn is over.',
    find: bedsSaturatedEarly,
  },
];
