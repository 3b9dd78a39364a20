import { roomNames } from './room-names';
import type { ReleaseReport } from './schemas';

type Shortage = ReleaseReport['shortages'][number];
type Cure = Shortage['weeks'][number]['cure'];

/** The report with rooms told apart by their fill where they are filled more than once, for its text. */
export function withRoomNames(report: ReleaseReport): ReleaseReport {
  const { rooms } = report;
  if (new Set(rooms.map(({ room }) => room)).size === rooms.length) return report;
  const name = roomNames(rooms);
  const named = <R extends { readonly room: string; readonly fill: string }>(row: R): R => ({
    ...row,
    room: name(row),
  });
  return {
    ...report,
    rooms: rooms.map(named),
    weeks: report.weeks.map((week) => ({
      ...week,
      opens: week.opens.map((room) => {
        const opened = rooms.find((one) => one.room === room && one.opens === week.week);
        return opened ? name(opened) : room;
      }),
    })),
    shortages: report.shortages.map((shortage) => ({
      ...shortage,
      weeks: shortage.weeks.map((week) => ({ ...week, cure: namedCure(week.cure, named) })),
    })),
  };
}

type Named = <R extends { readonly room: string; readonly fill: string }>(row: R) => R;

function namedCure(cure: Cure, named: Named): Cure {
  const { room, policy } = cure;
  return {
    ...cure,
    ...(room && { room: namedWithOther(room, named) }),
    ...(policy && {
      policy: policy.map((way) => ({ ...way, ...(way.room && { room: namedWithOther(way.room, named) }) })),
    }),
  };
}

function namedWithOther<
  R extends {
    readonly room: string;
    readonly fill: string;
    readonly also?: { readonly room: string; readonly fill: string } | undefined;
  },
>(room: R, named: Named): R {
  return room.also ? { ...named(room), also: named(room.also) } : named(room);
}
