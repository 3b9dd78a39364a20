import { type Command, Option } from 'commander';
import type { Day } from '../../plan/dates';
import { nearest } from '../../plan/nearest';
import { FORMS, type Form, type PaperFile } from '../../report/papers/forms';
import { growersOf } from '../../report/papers/growers';
import { packedSeason } from '../../report/papers/packed-season';
import { type Paper, READERS, type Reader } from '../../report/papers/paper';
import { filesOf } from '../../report/papers/paper-files';
import { papersFor } from '../../report/papers/papers';
import { seasonAccount } from '../../report/papers/season-account';
import { PAGE_WIDTH, wrap } from '../../report/table';
import { caution } from '../../room/caution';
import { CannotRun } from '../io';
import { day, type PlanOptions, type TodayOption, withFolder, withPlanOptions, withToday } from '../options';
import { openPlan } from '../plan-files';
import { publishedWeeks } from '../published-schedule';
import { foundWithReadings } from '../readings-files';
import { endWithFindings, type Run } from '../run';
import { wholeSeason } from '../season';
import { inWeeks } from './in-weeks';
import { paperText, writePapers } from './write';

const HELP = `
Readers (--for)
  packhouse    what arrives, when, how many bins
  sales        cartons by week, market, variety and class; short weeks
  cold-store   what to seal, purge, scrub, sample, ventilate and open
  lab          what to sample when, and as in which publication
  growers      a part for each grower, with no lots but theirs; --grower gives one
  everyone     all of it (the default)

Forms (--as)
  markdown     tables as text (the default)
  html         to print: the season on one page, then a page a room
  csv          RFC 4180, a file a table; --table gives one
  workbook     .xlsx: a sheet a table, days as dates, numbers as numbers
  calendar     iCalendar, RFC 5545: what is subscribed to changes in place from issue to issue
  json         by its published schema; --format json is the same

Opening weeks are the pins of the plan, then those of a schedule published before (--keep-weeks, a
report by lotwright release --format json), and for rooms with neither those of a quick schedule,
the same for the same plan and --seed. Each paper says which it has. What is packed of a room in
each week is what release reports for the same opening weeks. Put the weeks you stand by into the
plan first: lotwright release --write. The same plan and options give the same files, byte for byte,
on any day: so they can be committed, and their differences read. The day of issue is told only with
--issued; a calendar has to have one, today where none is given, on what is new or has changed.

Without --out one file goes to the output; several need a folder. A file is written over only where
it is an earlier issue of the same paper, and nothing is written otherwise; --force writes over
anything. Files of an earlier issue that are no longer made stay where they are.

A calendar that is written over is taken as its own last issue; --previous names another, or the
folder that holds it. What has not changed keeps its number and stamp, what has gets the next
number, and what is gone stays in the file as cancelled.

With --today, lists by week begin with that day's week; rooms, calendars and JSON keep all.

${wrap(caution, PAGE_WIDTH).join('\n')}

Examples:
  lotwright papers plans/2026
  lotwright papers plans/2026 --for sales --as csv --out issued/sales
  lotwright papers plans/2026 --for cold-store --as calendar --out issued/cold-store.ics
  lotwright papers plans/2026 --as html --paper letter --out issued/schedule.html
  lotwright papers plans/2026 --for growers --as workbook --issued 2026-11-27 --out issued/growers
`;

interface PapersOptions extends PlanOptions, TodayOption {
  readonly for: Reader;
  readonly as?: Form;
  readonly grower?: string;
  readonly table?: string;
  readonly out?: string;
  readonly paper?: 'a4' | 'letter';
  readonly issued?: Day;
  readonly previous?: string;
  readonly keepWeeks?: string;
  readonly force?: boolean;
}

