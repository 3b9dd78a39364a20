import type { GoalRun, ProofRun, SameFileRun } from './bench-proof';
import type { SeasonRun, SolveRun } from './bench-season';
import type { StartRun } from './bench-start';

/** Seconds of processor time and megabytes of a whole process. */
export interface CheckRun {
  readonly user: number;
  readonly system: number;
  readonly peakMemory: number;
}

export interface Bench {
  readonly node: string;
  /** Runs of each, of which the least is given. */
  readonly times: number;
  readonly seasons: readonly SeasonRun[];
  /** Absent where the command line has not been built. */
  readonly check: CheckRun | undefined;
  readonly start: StartRun | undefined;
  readonly solve: SolveRun;
}

/** Rows of the table of seasons: what, and how its value is shown. */
const ROWS: readonly (readonly [label: string, text: (run: SeasonRun) => string])[] = [
  ['files', (run) => String(run.files)],
  ['lines', (run) => String(run.lines)],
  ['text, kB', (run) => run.kilobytes.toFixed(0)],
  ['read, nothing warm, ms', (run) => run.read.toFixed(0)],
  ['read again after a keystroke, ms', (run) => run.keystroke.toFixed(2)],
  ['  keystroke as a share of the first reading', (run) => `1/${(run.read / run.keystroke).toFixed(0)}`],
  ['rooms, plant and keeping, first time, ms', (run) => run.compute.toFixed(0)],
  ['rooms, plant and keeping again, ms', (run) => run.computeAgain.toFixed(0)],
  ['quick release schedule, ms', (run) => run.quick.toFixed(0)],
  ['courses of all rooms over the year, ms', (run) => run.courses.toFixed(0)],
  ['heap kept for each recomputation, MB', (run) => run.keptEachTime.toFixed(2)],
  ['findings, ms', (run) => run.findings.toFixed(0)],
  ['all of it, first time, ms', (run) => totalOf(run).toFixed(0)],
  ['peak memory, MB', (run) => run.peakMemory.toFixed(0)],
];

const GROWTH: readonly (readonly [label: string, value: (run: SeasonRun) => number])[] = [
  ['rooms', (run) => run.rooms],
  ['read, nothing warm', (run) => run.read],
  ['read again after a keystroke', (run) => run.keystroke],
  ['rooms, plant and keeping again', (run) => run.computeAgain],
  ['quick release schedule', (run) => run.quick],
  ['courses', (run) => run.courses],
  ['findings', (run) => run.findings],
  ['all of it, first time', totalOf],
  ['peak memory', (run) => run.peakMemory],
];

export function benchText(bench: Bench): string {
  const { seasons, solve, check, start } = bench;
  const [smallest] = seasons;
  const head = ['Generated seasons', ...seasons.map(({ rooms }) => `${rooms} rooms`)];
  const blocks = [
    `Processor time, least of ${bench.times} in fresh processes, Node ${bench.node}`,
    tableText([head, ...ROWS.map(([label, text]) => [label, ...seasons.map(text)])]),
  ];
  if (smallest && seasons.length > 1) {
    const times = (value: (run: SeasonRun) => number) =>
      seasons.map((run) => `x ${(value(run) / value(smallest)).toFixed(1)}`);
    const growth = GROWTH.map(([label, value]) => [label, ...times(value)]);
    blocks.push(tableText([[`Growth from ${smallest.rooms} rooms`, ...head.slice(1)], ...growth]));
  }
  blocks.push(
    tableText([
      ['lotwright check sample-plans/full-season, whole process', ''],
      ...(check ? checkRows(check) : [['not built: run `npm run build` first', '']]),
    ]),
    tableText([
      ['Starting, over an empty Node program', ''],
      ...(start ? startRows(start) : [['not built: run `npm run build` first', '']]),
    ]),
    tableText([
      [`Release weeks with proof, ${solve.rooms} rooms`, ''],
      ['by the clock, s', solve.seconds.toFixed(1)],
      ['processor time, s', solve.processorSeconds.toFixed(1)],
      ['within this of the bound, %', solve.gap.toFixed(2)],
      ['  the quick schedule, of its own bound, %', solve.quickGap.toFixed(2)],
      ['peak memory, MB', solve.peakMemory.toFixed(0)],
    ]),
  );
  return blocks.join('\n\n');
}

