import { varietySpelling } from '../../fruit/data';
import { isPlantSection, itemName } from '../../plan/check/item-kinds';
import { type Day, formatDay, weekOfDay } from '../../plan/dates';
import type { Lot, Reference } from '../../plan/model';
import { allNearest } from '../../plan/nearest';
import type { Fix, Problem } from '../../plan/problem';
import type { ReferableSection } from '../../plan/schema/values';
import { entriesOf } from '../../plan/sections';
import type { Given, Span } from '../../plan/span';
import { listed as oneOf } from '../../plan/text/say';
import { counted, listed } from '../../plan/wording';
import { lastDayOfSeason, MOST_WEEKS } from '../../release/problem';
import { ofEntries } from '../each-entry';
import { binsIn } from '../placed';
import type { ComputedSeason, Rule } from '../types';
import { hasUnreadBins, isReceiptUnread } from '../unknown-fruit';
import { fillOutOfOrder, keysWithoutEffect, lotOutOfOrder } from './order';
import { ordersOutsideSeason } from './orders-outside';
import { fillOutsideSeason, inYear, lotOutsideSeason } from './outside-season';
import { receiptRules } from './receipts';

function known({ plan, fruit }: ComputedSeason, section: ReferableSection, id: string): boolean {
  if (entriesOf(plan, section).has(id)) return true;
  if (section === 'varieties') return fruit.variety(id) !== undefined;
  return section === 'regimes' && fruit.regime(id) !== undefined;
}

function candidates({ plan, fruit }: ComputedSeason, section: ReferableSection): string[] {
  const own = [...entriesOf(plan, section).keys()];
  if (section === 'varieties') return [...own, ...fruit.varietyNames];
  if (section === 'regimes') return [...own, ...fruit.regimeNames];
  return own;
}

function* unknownReferences(season: ComputedSeason): Iterable<Problem> {
  // Thousands of lots are of a few varieties: each name is looked for once.
  const found = new Map<ReferableSection, Set<string>>();
  const { references } = season.plan;
  let last: Reference | undefined;
  for (let index = 0; index < references.length; index++) {
    const reference = references[index] as Reference;
    const { section, id } = reference;
    // What stands beside one another mostly names the same.
    if (id === last?.id && section === last.section) continue;
    const names = found.get(section) ?? new Set();
    if (!names.has(id)) {
      if (!known(season, section, id)) {
        if (!addedIn(season, reference)) yield unknownReference(season, reference);
        continue;
      }
      // Told wherever it stands, and so not among the names that are in order.
      const spelling = section === 'varieties' ? varietySpelling(season.plan, id) : id;
      if (spelling !== id) {
        yield spelledOtherwise(reference, spelling);
        continue;
      }
      found.set(section, names.add(id));
    }
    last = reference;
  }
}

/** What a scenario names may be what it adds. */
function addedIn({ plan }: ComputedSeason, { section, id, scenario }: Reference): boolean {
  const overlays = scenario === undefined ? [] : (plan.scenarios.get(scenario)?.overlays ?? []);
  return overlays.some((one) => one.how === 'add' && one.kind === section && one.id === id);
}

function unknownReference(season: ComputedSeason, reference: Reference): Problem {
  const { section, id, at } = reference;
  const what = itemName(section);
  const taken = inSameFill(season, reference);
  const isFree = (name: string) => !taken.has(name);
  const meant = likeliest(
    season,
    section,
    allNearest(id, new Set(candidates(season, section).filter(isFree))),
  );
  const builtIn = section === 'varieties' || section === 'regimes' ? ', nor is one built in' : '';
  const alike =
    meant.length > 0
      ? []
      : candidates(season, section).filter((name) => isFree(name) && beginsAlike(name, id));
  const fixes = meant.slice(0, MOST_OFFERED).map((name) => changeTo(name, at));
  return {
    code: 'unknown-reference',
    message: `No ${what} \`${id}\` is defined in this plan${builtIn}.${
      meant.length > 0
        ? ` Is ${oneOf(
            meant.map((name) => `\`${name}\``),
            'or',
            MOST_OFFERED,
          )} meant?`
        : alike.length > 0
          ? ` There are ${listed(
              alike.map((name) => `\`${name}\``),
              6,
            )}.`
          : ` Define it under \`${isPlantSection(section) ? 'plant: ' : ''}${section}\`, or name one that is.`
    }`,
    at,
    about: `${section}/${id}`,
    fixes,
  };
}

/** Of names that are as near as one another so many are offered. */
const MOST_OFFERED = 4;

function changeTo(newText: string, at: Span): Fix {
  return { title: `Change to \`${newText}\``, edits: [{ at, newText }] };
}

