import { fixed } from '../plan/display';
import type { Paint } from './paint';
import type { ReleaseReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { whole } from './text-cells';
import type { DrawnPart } from './uncertainty-text';

type Across = NonNullable<ReleaseReport['goodAcross']>;
type Drawn = NonNullable<ReleaseReport['uncertainty']>;

/** The schedule that is good across draws beside the one that is best if all comes as expected. */
export function acrossLines(report: DrawnPart, paint: Paint): string[] {
  const { goodAcross: across, uncertainty: drawn } = report;
  if (!across || !drawn) return [];
  return [
    '',
    paint.bold('Good across seasons, not only if all comes as expected'),
    '',
    ...wrap(intro(across, drawn), PAGE_WIDTH, '  '),
    '',
    ...worthTable(across, drawn, report.currency),
    '',
    ...varietyTable(across, drawn),
    '',
    ...movedTable(across),
  ];
}

function intro(across: Across, drawn: Drawn): string {
  const count = across.moved.length;
  const moved =
    count === 0 ? 'No room is moved' : count === 1 ? 'One room is moved' : `${count} rooms are moved`;
  return `Sought on ${across.draws} seasons drawn (seed ${drawn.seed}), ${across.tried} schedules and moves tried. ${moved} from the weeks that are best if all comes as expected. Both schedules are told on ${drawn.draws} other seasons, which neither was sought on.`;
}

function worthTable(across: Across, drawn: Drawn, currency: string): string[] {
  const rows: readonly [string, (one: Drawn) => number][] = [
    ['on average', ({ mean }) => mean],
    ['in the worst tenth', ({ worstTenth }) => worstTenth],
    ['one season of ten is below', ({ low }) => low],
    ['one season of ten is above', ({ high }) => high],
    ['if all comes as planned', ({ planned }) => planned],
  ];
  return table(
    [
      { title: 'Worth' },
      { title: 'Best if as expected', unit: currency, align: 'right' },
      { title: 'Good across seasons', unit: currency, align: 'right' },
      { title: 'More', unit: currency, align: 'right' },
    ],
    rows.map(([name, of]) => {
      const [before, after] = [of(across.expected), of(drawn)];
      return [name, whole(before), whole(after), signed(after - before)];
    }),
  );
}

function varietyTable({ expected }: Across, drawn: Drawn): string[] {
  return table(
    [
      { title: 'Variety' },
      { title: 'Short some week, before', unit: '%', align: 'right' },
      { title: 'now', unit: '%', align: 'right' },
      { title: 'Short on average, before', unit: 'cartons', align: 'right' },
      { title: 'now', unit: 'cartons', align: 'right' },
    ],
    drawn.varieties.map((now) => {
      const before = expected.varieties.find(({ variety }) => variety === now.variety);
      return [
        now.variety,
        fixed(100 * (before?.chance ?? 0), 0),
        fixed(100 * now.chance, 0),
        whole(before?.cartonsShort ?? 0),
        whole(now.cartonsShort),
      ];
    }),
  );
}

function movedTable({ moved }: Across): string[] {
  if (moved.length === 0) return ['No room moves: the schedule is the best found on these seasons too.'];
  return table(
    [{ title: 'Room moved' }, { title: 'Best if as expected' }, { title: 'Good across seasons' }],
    moved.map(({ room, from, to }) => [room, from ?? 'closed', to ?? 'closed']),
  );
}

function signed(value: number): string {
  return value > 0 ? `+${whole(value)}` : whole(value);
}
