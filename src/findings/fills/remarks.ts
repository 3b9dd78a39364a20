import { leastUnplaced } from '../../fill/bound';
import type { FillProblem, FillProposal } from '../../fill/types';
import { formatDay } from '../../plan/dates';
import { counted, listed } from '../../plan/wording';
import type { ComputedSeason, Finding } from '../types';
import { type Heavier, heavierText } from './heavier';
import type { TakenOut } from './judge';
import { type FillOptionsOfSeason, fillProblemOf } from './problem';

interface RemarkOptions extends FillOptionsOfSeason {
  readonly takenOut?: readonly TakenOut[] | undefined;
  readonly ofSchedule?: readonly Finding[] | undefined;
  readonly inTheOpen?: readonly Finding[] | undefined;
  readonly heavier?: readonly Heavier[] | undefined;
}

/** What else a planner should know of a proposal: fillings in the past, and places that topping up would use. */
export function fillRemarks(
  season: ComputedSeason,
  problem: FillProblem,
  { rooms, unplaced }: FillProposal,
  options: RemarkOptions,
): string[] {
  const { today, takenOut = [], ofSchedule = [], inTheOpen = [], heavier = [] } = options;
  const past =
    today === undefined
      ? []
      : rooms.filter(({ entries }) => entries.some(({ entered }) => entered < today)).map(({ room }) => room);
  const left = unplaced.reduce((sum, { bins }) => sum + bins, 0);
  return [
    ...(past.length > 0 && today !== undefined
      ? [
          `Before ${formatDay(today)}, the day of reckoning, bins would have gone into ${listed(past, 8)}: the days are those on which their lots are picked. Take these fills only where the bins went in then, or stand in the cold since; the findings count from those days. Rooms that are sealed by then are left as they are.`,
        ]
      : []),
    ...openText(inTheOpen),
    ...heavier.map(heavierText),
    ...despiteText(takenOut),
    ...scheduleText(ofSchedule),
    ...(options.topUp || (left === 0 && problem.rooms.length > 0)
      ? []
      : topUpHelps(season, problem, options)),
  ];
}

/** What the proposal makes that a planner may live with, each with its text, and how it is forbidden. */
function openText(findings: readonly Finding[]): string[] {
  if (findings.length === 0) return [];
  return [
    ...new Set(findings.map(({ message }) => `With this proposal: ${message}`)),
    `${findings.length === 1 ? 'This warning is' : 'These warnings are'} new. Where you cannot live with one, take only the other fills; --strict proposes nothing that makes such a warning, nor what makes a finding that \`policy: findings\` raises to an error.`,
  ];
}

/** Which findings keep bins out, and how they are let pass. */
function despiteText(takenOut: readonly TakenOut[]): string[] {
  const byCode = new Map<string, number>();
  for (const { code, bins } of takenOut)
    if (code !== 'release-value') byCode.set(code, (byCode.get(code) ?? 0) + bins);
  if (byCode.size === 0) return [];
  const said = [...byCode]
    .sort((a, b) => b[1] - a[1])
    .map(([code, bins]) => `${code} (${counted(bins, 'bin')})`);
  return [
    `Findings that would be new keep fruit out of rooms: ${listed(said, 8)}. Cure them as they say; or let a finding pass that you can live with, by --despite <code> or by lowering it to a notice under \`policy: findings\`, and propose again.`,
  ];
}

/** What the quick schedule alone would make new. */
function scheduleText(findings: readonly Finding[]): string[] {
  if (findings.length === 0) return [];
  const said = findings.map(({ code, fingerprint }) => `${code} of ${fingerprint.slice(code.length + 1)}`);
  return [
    `New with it, by the weeks of the quick schedule alone, so that another schedule may not have it: ${listed([...new Set(said)], 8)}.`,
  ];
}

/** How many of the bins left over places in the plan's own fills could take. */
function topUpHelps(season: ComputedSeason, problem: FillProblem, options: FillOptionsOfSeason): string[] {
  const waiting = (one: FillProblem) =>
    one.lots.reduce((sum, { bins }) => sum + bins, 0) - leastUnplaced(one);
  const topped = fillProblemOf(season, { ...options, topUp: true });
  const begun = topped.rooms.filter(({ held }) => held).map(({ id }) => id);
  const more = waiting(topped) - waiting(problem);
  if (begun.length === 0 || more <= 0) return [];
  return [
    `With --top-up up to ${counted(more, 'bin')} more could go into places left in ${listed(begun, 8)}.`,
  ];
}