/** The fruit is known, and yet another variety to whatever goes by the name as it is written. */
function spelledOtherwise({ section, id, at }: Reference, spelling: string): Problem {
  return {
    code: 'unknown-reference',
    severity: 'warning',
    message: `\`${id}\` is the variety \`${spelling}\`, spelled otherwise. Its fruit is known, but fruit fills only orders that write its variety the same way. Write \`${spelling}\`.`,
    at,
    about: `${section}/${id}`,
    fixes: [changeTo(spelling, at)],
  };
}

/** What may have been meant of names that are as near: of rooms, those that no fill has yet, where there are any. */
function likeliest(season: ComputedSeason, section: ReferableSection, names: readonly string[]) {
  if (section !== 'rooms' || names.length < 2) return names;
  const taken = new Set([...season.plan.fills.values()].map(({ room }) => room?.value));
  const free = names.filter((name) => !taken.has(name));
  return free.length > 0 ? free : names;
}

/** Lots that stand in the fill that names a lot: none of them can have been meant, for it would stand there twice. */
function inSameFill({ plan }: ComputedSeason, { section, at }: Reference): ReadonlySet<string> {
  if (section !== 'lots') return new Set();
  const isHere = (span: Span) => span.file === at.file && span.start === at.start;
  const fill = [...plan.fills.values()].find(({ lots }) => lots.some(({ lot }) => isHere(lot.at)));
  return new Set(fill?.lots.map(({ lot }) => lot.value));
}

/** `idared` and `idared-standard`: one may have been meant by the other. */
function beginsAlike(name: string, typed: string): boolean {
  const first = (text: string) => text.toLowerCase().split(/[^a-z0-9]+/)[0] ?? '';
  return first(typed).length > 2 && first(name) === first(typed);
}

function* unusedEntries({ plan }: ComputedSeason): Iterable<Problem> {
  const sections: ReferableSection[] = ['bins', 'scrubbers', 'nitrogen', 'refrigeration', 'regimes'];
  const used = new Map(sections.map((section) => [section, new Set<string>()] as const));
  for (const { section, id, scenario } of plan.references)
    if (scenario === undefined) used.get(section)?.add(id);
  for (const section of sections) {
    for (const entry of entriesOf(plan, section).values()) {
      if (used.get(section)?.has(entry.id)) continue;
      yield {
        code: 'unused-entry',
        message: `The ${itemName(section)} \`${entry.id}\` is not used anywhere in this plan.`,
        at: entry.at,
        about: `${section}/${entry.id}`,
      };
    }
  }
}

function* lotsNotPlaced(season: ComputedSeason): Iterable<Problem> {
  let known: Map<string, number> | undefined;
  const fromField = (plan: ComputedSeason['plan']) => {
    known ??= binsFromField(plan);
    return known;
  };
  for (const lot of season.plan.lots.values()) yield* lotNotPlaced(season, lot, fromField) ?? [];
}

function lotNotPlaced(
  { plan, placed }: ComputedSeason,
  lot: Lot,
  fromField: (plan: ComputedSeason['plan']) => ReadonlyMap<string, number> = binsFromField,
): Problem[] | undefined {
  // Before any fill is planned, a finding for every lot would say nothing.
  if (!placed) return undefined;
  const bins = lot.receivedBins ?? lot.expectedBins;
  const parts = placed.get(lot.id);
  const inNoFill = (bins?.value ?? 0) - (parts ? binsIn(parts) : 0);
  if (!bins || inNoFill <= 0 || lot.packedAtHarvest) return undefined;
  const left = inNoFill - (fromField(plan).get(lot.id) ?? 0);
  if (left <= 0 || hasUnreadBins(plan, lot)) return undefined;
  const share = parts ? `${counted(left, 'bin')} of ${bins.value}` : `all ${counted(left, 'bin')}`;
  return [
    {
      code: 'lot-not-placed',
      message: `Lot ${lot.id}: ${share} go to no room. Add them to a fill, or say \`packed-at-harvest: 14 days\` in the lot if they are packed from the field.`,
      at: lot.at,
      about: lot.id,
    },
  ];
}

