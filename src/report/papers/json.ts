import { formatDay, formatWeek } from '../../plan/dates';
import { caution } from '../../room/caution';
import { present } from '../parts';
import type { PapersReport } from '../schemas';
import type { LotAccount, LotPlace, RoomAccount, SeasonAccount, TaskKind, WeekBins } from './account';
import type { Paper, Reader } from './paper';
import { fromTheirFolder } from './their-folder';

type Part =
  | 'weeks'
  | 'rooms'
  | 'tasks'
  | 'samples'
  | 'scrubbing'
  | 'market'
  | 'products'
  | 'fromField'
  | 'lots';

/** What of the account each reader is given. */
const PARTS: Readonly<Record<Reader, readonly Part[]>> = {
  packhouse: ['weeks', 'rooms', 'fromField'],
  sales: ['weeks', 'market', 'products'],
  'cold-store': ['rooms', 'tasks', 'scrubbing'],
  lab: ['rooms', 'samples'],
  growers: ['lots'],
  everyone: ['weeks', 'rooms', 'tasks', 'samples', 'scrubbing', 'market', 'products', 'fromField', 'lots'],
};

/** A reader's part of the account as plain data. Numbers are whole, or in the report's units. */
export function papersReport(paper: Paper): PapersReport {
  const { account, reader, grower, cautions } = paper;
  const parts = allParts(account, grower);
  const kept = PARTS[reader].map((part) => [part, parts[part]] as const);
  return {
    format: 'lotwright-papers-report',
    version: 1,
    plan: { season: account.title, files: fromTheirFolder(account.files) },
    units: account.units.system,
    for: reader,
    ...present({
      grower,
      issued: account.issued === undefined ? undefined : formatDay(account.issued),
      packedBefore: PARTS[reader].includes('market') ? account.packedBefore : undefined,
    }),
    schedule: account.schedule,
    basis: account.basis,
    conflicts: [...account.conflicts],
    ...Object.fromEntries(kept),
    caution: [caution, ...cautions.filter((one) => one !== caution)].join('\n'),
  };
}

function allParts(account: SeasonAccount, grower: string | undefined): Required<Pick<PapersReport, Part>> {
  const lots = account.lots.filter((lot) => grower === undefined || lot.grower === grower);
  return {
    weeks: account.weeks.map((week) => ({ ...week, week: formatWeek(week.week) })),
    rooms: account.rooms.map(roomJson),
    tasks: account.tasks.map(({ kind, about, which, first, last, rooms, title, detail }) => ({
      kind: kind satisfies TaskKind,
      about,
      which,
      first: formatDay(first),
      last: formatDay(last),
      rooms: [...rooms],
      title,
      detail,
    })),
    samples: account.samples.map(({ first, last, of, ...sample }) => ({
      ...sample,
      first: formatDay(first),
      last: formatDay(last),
      of: [...of],
    })),
    scrubbing: account.scrubbing.map((turn) => ({
      ...turn,
      first: formatWeek(turn.first),
      last: formatWeek(turn.last),
    })),
    market: account.market.map((line) => ({
      ...line,
      week: formatWeek(line.week),
      demands: [...line.demands],
    })),
    products: account.products.map((line) => ({ ...line, week: formatWeek(line.week) })),
    fromField: account.fromField.map((one) => ({ ...one, packing: one.packing.map(packedJson) })),
    lots: lots.map(lotJson),
  };
}

function roomJson(room: RoomAccount): NonNullable<PapersReport['rooms']>[number] {
  const { firstBin, lastBin, sealed, fivePercentBy, setPointBy } = room;
  const { earliest, bestBefore, latest, opens, emptyBy, ...others } = room;
  return {
    ...others,
    varieties: [...room.varieties],
    growers: [...room.growers],
    lots: room.lots.map((lot) => ({ ...lot })),
    packing: room.packing.map(packedJson),
    ...formatted({ firstBin, lastBin, sealed, fivePercentBy, setPointBy }, formatDay),
    ...formatted({ earliest, bestBefore, latest, opens, emptyBy }, formatWeek),
  } as NonNullable<PapersReport['rooms']>[number];
}

function lotJson({ pickedFirst, pickedLast, places, ...lot }: LotAccount) {
  return { ...lot, ...formatted({ pickedFirst, pickedLast }, formatDay), places: places.map(placeJson) };
}

function placeJson({ sealed, opens, emptyBy, packing, packedBefore: _, ...place }: LotPlace) {
  return {
    ...place,
    ...formatted({ sealed }, formatDay),
    ...formatted({ opens, emptyBy }, formatWeek),
    packing: packing.map(packedJson),
  };
}

function packedJson({ week, bins }: WeekBins) {
  return { week: formatWeek(week), bins };
}

/** Days or weeks as text; those that are not known are left out. */
function formatted<K extends string>(
  values: Readonly<Record<K, number | undefined>>,
  format: (value: number) => string,
): Partial<Record<K, string>> {
  const known = Object.entries<number | undefined>(values).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, format(value)] as const],
  );
  return Object.fromEntries(known) as Partial<Record<K, string>>;
}