/** The long part: seasons proven, and drags. */
export interface Proofs {
  readonly node: string;
  readonly seeds: number;
  readonly proofs: readonly ProofRun[];
  readonly sameFile: SameFileRun;
}

export function proofText({ node, seeds, proofs, sameFile }: Proofs): string {
  const head = ['rooms', 'in, s', 'wanted, %', 'gap, %', 'worst, %', 'proven', 'processor, s', 'clock, s'];
  const drags = ['rooms', 'first plan, ms', 'drag valued, ms', 'schedule around it, ms'];
  return [
    `Made-up seasons, medians over ${seeds} seeds with supply short and long, Node ${node}`,
    tableText([head, ...proofs.flatMap(({ rooms, goals }) => goals.map((goal) => goalRow(rooms, goal)))]),
    tableText([
      drags,
      ...proofs.map((run) => [
        String(run.rooms),
        run.firstPlan.toFixed(0),
        run.drag.toFixed(3),
        run.around.toFixed(0),
      ]),
    ]),
    tableText([['The identical model of 12 rooms, to a gap of 0.01 %', ''], ...sameFileRows(sameFile)]),
  ].join('\n\n');
}

function goalRow(rooms: number, goal: GoalRun): string[] {
  return [
    String(rooms),
    String(goal.seconds),
    goal.wanted === 0 ? 'optimal' : String(goal.wanted),
    goal.gap.toFixed(2),
    goal.worstGap.toFixed(2),
    `${(100 * goal.proven).toFixed(0)} %`,
    goal.processor.toFixed(1),
    goal.clock.toFixed(1),
  ];
}

function sameFileRows({ solver, cbc }: SameFileRun): string[][] {
  const rows = [
    ['this solver, s', solver ? solver.seconds.toFixed(1) : 'nothing found'],
    ['CBC, s', cbc ? cbc.seconds.toFixed(1) : 'not on this machine'],
  ];
  if (!solver || !cbc) return rows;
  const apart = Math.abs(solver.value - cbc.value) / Math.abs(cbc.value);
  return [
    ...rows,
    ['  this solver takes', `x ${(solver.seconds / cbc.seconds).toFixed(2)}`],
    ['  values apart, %', (100 * apart).toFixed(4)],
  ];
}

function startRows({ coreKilobytes, answered, loaded, firstFindings, extension }: StartRun): string[][] {
  return [
    ["what answers a client's first request, kB", coreKilobytes.toFixed(1)],
    ['  until it has answered, ms', answered.toFixed(0)],
    ['all parts of the server loaded, ms', loaded.toFixed(0)],
    ['full-season: from start to findings, by the clock, ms', firstFindings.toFixed(0)],
    ['the extension loaded, ms', extension.toFixed(0)],
  ];
}

function checkRows(check: CheckRun): string[][] {
  return [
    ['user, s', check.user.toFixed(2)],
    ['system, s', check.system.toFixed(2)],
    ['user and system, s', (check.user + check.system).toFixed(2)],
    ['peak memory, MB', check.peakMemory.toFixed(0)],
  ];
}

function totalOf({ read, compute, quick, courses, findings }: SeasonRun): number {
  return read + compute + quick + courses + findings;
}

/** Columns lined up, the first to the left and the others to the right. */
function tableText(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const lineOf = (row: readonly string[]) =>
    row
      .map((cell, column) =>
        column === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd();
  const [head = [], ...others] = rows;
  const rule = '-'.repeat(widths.reduce((sum, width) => sum + width + 2, -2));
  return [lineOf(head), rule, ...others.map(lineOf)].join('\n');
}