/** Bins of each lot that are recorded as packed from the field. */
function binsFromField({ packed }: ComputedSeason['plan']): Map<string, number> {
  const byLot = new Map<string, number>();
  for (const { lot, fill, bins } of packed.values())
    if (lot && !fill) byLot.set(lot.value, (byLot.get(lot.value) ?? 0) + (bins?.value ?? 0));
  return byLot;
}

function lotPlacedTwice({ plan, placed }: ComputedSeason, lot: Lot): Problem[] | undefined {
  const bins = lot.receivedBins ?? lot.expectedBins;
  const parts = placed?.get(lot.id);
  if (!bins || !parts) return undefined;
  const over = binsIn(parts) - bins.value;
  if (over <= 0) return undefined;
  // What is recorded as gone in is held against the receipts, not against an estimate.
  if (parts.length > 0 && parts.every(({ fill }) => plan.progress.get(fill.id)?.lots.length))
    return undefined;
  if (isReceiptUnread(lot)) return undefined;
  const places = parts.map(({ fill, part }) => ({
    at: part.lot.at,
    message: `${counted(part.bins.value, 'bin')} in ${fill.id}`,
  }));
  const last = places.at(-1);
  return [
    {
      code: 'lot-placed-beyond-its-bins',
      message: `Lot ${lot.id} has ${counted(bins.value, 'bin')}${lot.receivedBins ? ' received' : ' expected'}, but the fills take ${counted(over, 'bin')} more. Lower the bins in ${listed(places.map(({ message }) => message.split(' in ')[1] ?? ''))}.`,
      at: last?.at ?? lot.at,
      related: [{ at: lot.at, message: `${lot.id} is defined here` }, ...places.slice(0, -1)],
      about: lot.id,
    },
  ];
}

function* seasonOutOfOrder({ plan: { season } }: ComputedSeason): Iterable<Problem> {
  if (season?.starts && season.ends && season.ends.value <= season.starts.value)
    yield {
      code: 'dates-out-of-order',
      message: `The season ends (${formatDay(season.ends.value)}) before it starts (${formatDay(season.starts.value)}). Correct one of them: let it end after ${formatDay(season.starts.value)}, or start before ${formatDay(season.ends.value)}.`,
      at: season.ends.at,
      related: [{ at: season.starts.at, message: 'It starts here' }],
      about: 'season',
    };
}

/** Told at the date: without a schedule nothing else shows that a year was typed wrong. */
function* seasonTooLong({ plan }: ComputedSeason): Iterable<Problem> {
  const { starts, ends } = plan.season ?? {};
  const last = starts && lastDayOfSeason(starts.value);
  if (!starts || !ends || !last) return;
  const weeks = weekOfDay(ends.value) - weekOfDay(starts.value) + 1;
  if (ends.value <= last) {
    if (weeks > WEEKS_OF_A_HARVEST) yield moreThanOneHarvest(starts, ends, weeks);
    return;
  }
  yield {
    code: 'season-too-long',
    message: `The season goes on to ${formatDay(ends.value)}, ${counted(weeks, 'week')} from ${formatDay(starts.value)}: it may be ${MOST_WEEKS} weeks long, three years, and no release schedule is computed for a longer one. End it by ${formatDay(last)}.`,
    at: ends.at,
    related: [{ at: starts.at, message: 'It starts here' }],
    about: 'season',
  };
}

/** A harvest of three months, the last of which keeps a year. Common practice. */
const WEEKS_OF_A_HARVEST = 65;

