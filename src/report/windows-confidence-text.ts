import type { WindowsReport } from './schemas';
import { table } from './table';
import { setBy } from './windows-moves-text';

type Row = WindowsReport['rooms'][number];
type Latest = Row['byConfidence'][number];

/** The latest week of each room by confidence, and how well the spreads behind it are known. */
export function confidenceTable(rooms: readonly Row[]): string[] {
  const known = rooms.filter(({ byConfidence }) => byConfidence.length > 0);
  const [first] = known;
  if (!first) return [];
  return [
    '',
    ...table(
      [
        { title: 'Room' },
        ...first.byConfidence.map(({ confidence }) => ({ title: `Latest at ${confidence} %` })),
        { title: 'Spreads behind it', breaks: true },
      ],
      known.map((row) => [row.room, ...row.byConfidence.map(weekText), spreadsOf(row) || NO_SPREAD]),
    ),
  ];
}

/** One room: what sets its latest week at each confidence. */
export function roomConfidence(row: Row): string[] {
  if (row.byConfidence.length === 0) return [];
  return [
    '',
    ...table(
      [{ title: 'Confidence', align: 'right' as const }, { title: 'Latest' }, { title: 'Set by' }],
      row.byConfidence.map((one) => [
        `${one.confidence} %`,
        weekText(one),
        setBy({ ...one, week: one.latest }),
      ]),
    ),
    '',
    `  Spreads behind it: ${spreadsOf(row) || NO_SPREAD}.`,
  ];
}

/** Where no lot's fruit sets a week. */
const NO_SPREAD = 'none: the season ends first';

function weekText({ latest, empty }: Latest): string {
  return empty ? 'no week' : latest;
}

function spreadsOf({ spreads }: Row): string {
  return spreads.map(({ of, known }) => `${of} ${known}`).join(', ');
}
