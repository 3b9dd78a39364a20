import { closedForm, countedFigure, type Figure, terms, withBeside } from '../plan/figure';
import type { Plan, Scrubber } from '../plan/model';
import type { ScrubberTurns } from '../plant/scrubber-turns';
import { utilisationOf } from '../room/assumptions';
import { chargeTakesUp, limeForAll, limeLasts } from '../room/course/closed/lime';
import { formulaKeys, sumOf } from '../room/figures';
import { type NamedFigure, named } from './named-figures';

/** Of lime: what its charge takes up, how long it lasts and what the season uses. Nothing of other scrubbers. */
export function limeFigures(plan: Plan, scrubber: Scrubber, { rooms }: ScrubberTurns): NamedFigure[] {
  if (scrubber.kind !== 'lime' || rooms.length === 0) return [];
  const keys = formulaKeys(
    'fill',
    rooms.map(({ room }) => room.fill.id),
  );
  const scrubbed = sumOf(
    'carbon dioxide its rooms have scrubbed by their opening',
    'kg',
    rooms.map(({ course }, index) => [keys[index] ?? '', course.scrubbed] as const),
  );
  const { charge } = scrubber;
  const utilisation = utilisationOf(plan, scrubber);
  const takesUp = charge && chargeTakesUp(charge, utilisation);
  return named(scrubber.id, {
    'charge-takes-up': takesUp,
    'lime-of-season': limeForAll(scrubbed, utilisation),
    'days-charge-lasts': takesUp && daysOf(rooms, takesUp),
  });
}

/** Days from the first sealing until the charge is used up, by the courses; beside it charge over what is given off. */
function daysOf(rooms: ScrubberTurns['rooms'], takesUp: Figure<'kg'>): Figure<'days'> | undefined {
  const first = Math.min(...rooms.map(({ course }) => course.sealed));
  const last = Math.max(
    ...rooms.map(({ course }) => course.sealed + Math.round(course.room.untilHours / 24)),
  );
  const scrubbedBy = (day: number) =>
    rooms.reduce((sum, { course }) => {
      const { points } = course.course;
      const hours = 24 * (day - course.sealed);
      return sum + (points.findLast((point) => point.hours <= hours)?.scrubbedKg ?? 0);
    }, 0);
  const days = Array.from({ length: last - first + 1 }, (_, index) => first + index);
  const usedUp = days.find((day) => scrubbedBy(day) >= takesUp.value);
  const load = sumOf(
    'carbon dioxide its rooms give off in store',
    'kg/day',
    rooms.flatMap(({ room }, index) =>
      room.carbonDioxideInStore ? [[`room_${index + 1}`, room.carbonDioxideInStore] as const] : [],
    ),
  );
  const lasts = limeLasts(takesUp, load);
  if (usedUp === undefined) {
    const opens = countedFigure(
      'days from the first sealing to the last opening: the charge lasts',
      'days',
      last - first,
      'the charge is not used up before',
    );
    return withBeside(opens, terms(lasts, 'the days for which the charge would last at the rate in store'));
  }
  const counted = countedFigure(
    'days from the first sealing until the charge is used up',
    'days',
    usedUp - first,
    'what the courses of its rooms scrub, day by day',
  );
  return withBeside(
    counted,
    closedForm(
      lasts,
      'The formula divides by the rate in store of all its rooms from the first sealing on; the courses begin to scrub when carbon dioxide is at its set-point, each room from its own sealing to its opening, and less by what leaks out.',
    ),
  );
}