/** All is computed, over weeks in which nothing may happen: most often a year was typed wrong. */
function moreThanOneHarvest(starts: Given<Day>, ends: Given<Day>, weeks: number): Problem {
  const years = Math.ceil((weeks - WEEKS_OF_A_HARVEST) / 52);
  const meant = inYear(ends.value, -years);
  const newText = meant === undefined || meant <= starts.value ? undefined : formatDay(meant);
  return {
    code: 'season-too-long',
    severity: 'warning',
    message: `The season has ${counted(weeks, 'week')}, ${formatDay(starts.value)} to ${formatDay(ends.value)}. A plan is of one harvest, and its fruit is sold within ${WEEKS_OF_A_HARVEST} weeks; the next harvest has a plan of its own.${newText === undefined ? ' End it sooner.' : ` End it for example on ${newText}.`}`,
    at: ends.at,
    related: [{ at: starts.at, message: 'It starts here' }],
    about: 'season',
    fixes:
      newText === undefined
        ? []
        : [{ title: `Let the season end on ${newText}`, edits: [{ at: ends.at, newText }] }],
  };
}

function* missingSections({ plan }: ComputedSeason): Iterable<Problem> {
  const missing = [
    plan.season ? [] : ['season'],
    plan.packing || plan.demand.size === 0 ? [] : ['packing'],
    plan.demand.size > 0 || !plan.packing ? [] : ['demand'],
    plan.fills.size > 0 || plan.lots.size === 0 || plan.rooms.size === 0 ? [] : ['fills'],
  ].flat();
  const file = [...plan.files.values()][0];
  if (missing.length === 0 || !file || plan.files.size === 0) return;
  const unread = plan.problems.some(({ code }) => code === 'not-text' || code === 'file-too-large');
  yield {
    code: 'section-missing',
    message: `The plan has no ${listed(missing.map((name) => `\`${name}\``))} yet: windows and the release schedule wait for ${missing.length === 1 ? 'it' : 'them'}. ${unread ? 'Look first at the file that could not be read.' : 'Everything else is computed.'}`,
    at: {
      file: file.path,
      start: 0,
      end: Math.min(file.text.length, file.lineStarts[1] ?? file.text.length),
    },
    about: missing.join(','),
  };
}

export const planRules: readonly Rule[] = [
  {
    code: 'unknown-reference',
    family: 'plan',
    severity: 'error',
    summary: 'A name that nothing in the plan or the built-in data has.',
    find: unknownReferences,
  },
  {
    code: 'unused-entry',
    family: 'plan',
    severity: 'notice',
    summary: 'Something is defined and never used.',
    find: unusedEntries,
  },
  {
    code: 'lot-not-placed',
    family: 'plan',
    severity: 'notice',
    summary: 'Bins of a lot go to no room.',
    find: lotsNotPlaced,
    inEntry: { lots: lotNotPlaced },
  },
  {
    code: 'lot-placed-beyond-its-bins',
    family: 'plan',
    severity: 'error',
    summary: 'Fills take more bins of a lot than it has.',
    ...ofEntries({ lots: lotPlacedTwice }),
  },
  {
    code: 'dates-out-of-order',
    family: 'plan',
    severity: 'error',
    summary: 'Dates that cannot follow one another.',
    ...ofEntries({ fills: fillOutOfOrder, lots: lotOutOfOrder }),
    findBeside: seasonOutOfOrder,
  },
  {
    code: 'season-too-long',
    family: 'plan',
    severity: 'error',
    summary: 'A season longer than can be planned.',
    find: seasonTooLong,
  },
  {
    code: 'outside-season',
    family: 'plan',
    severity: 'warning',
    summary: 'A date outside the season.',
    ...ofEntries({ fills: fillOutsideSeason, lots: lotOutsideSeason }),
    findBeside: ordersOutsideSeason,
  },
  {
    code: 'key-without-effect',
    family: 'plan',
    severity: 'notice',
    summary: 'A key that says something about another kind of scrubber.',
    find: keysWithoutEffect,
  },
  ...receiptRules,
  {
    code: 'section-missing',
    family: 'plan',
    severity: 'notice',
    summary: 'A section that later results need is not there yet.',
    find: missingSections,
  },
  // These two are found where rules are chosen and findings allowed, not by a search of their own; they can be
  // silenced like any other.
  {
    code: 'unknown-rule',
    family: 'plan',
    severity: 'warning',
    summary: 'The policy names a rule that does not exist.',
    find: () => [],
  },
  {
    code: 'allowance-unused',
    family: 'plan',
    severity: 'notice',
    summary: 'A comment allows a finding that is not there.',
    find: () => [],
  },
];
