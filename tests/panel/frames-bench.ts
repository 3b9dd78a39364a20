import { computeSeason } from '../../src/findings/compute';
import { type PlanFile, readPlan } from '../../src/plan/read';
import { whatIfOpened, whyItsWeek } from '../../src/report/other-week';
import type { TimelineView } from '../../src/report/timeline-types';
import { FULL_SEASON, generateSeason } from '../generate/season';
import { sampleFiles } from '../samples/sample';
import { bundlePanel, launch, type Page } from './browser';
import { OpenPanel } from './open-panel';
import { sampleView, withRows } from './views';

// `npm run bench:frames`: what the timeline's page costs at 500 rooms by 60 weeks. No test, nothing passes or fails.

const WEEKS = 60;
const ROOMS = 500;
const FRAMES = 120;

/** The full-size sample over and over, on more weeks than it has. */
function largeView(): TimelineView {
  const view = withRows(sampleView('full-season'), ROOMS);
  const weeks = Array.from({ length: WEEKS }, (_, at) => view.weeks[at] ?? `2027-W${at}`);
  return { ...view, weeks };
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args: { readonly name?: string };
}

/** Milliseconds of processor time that the page's main thread takes for a task, whatever else the machine does. */
async function tasksOf(browser: Page, page: Page, work: () => Promise<unknown>): Promise<number[]> {
  await browser.startTracing(page, { categories: ['disabled-by-default-devtools.timeline', 'toplevel'] });
  await work();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as {
    traceEvents: TraceEvent[];
  };
  const thread = ({ pid, tid }: TraceEvent) => `${pid}/${tid}`;
  const main = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain')
      .map(thread),
  );
  return traceEvents
    .filter((event) => event.ph === 'X' && /RunTask$/.test(event.name) && main.has(thread(event)))
    .map(({ tdur = 0 }) => tdur / 1000)
    .sort((a, b) => a - b);
}

async function report(browser: Page, page: Page, what: string, work: () => Promise<unknown>): Promise<void> {
  const tasks = await tasksOf(browser, page, work);
  const total = tasks.reduce((sum, one) => sum + one, 0);
  const longest = tasks.at(-1)?.toFixed(1);
  console.log(`${what}: ${(total / FRAMES).toFixed(1)} ms a frame, longest task ${longest} ms`);
}

/** One step a frame, `FRAMES` of them. */
const scroll = (page: Page, key: 'scrollTop' | 'scrollLeft', by: number) =>
  page.evaluate(`new Promise((done) => {
    const chart = document.querySelector('.chart');
    let frame = 0;
    (function step() {
      chart.${key} += ${by};
      frame += 1;
      if (frame < ${FRAMES}) requestAnimationFrame(step);
      else done();
    })();
  })`);

async function pageFrames(): Promise<void> {
  const browser = await launch();
  const view = largeView();
  const panel = await OpenPanel.open(browser, await bundlePanel(), { width: 1400, height: 1100 });
  await panel.show(view);
  const { page } = panel;
  await report(browser, page, 'scrolling down', () => scroll(page, 'scrollTop', 60));
  await page.locator('.row').first().focus();
  for (let step = 0; step < 4; step += 1) await page.keyboard.press('Control+=');
  await report(browser, page, 'scrolling across', () => scroll(page, 'scrollLeft', 15));
  await page.keyboard.press('0');
  const movable = view.rows.findIndex(({ opens }) => opens && !opens.pinned);
  const mark = await page.locator('.row').nth(movable).locator('.diamond').boundingBox();
  await report(browser, page, 'dragging an opening', async () => {
    await page.mouse.move(mark.x + 5, mark.y + 5);
    await page.mouse.down();
    for (let step = 0; step < FRAMES; step += 1) await page.mouse.move(mark.x + 5 + 4 * step, mark.y + 5);
    await page.mouse.up();
  });
  await browser.close();
}

/** What is told while an opening is held: computed by the server for each week it is held over. */
function dragAnswers(files: readonly PlanFile[]): void {
  const season = computeSeason(readPlan(files));
  const { problem, result } = season.release ?? {};
  const took = (work: () => unknown): number => {
    const began = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(began);
    return (user + system) / 1000;
  };
  // The page asks why a room opens when it does as soon as an opening is pointed at: then the season is sold as is best.
  const pointedAt = took(() => whyItsWeek(season, problem?.rooms[0]?.fill ?? ''));
  const times: number[] = [];
  problem?.rooms.slice(0, 20).forEach(({ fill }, room) => {
    const opens = result?.schedule.opens[room];
    if (opens === null || opens === undefined) return;
    times.push(took(() => whatIfOpened(season, fill, problem.firstWeek + opens + 1)));
  });
  times.sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(share * (times.length - 1))]?.toFixed(1);
  console.log(
    `what another week would do, ${problem?.rooms.length} rooms: pointed at ${pointedAt.toFixed(1)} ms, then median ${at(0.5)} ms, most ${at(1)} ms`,
  );
}

async function main(): Promise<void> {
  dragAnswers(sampleFiles('full-season'));
  dragAnswers(generateSeason({ rooms: ROOMS, seed: FULL_SEASON.seed }));
  await pageFrames();
}

void main();
