import { type Day, firstDayOfWeek, formatWeek, type Week } from '../../plan/dates';
import { counted, isOrAre } from '../../plan/wording';
import { caution } from '../../room/caution';
import type { LotAccount, LotPlace, SeasonAccount } from './account';
import { byName } from './by-name';
import { fillColumns, fruitColumn, placeColumns, weekColumns } from './columns';
import {
  type CalendarTask,
  day,
  names,
  number,
  type Paper,
  type PaperTable,
  paperTable,
  text,
} from './paper';
import { isTold } from './told';

/** Every grower with a lot, in order; the empty name stands for lots whose grower the plan does not tell. */
export function growersOf({ lots }: SeasonAccount): string[] {
  return [...new Set(lots.map(({ grower }) => grower))].sort(byName);
}

/** One grower's own lots and nothing of anybody else's. */
export function growerPaper(account: SeasonAccount, grower: string): Paper {
  const lots = account.lots.filter((lot) => lot.grower === grower);
  const fills = new Map(lots.flatMap(({ places }) => places.map((place) => [place.fill, place] as const)));
  return {
    reader: 'growers',
    grower,
    title: grower === '' ? 'Lots without a grower' : `The fruit of ${grower}`,
    account,
    tables: [
      growerWeeksTable(account, lots),
      growerLotsTable(account, lots),
      growerPackingTable(account, lots),
    ],
    tasks: [...fills.values()].flatMap((place) => growerTasks(place, lots)),
    rooms: [],
    cautions: [caution],
  };
}

function growerWeeksTable(account: SeasonAccount, lots: readonly LotAccount[]): PaperTable {
  const weeks = new Map<Week, { rooms: Set<string>; bins: number }>();
  for (const place of lots.flatMap(({ places }) => places))
    for (const { week: at, bins } of place.packing) {
      const found = weeks.get(at) ?? { rooms: new Set(), bins: 0 };
      weeks.set(at, { rooms: found.rooms.add(place.room), bins: found.bins + bins });
    }
  const rows = [...weeks]
    .map(([at, { rooms, bins }]) => ({ week: at, rooms: [...rooms].sort(byName), bins }))
    .filter(({ week: at }) => isTold(account, at))
    .sort((a, b) => a.week - b.week);
  return paperTable(
    'weeks',
    'Week by week',
    rows,
    [
      ...weekColumns<(typeof rows)[number]>(),
      names('rooms', 'From', ({ rooms }) => rooms),
      number('bins', 'Bins packed', ({ bins }) => bins),
    ],
    true,
  );
}

interface LotRow {
  readonly lot: LotAccount;
  readonly place: LotPlace | undefined;
}

function growerLotsTable(account: SeasonAccount, lots: readonly LotAccount[]): PaperTable {
  const rows = lots.flatMap((lot): LotRow[] =>
    lot.places.length === 0 ? [{ lot, place: undefined }] : lot.places.map((place) => ({ lot, place })),
  );
  const fruit = fruitColumn<LotPlace>(account.units);
  return paperTable(
    'lots',
    'Where the fruit is',
    rows,
    [
      text('lot', 'Lot', ({ lot }) => lot.lot),
      text('variety', 'Variety', ({ lot }) => lot.variety),
      text('block', 'Block', ({ lot }) => lot.block),
      day('picked-first', 'Picked from', ({ lot }) => lot.pickedFirst),
      day('picked-last', 'Picked to', ({ lot }) => lot.pickedLast),
      number('bins', 'Bins', ({ lot, place }) => place?.bins ?? lot.bins),
      { ...fruit, of: ({ place }) => place && fruit.of(place) },
      ...placeColumns(account, rows),
    ],
    true,
  );
}

function growerPackingTable(account: SeasonAccount, lots: readonly LotAccount[]): PaperTable {
  const rows = lots
    .flatMap((lot) => lot.places.flatMap((place) => place.packing.map((one) => ({ ...one, lot, place }))))
    .filter(({ week: at }) => isTold(account, at))
    .sort((a, b) => a.week - b.week || byName(a.lot.lot, b.lot.lot));
  return paperTable(
    'packing',
    'When it is packed',
    rows,
    [
      ...weekColumns<(typeof rows)[number]>(),
      text('lot', 'Lot', ({ lot }) => lot.lot),
      text('variety', 'Variety', ({ lot }) => lot.variety),
      text('room', 'Room', ({ place }) => place.room),
      ...fillColumns(account, rows, ({ place }) => place.fill),
      number('bins', 'Bins', ({ bins }) => bins),
    ],
    true,
  );
}

function growerTasks(place: LotPlace, lots: readonly LotAccount[]): CalendarTask[] {
  if (place.opens === undefined) return [];
  const mine = lots.filter(({ places }) => places.some(({ fill }) => fill === place.fill));
  const here = mine.flatMap(({ places }) => places).filter(({ fill }) => fill === place.fill);
  const bins = here.reduce((all, one) => all + one.bins, 0);
  const packed = here.reduce((all, one) => all + one.packedBefore, 0);
  if (packed > 0 && packed >= bins) return [];
  const last: Day = firstDayOfWeek(place.emptyBy ?? place.opens) + 4;
  return [
    {
      kind: 'open',
      about: place.fill,
      which: '',
      first: firstDayOfWeek(place.opens),
      last,
      rooms: [place.room],
      title:
        packed > 0
          ? `The other ${bins - packed} of your ${counted(bins, 'bin')} in ${place.room} ${isOrAre(bins - packed)} packed`
          : `Your ${counted(bins, 'bin')} in ${place.room} ${isOrAre(bins)} packed`,
      detail: `Lots ${mine.map(({ lot }) => lot).join(', ')}. The room opens in ${formatWeek(place.opens)}.`,
    },
  ];
}

/** The lots of all growers, each with its grower. */
export function allLotsTable(account: SeasonAccount): PaperTable {
  const all = growersOf(account).map((grower) => ({
    grower,
    table: growerLotsTable(
      account,
      account.lots.filter((lot) => lot.grower === grower),
    ),
  }));
  const columns = all[0]?.table.columns ?? [];
  return {
    key: 'growers',
    title: "Each grower's lots",
    columns: [{ key: 'grower', title: 'Grower', kind: 'text' }, ...columns],
    rows: all.flatMap(({ grower, table }) => table.rows.map((row) => [grower, ...row])),
    opens: true,
  };
}
