import { fixed } from '../plan/display';
import type { Paint } from './paint';
import type { ReleaseReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';
import { weekRanges, whole } from './text-cells';

type Drawn = NonNullable<ReleaseReport['uncertainty']>;

/** The part of a release report that tells of seasons drawn; of its weeks only their names. */
export type DrawnPart = Pick<ReleaseReport, 'uncertainty' | 'goodAcross' | 'currency'> & {
  readonly weeks: readonly { readonly week: string }[];
};

/** Weeks that are short in fewer seasons than this are not listed. */
const LEAST_CHANCE = 0.1;
/** Rooms that the season hangs on most; the others are in the JSON. */
const ROOMS_SHOWN = 8;

/** What the schedule does in seasons other than planned. */
export function uncertaintyLines(report: DrawnPart, paint: Paint): string[] {
  const { uncertainty: drawn, currency } = report;
  if (!drawn) return [];
  const { crop, storageLife, packout, demand } = drawn.ranges;
  const money = (value: number) => `${currency} ${whole(value)}`;
  const intro = [
    `${drawn.draws} seasons drawn (seed ${drawn.seed}), nine of ten of them within ${percent(crop)} of the crop that is still to come in, ${percent(storageLife)} of storage life, ${percent(packout)} of packout and ${percent(demand)} of demand; rooms open in the weeks above.`,
    `Worth ${money(drawn.mean)} on average (other draws would move that by about ${whole(drawn.meanError)}), and between ${money(drawn.low)} and ${money(drawn.high)} in eight of ten; ${money(drawn.worstTenth)} in the worst tenth; ${money(drawn.planned)} if all comes as planned. ${againstPlan(drawn)}`,
    'Fruit past its life is counted as processed here, and no risk beside it; uneven work as the season went, changed weeks not at all. Opening weeks are held; what is packed of a room in each week is spread anew, knowing how the season goes. Fruit that keeps longer stays firm for buyers as much longer.',
  ];
  return [
    '',
    paint.bold('Seasons that could come'),
    '',
    ...intro.flatMap((text) => wrap(text, PAGE_WIDTH, '  ')),
    '',
    ...varietyTable(drawn, report),
    '',
    ...roomTable(drawn),
  ];
}

/** Why the mean lies where it does beside the season as planned. */
function againstPlan({ mean, meanError, planned }: Drawn): string {
  const above = mean - planned;
  if (Math.abs(above) <= 2 * meanError || whole(mean) === whole(planned))
    return 'Mean and plan are the same as far as so many draws can tell.';
  if (above < 0)
    return 'The mean is below the plan, since what a poor season lacks costs more than a good one brings: places, packhouse and orders are full.';
  return 'The mean is above the plan: fruit that is too old or too soft for its buyers as planned is sold in the seasons in which it keeps longer, and that brings more than what the others lose.';
}

function varietyTable({ varieties, all }: Drawn, { weeks }: DrawnPart): string[] {
  const index = new Map(weeks.map(({ week }, at) => [week, at]));
  return table(
    [
      { title: 'Variety' },
      { title: 'Short some week', unit: '%', align: 'right' },
      { title: 'Short on average', unit: 'cartons', align: 'right' },
      { title: 'Weeks short in one season of ten or more', breaks: true },
    ],
    [...varieties, ...(varieties.length > 1 ? [{ variety: 'Any of them', ...all }] : [])].map((one) => [
      one.variety,
      fixed(100 * one.chance, 0),
      whole(one.cartonsShort),
      weekRanges(
        one.weeks
          .filter(({ chance }) => chance >= LEAST_CHANCE)
          .map(({ week }) => ({ index: index.get(week) ?? 0, label: week })),
      ),
    ]),
  );
}

function roomTable({ rooms }: Drawn): string[] {
  const shown = rooms
    .filter((one) => one.costs >= 0.5 || one.cartonsShort >= 0.5 || one.softChance > 0)
    .slice(0, ROOMS_SHOWN);
  if (shown.length === 0)
    return ['It hangs on no room alone: a small crop or a short life of one costs nothing.'];
  return table(
    [
      { title: 'Rooms it hangs on most' },
      { title: 'Costs if it alone does badly', unit: 'money', align: 'right' },
      { title: 'Short more', unit: 'cartons', align: 'right' },
      { title: 'Some of it soft', unit: '%', align: 'right' },
      { title: 'Soft on average', unit: '%', align: 'right' },
    ],
    shown.map((one) => [
      one.room,
      whole(one.costs),
      whole(one.cartonsShort),
      fixed(100 * one.softChance, 0),
      fixed(100 * one.softShare, 1),
    ]),
  );
}

function percent(share: number): string {
  return `${fixed(100 * share, share * 100 === Math.round(share * 100) ? 0 : 1)} %`;
}
