import { formatWeek } from '../plan/dates';
import type { ValueClaim } from '../plan/expect-model';
import { countedFigure } from '../plan/figure';
import { counted, isOrAre, listed } from '../plan/wording';
import { isQuick } from '../release/simple-bound';
import { type Context, noSchedule, notJudged, notRecordedText, recordedUntil, sum } from './context';
import { roomOf } from './moves';
import type { Cure, Verdict } from './types';

/** What the schedule is worth. */
export function judgeValue(context: Context, claim: ValueClaim): Verdict {
  const { release } = context.season;
  const { atLeast } = claim;
  if (!release) return notJudged(claim.at, noSchedule(context));
  if (!atLeast) return notJudged(claim.at, 'It does not say how much.');
  const value = context.whole?.value ?? release.result.schedule.value;
  const figure = countedFigure('value of the schedule', 'money', value, context.schedule);
  const told = {
    promised: { kind: 'figure', figure: atLeast },
    measured: { kind: 'figure', figure },
    at: atLeast.origin.kind === 'plan' ? atLeast.origin.at : claim.at,
  } as const;
  const until = recordedUntil(context);
  const before =
    until === undefined
      ? ''
      : ` with what was sold and short before ${formatWeek(until)}, at the prices of the demand`;
  const worth = `${context.schedule.charAt(0).toUpperCase()}${context.schedule.slice(1)} is worth ${context.show(figure)}${before}`;
  if (value >= atLeast.value)
    return { state: 'kept', ...told, why: `${worth}.${notRecordedText(context)}`, cures: [] };
  return {
    state: 'broken',
    ...told,
    why: `${worth}, ${money(context, atLeast.value - value)} less than promised.${notRecordedText(context)} ${lossText(context)}`.trim(),
    cures: boundCure(context, atLeast.value, value - release.result.schedule.value),
  };
}

/** Where money is lost: the orders short by most, and rooms that stay shut. */
function lossText(context: Context): string {
  const { release } = context.season;
  const { whole } = context;
  if (!release || !whole) return '';
  const { problem, result } = release;
  const short = whole.demands
    .map(({ id, cartons, price, priceOfShortage }, index) => {
      const missing = cartons.reduce(
        (all, wanted, week) => all + Math.max(0, wanted - (whole.sold[index]?.[week] ?? 0)),
        0,
      );
      return { id, missing, money: missing * (price + priceOfShortage) };
    })
    .filter(({ missing }) => missing >= 0.5)
    .sort((a, b) => b.money - a.money);
  const shut = problem.rooms.flatMap(({ fill, fromField }, index) =>
    (result.schedule.opens[index] ?? null) === null && !fromField ? [roomOf(context, fill)] : [],
  );
  const unsold = whole.processed.reduce((all, weeks) => all + sum(weeks), 0);
  const parts = [
    ...(short.length > 0
      ? [
          `orders not met cost most: ${listed(
            short
              .slice(0, 3)
              .map(
                ({ id, missing, money: lost }) =>
                  `${id} ${money(context, lost)} for ${counted(missing, 'carton')}`,
              ),
            3,
          )}`,
        ]
      : []),
    ...(unsold >= 0.5 ? [`${counted(unsold, 'carton')} ${isOrAre(unsold)} packed and not sold`] : []),
    ...(shut.length > 0 ? [`${listed(shut)} ${shut.length === 1 ? 'stays' : 'stay'} shut`] : []),
  ];
  const text = parts.join('; ');
  return text === '' ? '' : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** A bound that no schedule passes says whether another schedule could keep it; `past` is what the past was worth. */
function boundCure(context: Context, promised: number, past: number): Cure[] {
  const { release } = context.season;
  if (!release) return [];
  if (release.problem.rooms.length === 0)
    return [{ text: 'Every room is packed out: no schedule changes it any more.', fixes: [] }];
  const most = release.result.bound + past;
  const bound = money(context, most);
  if (most < promised || release.result.provenOptimal)
    return [
      {
        text: `No schedule of this plan can be worth more than ${bound}, so that none keeps it: its fruit, its orders or its prices would have to change.`,
        fixes: [],
      },
    ];
  const may = isQuick(release.result)
    ? 'the release search may find one that keeps it'
    : 'the release search has found none that keeps it, and not proved that there is none';
  return [{ text: `A schedule of this plan may be worth up to ${bound}; ${may}.`, fixes: [] }];
}

function money({ show }: Context, value: number): string {
  return show(countedFigure('money', 'money', value, 'a difference'));
}