export function addPapers(program: Command, run: Run): void {
  withToday(withPlanOptions(withFolder(program.command('papers'))))
    .description('the release schedule for people: packhouse, sales, cold store, lab, growers')
    .addOption(new Option('--for <reader>', 'who reads it').choices(READERS).default('everyone'))
    .addOption(new Option('--as <form>', 'the form it takes (default: "markdown")').choices(FORMS))
    .option('--grower <name>', 'one grower, by name')
    .option('--table <table>', 'one table, as CSV')
    .option('--out <path>', 'the file to write, or the folder for several')
    .addOption(
      new Option('--paper <size>', 'of HTML (default: letter in US units, else a4)').choices([
        'a4',
        'letter',
      ]),
    )
    .addOption(new Option('--issued <date>', 'day of issue, as 2026-11-27').argParser(day))
    .option('--keep-weeks <file>', 'open rooms as published: a release report in JSON')
    .option('--previous <path>', 'the last issue of a calendar, or the folder that holds it')
    .option('--force', 'write over whatever stands at --out')
    .addHelpText('after', HELP)
    .action(async (folder: string | undefined, options: PapersOptions) => {
      const { io } = run;
      const { keepWeeks, seed } = options;
      const published = keepWeeks === undefined ? undefined : publishedWeeks(io, keepWeeks, folder);
      const kept = inWeeks(wholeSeason(openPlan(io, folder, options), options), published, seed);
      const season = await packedSeason(kept, io.loadSolver);
      const account = seasonAccount(season, { ...options, published });
      const papers = papersAsked(papersFor(account, readerOf(options)), growersOf(account), options);
      const files = filesAsked(papers, options, {
        size: options.paper ?? (account.units.system === 'us' ? 'letter' : 'a4'),
        stamp: options.issued ?? io.today,
        table: options.table,
      });
      const [only, second] = files;
      const where = { out: options.out, previous: options.previous, force: options.force ?? false };
      if (options.out !== undefined) {
        const written = writePapers(io, files, where);
        io.out.write(written.map((file) => `Written: ${file}\n`).join(''));
      } else if (only && !second) io.out.write(paperText(io, only, where));
      else throw new CannotRun(`This makes ${files.length} files: ${severalHint(papers, files, options)}`);
      endWithFindings(run, foundWithReadings(io, season, options), options);
    });
}

/** A grower's name alone is enough to ask for growers. */
function readerOf({ for: reader, grower }: PapersOptions): Reader {
  return grower !== undefined && reader === 'everyone' ? 'growers' : reader;
}

function formOf({ as, format }: PapersOptions): Form {
  return as ?? (format === 'json' ? 'json' : 'markdown');
}

function papersAsked(
  papers: readonly Paper[],
  growers: readonly string[],
  options: PapersOptions,
): readonly Paper[] {
  const { grower } = options;
  if (readerOf(options) === 'growers' && papers.length === 0) throw new CannotRun('The plan has no lots.');
  if (grower === undefined) return papers;
  const found = papers.filter((paper) => paper.grower === grower.trim());
  if (found.length > 0) return found;
  if (readerOf(options) !== 'growers') throw new CannotRun('--grower goes with --for growers.');
  const near = nearest(grower, growers);
  const named = growers.filter((name) => name !== '');
  throw new CannotRun(
    `No lot of the plan is of the grower ${grower}.${near === undefined ? '' : ` Nearest: ${near}.`} There are: ${named.join(', ') || 'none'}.`,
  );
}

function filesAsked(
  papers: readonly Paper[],
  options: PapersOptions,
  shape: Parameters<typeof filesOf>[2],
): PaperFile[] {
  const form = formOf(options);
  if (shape.table !== undefined && form !== 'csv') throw new CannotRun('--table goes with --as csv.');
  if (options.previous !== undefined && form !== 'calendar')
    throw new CannotRun('--previous goes with --as calendar.');
  const files = filesOf(papers, form, shape);
  if (files.length > 0) return files;
  throw new CannotRun(`There is no table ${shape.table}. There are: ${tablesOf(papers).join(', ')}.`);
}

function severalHint(papers: readonly Paper[], files: readonly PaperFile[], options: PapersOptions): string {
  const perGrower = papers.length > 1 ? ', or one grower with --grower' : '';
  const perTable =
    files.length > papers.length ? `, or one table with --table: ${tablesOf(papers).join(', ')}` : '';
  return `give a folder with --out, as --out issued/${options.for}${perGrower}${perTable}.`;
}

function tablesOf(papers: readonly Paper[]): string[] {
  return [...new Set(papers.flatMap(({ tables }) => tables.map(({ key }) => key)))];
}
