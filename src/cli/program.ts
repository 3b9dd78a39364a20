import { Command, CommanderError } from 'commander';
import { nearest } from '../plan/nearest';
import { addCaRecord } from './ca-record';
import { addCheck } from './check';
import { addCompare } from './compare';
import { addExpect } from './expect';
import { addExplain } from './explain';
import { addFill } from './fill';
import { addGas } from './gas';
import { CannotRun, type Io } from './io';
import { addLearn } from './learn';
import { addOutline } from './outline';
import { addPapers } from './papers/command';
import { addReadings } from './readings';
import { addRelease } from './release';
import { addRooms } from './rooms';
import { EXIT, type Run } from './run';
import { addSampling } from './sampling';
import { addSchema } from './schema';
import { addStatus } from './status';
import { addTakeIn } from './take-in';
import { addWhatIf } from './whatif';
import { addWindows } from './windows';

const HELP = `
A plan is a folder: every file in it or below it that ends in .lotplan.yaml is part of it. Without
a folder, the current one is taken. Nothing is written unless you ask with
--write or --out, and nothing is fetched.

Start with:
  lotwright check plans/2026                what is wrong or risky, with its line
  lotwright rooms plans/2026                what each room holds
  lotwright windows plans/2026              when each room may be opened
  lotwright fill plans/2026                 which lots to put into which room
  lotwright release plans/2026              which room opens in which week
  lotwright papers plans/2026               the schedule for packhouse, sales, crew, lab, growers
  lotwright take-in weighbridge in.csv      receipts, maturity tests, demand from a file
  lotwright status plans/2026               where the season stands, and the next two weeks' work
  lotwright readings plans/2026             what was read in the rooms, beside what is expected
  lotwright sampling plans/2026             which lots to test in which week
  lotwright learn plans/2026                what records teach of rooms, lots and estimates
  lotwright ca-record plans/2026            what a "CA" claim rests on, and what its record lacks
  lotwright expect plans/2026               which of the plan's promises are kept
  lotwright whatif --all plans/2026         what scenarios and stress tests would do
  lotwright compare main:plans/2026         what a change does to rooms, weeks and cartons
  lotwright explain R01.latest plans/2026   how a number came about

Exit codes:
  0   no finding at or above the failing severity (--fail-on, by default error)
  1   the plan has such findings; the caution before opening rooms, a notice, is none of them
  2   the plan could not be read, or the command was not understood

Colour is left out when NO_COLOR is set or the output is not a terminal.
Every command's own help explains its columns: lotwright rooms --help
`;

const COMMANDS = [
  addCheck,
  addRooms,
  addGas,
  addWindows,
  addFill,
  addRelease,
  addPapers,
  addTakeIn,
  addStatus,
  addReadings,
  addCaRecord,
  addLearn,
  addSampling,
  addOutline,
  addExpect,
  addWhatIf,
  addCompare,
  addExplain,
  addSchema,
];

/** Runs the command line and returns its exit code. `words` are the arguments after the program's name. */
export async function runProgram(words: readonly string[], io: Io): Promise<number> {
  const run: Run = { io, exitCode: EXIT.clean };
  try {
    const program = programFor(run);
    mustHelpWith(program, words);
    await program.parseAsync([...words], { from: 'user' });
    return run.exitCode;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.clean : EXIT.cannotRun;
    if (!(error instanceof CannotRun)) throw error;
    io.err.write(`lotwright: ${error.message}\n`);
    return EXIT.cannotRun;
  }
}

/** Help that is asked for a command that there is not would be the general help, and nobody would be told why. */
function mustHelpWith(program: Command, [first, asked]: readonly string[]): void {
  if (first !== 'help' || asked === undefined || asked.startsWith('-')) return;
  const names = ['help', ...program.commands.map((command) => command.name())];
  if (names.includes(asked)) return;
  const near = nearest(asked, names);
  const hint = near === undefined ? `There are: ${names.slice(1).join(', ')}.` : `Nearest: ${near}.`;
  throw new CannotRun(`There is no command "${asked}". ${hint}`);
}

function programFor(run: Run): Command {
  const { io } = run;
  const program = new Command('lotwright')
    .description(
      'Plans an apple season from harvest to market: rooms, gas, cooling, keeping, and the week each room opens.',
    )
    .version(io.version, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .addHelpText('after', HELP)
    .showSuggestionAfterError()
    .configureHelp({ helpWidth: 100 })
    .configureOutput({
      writeOut: (text) => io.out.write(text),
      writeErr: (text) => io.err.write(text),
      outputError: (text, write) => write(withoutFarFetched(text)),
      getOutHelpWidth: () => 100,
      getErrHelpWidth: () => 100,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
    .exitOverride();
  for (const add of COMMANDS) add(program, run);
  return program;
}

/** An error about an option without the suggestion of one that is spelled quite differently. */
export function withoutFarFetched(error: string): string {
  const typed = /unknown option '--?([^'=]+)/.exec(error)?.[1];
  if (typed === undefined) return error;
  return error.replace(/\n\(Did you mean (?:one of )?([^?]+)\?\)/, (_, suggested: string) => {
    const options = suggested.split(', ').map((option) => option.replace(/^--/, ''));
    const meant = nearest(typed, options);
    return meant === undefined ? '' : `\n(Did you mean --${meant}?)`;
  });
}
