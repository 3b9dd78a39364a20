import type { StorageTerm } from '../../fruit/types';
import { daysCutShort, newYorkPeriod, washingtonPeriod } from '../../keeping/law';
import { termReason } from '../../keeping/maturity';
import type { OpeningWindow } from '../../keeping/types';
import { firstDayOfWeek, formatDay, formatWeek, weekOfDay } from '../../plan/dates';
import type { Lot, Room, Season } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { cautionInShort } from '../../room/caution';
import { unitsOf } from '../say';
import type { ComputedSeason, Rule } from '../types';

function* windowsEmpty({ plan, keeping }: ComputedSeason): Iterable<Problem> {
  for (const { filled, window } of keeping.values()) {
    if (!window || window.earliest.week <= window.latest.week) continue;
    const short = window.earliest.week - window.latest.week;
    const lot = window.latest.lot;
    yield {
      code: 'window-empty',
      message: `${filled.fill.id} can be opened at no time: not before ${formatWeek(window.earliest.week)} (${window.earliest.limit}), but opened by ${formatWeek(window.latest.week)} (${window.latest.limit}${lot ? ` of lot ${lot.id}` : ''}) to be emptied while it is good. ${counted(short, 'week')} ${short === 1 ? 'is' : 'are'} missing. ${cureOfEmpty(plan.season, window)} ${cautionInShort}`,
      at: filled.fill.at,
      related: lot ? [{ at: lot.at, message: `Lot ${lot.id} sets the latest week` }] : [],
      about: filled.fill.id,
    };
  }
}

/** Where the season leaves no week, its dates are what is wrong: no lot, regime or haste could cure it. */
function cureOfEmpty(season: Season | undefined, { earliest, latest }: OpeningWindow): string {
  const { starts, ends } = season ?? {};
  const short = earliest.week - latest.week;
  const isSeason = earliest.limit === 'season' || latest.limit === 'season';
  if (!isSeason || !starts || !ends)
    return 'Take the weakest lot out, choose another regime, or empty the room faster.';
  const days = `${formatDay(starts.value)} to ${formatDay(ends.value)}`;
  if (earliest.limit === latest.limit) return `Correct the dates of the season, ${days}.`;
  return earliest.limit === 'season'
    ? `Correct the dates of the season, ${days}: for this room it must begin by ${formatDay(firstDayOfWeek(latest.week) + 6)}.`
    : `Correct the dates of the season, ${days}: for this room it must go on to ${formatDay(firstDayOfWeek(weekOfDay(ends.value) + short))}.`;
}

const TERM_ORDER: readonly StorageTerm[] = ['air', 'short', 'mid', 'long'];
const TERM_WORDS: Readonly<Record<StorageTerm, string>> = {
  air: 'sale from air',
  short: 'short-term storage',
  mid: 'mid-term storage',
  long: 'long-term storage',
};

/** Weeks by which a weak lot must shorten a room's window before it is worth a finding; common practice. */
const WORTH_MOVING_WEEKS = 4;

function* weakLotShortensRoom(season: ComputedSeason): Iterable<Problem> {
  const { keeping } = season;
  for (const { filled, lots } of keeping.values()) {
    if (!filled.fill.sealed || lots.length < 2) continue;
    const inOrder = [...lots].sort((a, b) => a.latest - b.latest || (a.lot.id < b.lot.id ? -1 : 1));
    const [weakest, next] = inOrder;
    if (!weakest?.term || !next || next.latest - weakest.latest < WORTH_MOVING_WEEKS) continue;
    const better = lots.some(
      ({ term }) => term && TERM_ORDER.indexOf(term) > TERM_ORDER.indexOf(weakest.term ?? 'long'),
    );
    if (!better) continue;
    const part = filled.fill.lots.find(({ lot }) => lot.value === weakest.lot.id);
    yield {
      code: 'weak-lot-shortens-room',
      message: `Lot ${weakest.lot.id} suits ${TERM_WORDS[weakest.term]} (${termReason(weakest, unitsOf(season))}) and keeps to ${formatWeek(weakest.latest)}, the first of ${filled.fill.id} to go below standard; without it the room would keep ${counted(next.latest - weakest.latest, 'week')} longer. While the room is still being filled, move it to one that opens sooner. ${cautionInShort}`,
      at: part?.lot.at ?? filled.fill.at,
      related: [{ at: weakest.lot.maturity?.at ?? weakest.lot.at, message: 'Its maturity test' }],
      about: `${filled.fill.id}/${weakest.lot.id}`,
    };
  }
}

function* overMatureInSealedRoom(season: ComputedSeason): Iterable<Problem> {
  const { keeping } = season;
  for (const { filled, lots } of keeping.values()) {
    if (!filled.fill.sealed) continue;
    for (const one of lots) {
      if (one.term !== 'air') continue;
      const { lot } = one;
      const part = filled.fill.lots.find((candidate) => candidate.lot.value === lot.id);
      yield {
        code: 'over-mature-lot-sealed',
        message: `Lot ${lot.id} is too ripe for a sealed room (${termReason(one, unitsOf(season))}). Sell it at harvest or from air.`,
        at: part?.lot.at ?? filled.fill.at,
        related: [{ at: lot.maturity?.at ?? lot.at, message: 'Its maturity test' }],
        about: `${filled.fill.id}/${lot.id}`,
      };
    }
  }
}

