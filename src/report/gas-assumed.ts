import type { ComputedSeason } from '../findings/types';
import { aboveWithoutScrubber } from '../findings/without-scrubber';
import { daysToGas } from '../keeping/assumptions';
import type { RoomKeeping } from '../keeping/types';
import { firstDayOfWeek, formatDay } from '../plan/dates';
import { present } from './parts';
import type { WindowsReport } from './schemas';
import { PAGE_WIDTH, wrap } from './table';

type Row = WindowsReport['rooms'][number];

/**
 * What a sealed room's window takes for granted of its gas and the room's own course contradicts: its set-point comes
 * after the earliest week has begun, or never, or carbon dioxide passes what its fruit bears. Undefined where both
 * agree, where the set-point is on record, and without a course.
 */
export function gasAssumed(season: ComputedSeason, { window, filled }: RoomKeeping): Row['gasAssumed'] {
  const { fill, regime } = filled;
  const course = season.courses?.courses.get(fill.id);
  if (!window || !regime?.oxygen || !course) return undefined;
  const hours = course.hoursToSetPoint?.value;
  const setPoint =
    season.plan.progress.get(fill.id)?.setPoint?.value ??
    (hours === undefined ? undefined : course.sealed + Math.floor(hours / 24));
  const late = setPoint === undefined || setPoint > firstDayOfWeek(window.earliest.week);
  const above = aboveWithoutScrubber(season, filled);
  if (!late && !above) return undefined;
  return {
    days: daysToGas.value,
    ...present({
      setPoint: setPoint === undefined ? undefined : formatDay(setPoint),
      carbonDioxideAbove: above && formatDay(above.from),
    }),
    late,
  };
}

/** A paragraph for each room that is still to be opened. */
export function gasAssumedLines(rooms: readonly Row[]): string[] {
  const lines = rooms.flatMap(({ room, gasAssumed: gas, opened }) =>
    gas && opened === undefined ? wrap(gasText(room, gas), PAGE_WIDTH, '  ') : [],
  );
  return lines.length > 0 ? ['', ...lines] : [];
}

function gasText(room: string, { days, setPoint, carbonDioxideAbove, late }: NonNullable<Row['gasAssumed']>) {
  const course =
    setPoint === undefined
      ? 'by its own course it never comes to its set-point before it opens.'
      : `by its own course it comes to its set-point on ${setPoint}.`;
  const gas = late
    ? ` The window counts ${days} days from sealing to the gas, as for every room; ${course}`
    : '';
  const above =
    carbonDioxideAbove === undefined
      ? ''
      : ` Without a scrubber, carbon dioxide is above what its fruit bears from ${carbonDioxideAbove} on.`;
  const trust = carbonDioxideAbove === undefined ? ' from the seal on' : ', and cannot be counted on';
  return `${room}:${gas}${above} Its storage life is that of fruit held at its set-points${trust}.`;
}
