import { firstDayOfWeek, type Week } from '../../plan/dates';
import { type DisplayUnits, decimalsOfSetPoints, type Measure, unitLabel } from '../../plan/display';
import type { Unit } from '../../plan/figure';
import type { LotPlace, RoomAccount, SeasonAccount } from './account';
import { setByNames } from './basis';
import { day, names, number, type Told, text, week } from './paper';

/** What several readers are told alike. */

export function weekColumns<R extends { readonly week: Week }>(): Told<R>[] {
  return [
    week('week', 'Week', (row) => row.week),
    day('monday', 'Monday', (row) => firstDayOfWeek(row.week)),
  ];
}

/** A measure in the papers' units; its unit stands in the heading. */
export function measured<R>(
  key: string,
  title: string,
  unit: Unit,
  units: DisplayUnits,
  of: (row: R) => Measure | undefined,
  decimals: number,
): Told<R> {
  return number(key, title, (row) => of(row)?.value, { unit: unitLabel(unit, units), decimals });
}

export function fruitColumn<R extends { readonly fruit?: Measure }>(units: DisplayUnits): Told<R> {
  return measured('fruit', 'Fruit', 't', units, ({ fruit }) => fruit, units.system === 'us' ? 0 : 1);
}

/** Beside a room's name, which of its fills is meant; no column where each room has one. */
export function fillColumns<R>(
  { fillsToTell }: SeasonAccount,
  rows: readonly R[],
  fillOf: (row: R) => string | undefined,
): Told<R>[] {
  const told = (row: R) => {
    const fill = fillOf(row);
    return fill !== undefined && fillsToTell.has(fill) ? fill : undefined;
  };
  return rows.some((row) => told(row) !== undefined) ? [text('fill', 'Fill', told)] : [];
}

/**
 * The room's own figures: what it holds, how it is kept, when it is opened. Set-points have the decimals that the rooms'
 * regimes are written with, for the crew steers to them.
 */
export function roomColumns(account: SeasonAccount): Told<RoomAccount>[] {
  const { units, rooms } = account;
  const setPoint = (
    key: string,
    title: string,
    unit: Unit,
    of: (row: RoomAccount) => Measure | undefined,
  ): Told<RoomAccount> => measured(key, title, unit, units, of, decimalsOfSetPoints(rooms.map(of)));
  return [
    text('room', 'Room', ({ room }) => room),
    ...fillColumns(account, rooms, ({ fill }) => fill),
    names('varieties', 'Varieties', ({ varieties }) => varieties),
    number('bins', 'Bins', ({ bins }) => bins),
    fruitColumn(units),
    text('regime', 'Regime', ({ regime }) => regime),
    setPoint('temperature', 'Temperature', 'degC', ({ temperature }) => temperature),
    setPoint('oxygen', 'Oxygen', '%', ({ oxygen }) => oxygen),
    setPoint('carbon-dioxide', 'Carbon dioxide', '%', ({ carbonDioxide }) => carbonDioxide),
    day('sealed', 'Sealed', ({ sealed }) => sealed),
    day('set-point-by', 'Set-point by', ({ setPointBy }) => setPointBy),
    ...windowColumns(),
    number('fresh-air-volumes', 'Fresh air, times its gas', ({ freshAirVolumes }) => freshAirVolumes, {
      decimals: 1,
    }),
    measured('fresh-air', 'Fresh air to plan for', 'm3', units, ({ freshAir }) => freshAir, 0),
  ];
}

export function windowColumns(): Told<RoomAccount>[] {
  return [
    week('earliest', 'Earliest', ({ earliest }) => earliest),
    week('best-before', 'Best before', ({ bestBefore }) => bestBefore),
    week('latest', 'Latest', ({ latest }) => latest),
    week('opens', 'Opens', ({ opens }) => opens),
    text('set', 'Set by', ({ setBy }) => setBy && setByNames[setBy]),
    week('empty-by', 'Empty by', ({ emptyBy }) => emptyBy),
  ];
}

export function placeColumns<R extends { readonly place: LotPlace | undefined }>(
  account: SeasonAccount,
  rows: readonly R[],
): Told<R>[] {
  return [
    text('room', 'Room', ({ place }) => place?.room ?? 'in no room'),
    ...fillColumns(account, rows, ({ place }) => place?.fill),
    day('sealed', 'Sealed', ({ place }) => place?.sealed),
    week('opens', 'Opens', ({ place }) => place?.opens),
    text('set', 'Set by', ({ place }) => place?.setBy && setByNames[place.setBy]),
    week('empty-by', 'Empty by', ({ place }) => place?.emptyBy),
  ];
}