function* noMaturityTest({ plan, keeping }: ComputedSeason): Iterable<Problem> {
  const untested: Lot[] = [];
  for (const { filled, lots } of keeping.values())
    if (filled.fill.sealed)
      for (let index = 0; index < lots.length; index++) {
        const lot = lots[index]?.lot;
        if (lot?.receivedBins && !lot.maturity) untested.push(lot);
      }
  const first = untested[0];
  if (!first || plan.lots.size === 0) return;
  // Lots that are only estimates have no test yet, and nothing is wrong with that.
  yield {
    code: 'maturity-not-tested',
    message: `${counted(untested.length, 'lot')} received for sealed rooms ${untested.length === 1 ? 'has' : 'have'} no maturity test (${listed(
      untested.map(({ id }) => id),
      6,
    )}): how long they keep rests on the variety alone.`,
    at: first.at,
    about: 'plan',
  };
}

function* claimUnsupported(season: ComputedSeason): Iterable<Problem> {
  yield* openedTooSoon(season);
  yield* pinnedTooSoon(season);
}

/**
 * Rooms on record as opened, empty or not: what was packed of them is still for sale. Where no day of 5 % oxygen is on
 * record the days are counted from sealing, which is the most there can have been.
 */
function* openedTooSoon({ plan, filled }: ComputedSeason): Iterable<Problem> {
  for (const { fill, room, lots } of filled.values()) {
    const { opened, lowOxygen, sealed = fill.sealed } = plan.progress.get(fill.id) ?? {};
    const firstBin = fill.firstBin ?? sealed;
    if (room.law === 'none' || !opened || !sealed || !firstBin) continue;
    const fivePercent = (lowOxygen ?? sealed).value;
    const dates = { firstBin: firstBin.value, sealed: sealed.value, fivePercent };
    const periodOf = room.law === 'new-york' ? newYorkPeriod : washingtonPeriod;
    const short = [...new Set(lots.map(({ lot, variety }) => lot.variety?.value ?? variety.name))].flatMap(
      (variety) => {
        const period = periodOf(variety, dates);
        const kept = daysCutShort(period, fivePercent, opened.value);
        return period.kind === 'days' && kept !== undefined ? [{ variety, kept, asked: period.days }] : [];
      },
    );
    if (short.length === 0) continue;
    const told = short.map(
      ({ variety, kept, asked }) =>
        `${variety} ${lowOxygen ? '' : 'at most '}${kept} of ${counted(asked, 'day')}`,
    );
    yield {
      code: 'claim-before-law-allows',
      message: `${fill.id} was opened on ${formatDay(opened.value)}, sooner than the rule of ${lawName(room)} asks: ${listed(told, 6)} at 5 % oxygen or below. This fruit may not be called "CA". Sell it without the claim, and write \`law: none\` where none is meant. Check the text in force.`,
      at: opened.at,
      related: [{ at: (lowOxygen ?? sealed).at, message: lowOxygen ? 'At 5 % oxygen' : 'Sealed' }],
      about: fill.id,
    };
  }
}

function lawName({ law }: Room): string {
  return law === 'new-york' ? 'New York' : 'Washington';
}

function* pinnedTooSoon({ keeping }: ComputedSeason): Iterable<Problem> {
  for (const { filled, window } of keeping.values()) {
    const { fill, room } = filled;
    if (fill.opened || fill.emptied) continue;
    if (!window || !fill.open || window.earliest.limit !== 'law' || fill.open.value >= window.earliest.week)
      continue;
    yield {
      code: 'claim-before-law-allows',
      message: `${fill.id}: opened in ${formatWeek(fill.open.value)}, its fruit may not be called "CA" by the rule of ${lawName(room)} before ${formatWeek(window.earliest.week)}. Open later, or sell it without the claim (\`law: none\`). Check the text in force. ${cautionInShort}`,
      at: fill.open.at,
      related: fill.sealed ? [{ at: fill.sealed.at, message: 'Sealed' }] : [],
      about: fill.id,
    };
  }
}

export const keepingRules: readonly Rule[] = [
  {
    code: 'window-empty',
    family: 'keeping',
    severity: 'error',
    summary: 'No week in which the room could be opened.',
    find: windowsEmpty,
  },
  {
    code: 'weak-lot-shortens-room',
    family: 'keeping',
    severity: 'notice',
    summary: "One lot ends the whole room's time.",
    find: weakLotShortensRoom,
  },
  {
    code: 'over-mature-lot-sealed',
    family: 'keeping',
    severity: 'warning',
    summary: 'A lot too ripe for a sealed room.',
    find: overMatureInSealedRoom,
  },
  {
    code: 'maturity-not-tested',
    family: 'keeping',
    severity: 'notice',
    summary: 'Received lots without a maturity test.',
    find: noMaturityTest,
  },
  {
    code: 'claim-before-law-allows',
    family: 'keeping',
    severity: 'warning',
    summary: 'A room pinned to open, or opened, before the law lets its fruit be called CA.',
    find: claimUnsupported,
  },
];
