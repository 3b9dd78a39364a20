import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { CardLesson, RoomCard, SeasonCard } from '../src/report/card-types';
import type { TimelineView as TimelineModel } from '../src/report/timeline-types';
import { type AllowParams, clientCommands, notifications, type PlanComputed } from '../src/server/protocol';
import { registerAssistantTools } from './assistant-tools';
import { offerToUndoBrokenWrites, type Undone, undoBrokenWrites } from './broken-writes';
import { CardCommands } from './card-commands';
import { ChangeCommand } from './change-command';
import { ChangeInSourceControl } from './change-in-source-control';
import { clientOptions } from './client-options';
import { CompareCommand } from './compare-command';
import { DrawCommands, type DrawOptions } from './draw-commands';
import { ExpectTests, type RunExpectation } from './expect-tests';
import { ExplainCommand } from './explain-command';
import { ExportCommand, type ExportOptions } from './export-command';
import { FillCommands } from './fill-commands';
import { allowFinding, showFindingPage } from './finding-commands';
import { FirstFindings } from './first-findings';
import type { ExtensionHost } from './host';
import { LearnCommand, type LearnOptions } from './learn-command';
import { copySample, type NewPlanOptions, newPlan } from './new-plan-command';
import { fillOfRow } from './panel-messages';
import { PictureCommand, type PictureOptions } from './picture-command';
import { PinCommands } from './pin-commands';
import { type Against, PlanComparer } from './plan-comparer';
import { servePlanFiles } from './plan-files';
import { PlanStatus } from './plan-status';
import { ReleaseCommand } from './release-command';
import { TakeInCommand, type TakeInOptions } from './take-in-command';
import { TIMELINE_PANEL, TIMELINE_VIEW, TimelineView } from './timeline-view';

/** What other extensions, and the tests, may ask. */
export interface LotwrightApi {
  /** The timeline that the panel's page shows now; undefined while it shows none. */
  shownTimeline(): TimelineModel | undefined;
  /** The card that a page asked for last; undefined while none has. */
  shownCard(): RoomCard | SeasonCard | undefined;
  /** The key of the row in whose text the caret stands; undefined while a page has marked none. */
  caretRow(): string | undefined;
  /** What the language status says of the plan in front. */
  planStatus(): PlanStatus['shown'];
  /** The promises that the test explorer lists, by plan and file. */
  listedPromises(): ReturnType<ExpectTests['listed']>;
  /** Checks them all, as the test explorer does. */
  checkPromises(): Promise<readonly RunExpectation[]>;
  /** Puts plans back as they were before writes that ended half way, without asking. */
  undoBrokenWrites(): Promise<readonly Undone[]>;
  /** What records teach of the room whose card was asked for last. */
  shownLessons(): readonly CardLesson[];
  /** What the source-control view tells of the uncommitted change; undefined while there is nothing to tell. */
  changeInSourceControl(): { readonly heading: string; readonly leadsTo: readonly string[] } | undefined;
  /** Milliseconds from the beginning of activation to the first findings of each plan, by the plan's root. */
  firstFindings(): Readonly<Record<string, number>>;
  /** Milliseconds for which the extension's code was read before that; zero where that is not known. */
  codeRead(): number;
}

/** What the buttons of a timeline without a plan do. */
const WAYS_TO_BEGIN: Readonly<
  Record<Parameters<TimelineView['onBegin']>[0], readonly [string, ...string[]]>
> = {
  sample: ['lotwright.copySample'],
  newPlan: ['lotwright.newPlan'],
  folder: ['vscode.openFolder'],
  walkthrough: ['workbench.action.openWalkthrough', 'lotwright.lotwright#firstPlan'],
};

/** Starts the server and registers everything the extension contributes. The same on the desktop and on the web. */
export async function activateLotwright(
  context: vscode.ExtensionContext,
  host: ExtensionHost,
): Promise<{ readonly api: LotwrightApi; readonly client: BaseLanguageClient }> {
  const began = performance.now();
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  const log = vscode.window.createOutputChannel('Lotwright', { log: true });
  const client = host.createClient(dist, clientOptions(dist, log, host.disk !== undefined), log);
  servePlanFiles(client, dist, host.disk);
  // A client keeps one listener for each kind of notification: several hear it from here.
  const computed = new vscode.EventEmitter<PlanComputed>();
  client.onNotification(notifications.timelineChanged, (plan: PlanComputed) => computed.fire(plan));
  const firstFindings = new FirstFindings(computed.event, began, log);

  const release = new ReleaseCommand(dist, client, host);
  const timeline = new TimelineView(
    dist,
    client,
    computed.event,
    {
      start: () => void release.run(),
      cancel: () => {
        release.cancel();
        draws.cancel();
      },
    },
    log,
  );
  const shownPlan = () => Object.values(timeline.current?.files ?? {})[0];
  const pins = new PinCommands(client, shownPlan);
  timeline.onPin = (fill) => void pins.pinOne(fill);
  timeline.onMove = (fill, week) => void pins.pinTo(fill, week);
  timeline.onPinAround = (fill, week) => void pins.pinAround(fill, week);
  release.onProgress = (message) => timeline.showProgress(message);
  const draws = new DrawCommands(dist, client, host, shownPlan);
  draws.onProgress = (message) => timeline.showProgress(message);
  draws.onDrawn = () => timeline.refresh();
  const picture = new PictureCommand(timeline);
  const exporting = new ExportCommand(client, shownPlan);
  const cards = new CardCommands(client, timeline);
  const compare = new CompareCommand(client, timeline);
  timeline.onCompare = () => void compare.run();
  timeline.onBegin = (way) => {
    const [command, ...args] = WAYS_TO_BEGIN[way];
    void vscode.commands.executeCommand(command, ...args);
  };
  const status = new PlanStatus(client, computed.event);
  const explain = new ExplainCommand(client);
  const fills = new FillCommands(dist, client, host, shownPlan);

  const change = new ChangeCommand(new PlanComparer(dist, client, host, shownPlan));

  const taking = new TakeInCommand(client, shownPlan);
  const learning = new LearnCommand(client, shownPlan);
  timeline.lessons.learning = learning;
  const inSourceControl = new ChangeInSourceControl(
    new PlanComparer(dist, client, host, shownPlan),
    computed.event,
    log,
  );
  const promises = new ExpectTests(client, computed.event);

  const command = vscode.commands.registerCommand;
  context.subscriptions.push(
    log,
    computed,
    firstFindings,
    timeline,
    explain,
    fills,
    draws,
    change,
    inSourceControl,
    status,
    promises,
    taking,
    learning,
    ...registerAssistantTools(context, client, host, shownPlan),
    vscode.window.registerWebviewViewProvider(TIMELINE_VIEW, timeline),
    vscode.window.registerWebviewPanelSerializer(TIMELINE_PANEL, {
      deserializeWebviewPanel: async (panel) => timeline.adopt(panel),
    }),
    command('lotwright.openWideTimeline', () => timeline.openWide()),
    command('lotwright.savePicture', (options?: PictureOptions) => picture.run(options)),
    command('lotwright.exportSchedule', (options?: ExportOptions) => exporting.run(options)),
    command(clientCommands.showRoomCard, (row?: unknown) => cards.room(row)),
    command('lotwright.showSeasonCard', () => cards.season()),
    command('lotwright.compareWith', (against?: 'saved' | 'committed' | 'nothing') => compare.run(against)),
    command('lotwright.tellChange', (against?: Against) => change.run(against)),
    command('lotwright.openTimeline', () => vscode.commands.executeCommand(`${TIMELINE_VIEW}.focus`)),
    command('lotwright.findReleaseWeeks', () => release.run()),
    command('lotwright.drawSeasons', (options?: DrawOptions) => draws.draw(options)),
    command('lotwright.seekAcrossSeasons', (options?: DrawOptions) => draws.seek(options)),
    command('lotwright.pinReleaseWeeks', (options?: { readonly confirm?: boolean }) => pins.pinAll(options)),
    // From the menu of a row of the timeline comes what the page says of that row.
    command('lotwright.pinRoomWeek', (row?: unknown) => pins.pinOne(fillOfRow(row))),
    command('lotwright.proposeFills', () => fills.propose()),
    command(clientCommands.acceptFill, (room?: unknown) =>
      fills.acceptRoom(typeof room === 'string' ? room : undefined),
    ),
    command('lotwright.acceptAllFills', () => fills.acceptAll()),
    command(clientCommands.explainAt, (place?: unknown) => explain.run(place)),
    command('lotwright.newPlan', (options?: NewPlanOptions) => newPlan(client, options)),
    command('lotwright.copySample', (into?: string) => copySample(dist, into)),
    command('lotwright.takeIn', (options?: TakeInOptions) => taking.run(options)),
    command(clientCommands.takeLessons, (options?: LearnOptions) => learning.run(options)),
    command('lotwright.showLog', () => log.show()),
    command(clientCommands.showFindingPage, (code: unknown) => showFindingPage(dist, code)),
    command(clientCommands.allowFinding, (finding: Omit<AllowParams, 'reason'>) =>
      allowFinding(client, finding),
    ),
  );
  await client.start();
  log.info(`Lotwright ${String(context.extension.packageJSON.version)} is running`);
  void offerToUndoBrokenWrites(log);
  const api: LotwrightApi = {
    shownTimeline: () => timeline.current?.view,
    shownCard: () => timeline.currentCard,
    caretRow: () => timeline.caretRow,
    planStatus: () => status.shown,
    listedPromises: () => promises.listed(),
    checkPromises: () => promises.runAll(),
    undoBrokenWrites,
    shownLessons: () => timeline.lessons.current,
    firstFindings: () => firstFindings.found,
    codeRead: () => began - (host.beganAt ?? began),
    changeInSourceControl: () => {
      const { heading, leadsTo } = inSourceControl;
      return heading === undefined ? undefined : { heading, leadsTo };
    },
  };
  return { api, client };
}
