import type { Highs } from 'highs';
import {
  CodeLensRefreshRequest,
  type Connection,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
  TextDocuments,
} from 'vscode-languageserver';
import type { SeverityChoice } from '../findings/find';
import type { Day } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { OtherPlan } from '../report/timeline-other';
import { initializeResult } from './capabilities';
import { abilitiesOf, type ClientAbilities } from './client-abilities';
import { clientFiles } from './client-files';
import { answerRefused } from './conversation';
import { editedDocuments } from './edited-document';
import { addFeatures } from './features';
import { type FileSource, NO_FILES } from './file-source';
import type { KeptAround } from './kept-around';
import type { KeptDraws } from './kept-draws';
import { KeptLessons } from './kept-lessons';
import { addressOf, KeptReadings } from './kept-readings';
import { KeptSettings } from './kept-settings';
import { isDiagnosticOf, toDiagnostic } from './lsp';
import { OpeningAhead } from './opening-ahead';
import { openingFiles } from './opening-files';
import { planComputed } from './plan-computed';
import { isPlanFile } from './plan-roots';
import type { Delays, PlanSession, Snapshot } from './plan-session';
import { type OpenPlan, PlanSessions } from './plan-sessions';
import { type InitializationOptions, notifications } from './protocol';
import type { Ahead } from './protocol-ahead';
import { bytesOf, solverProgramRequest } from './protocol-papers';
import { type InWords, Publisher } from './publisher';
import type { ServerHost } from './server-host';
import type { ServerState } from './server-state';
import { findingsByFile } from './services/diagnostics';
import type { KeptFills } from './services/fills';
import { watchFiles } from './watched-files';
import { Workspace } from './workspace';

const DELAYS: Delays = { idle: 400 };
/** Milliseconds after the first findings. */
const NOTHING_PRESSES = 2000;

/** Sets up the language server on a connection of any kind, made with `conversation()`. The caller then calls `connection.listen()`. */
export function startServer(connection: Connection, host: ServerHost): void {
  const server = new Server(connection, host);
  server.start();
}

class Server implements ServerState {
  plans: PlanSessions;
  readonly proposedFills = new Map<string, KeptFills>();
  readonly around = new Map<string, KeptAround>();
  readonly draws = new Map<string, KeptDraws>();
  readonly compared = new Map<string, OtherPlan>();
  readonly readings = new KeptReadings(() => this.source);
  readonly lessons = new KeptLessons(this.readings);
  private source: FileSource = NO_FILES;
  private clientOptions: InitializationOptions = {};
  private folders: string[] = [];
  private capabilities: InitializeParams['capabilities'] = {};
  private readonly settings = new KeptSettings((wrong) => this.complain(wrong));
  private workspace = new Workspace(NO_FILES);
  private readonly loaded: Promise<void>;
  private setLoaded: () => void = () => {};
  private isLoaded = false;
  /** Nothing is told any more once the client has asked for the end. */
  private isEnded = false;
  private hadTime = false;
  private readonly publisher: Publisher;
  /** The first reading of the workspace's files, where it needs nobody. */
  private opening: Promise<void> | undefined;
  private ahead: OpeningAhead | undefined;
  /** Whether the plans are computed already from what the client says: its settings, folders and open documents. */
  private isAsAhead = false;
  /** By session, the plan whose readings were followed last. */
  private readonly followed = new WeakMap<PlanSession, Plan>();
  private readonly documents = new TextDocuments(editedDocuments);

  constructor(
    private readonly connection: Connection,
    private readonly host: ServerHost,
  ) {
    this.publisher = new Publisher((params) => {
      if (!this.isEnded) void connection.sendDiagnostics(params);
    });
    this.plans = this.sessions();
    this.loaded = new Promise((resolve) => {
      this.setLoaded = resolve;
    });
  }

  ready(): Promise<void> {
    return this.loaded;
  }

  options(): InitializationOptions {
    return this.clientOptions;
  }

  abilities(): ClientAbilities {
    return abilitiesOf(this.capabilities);
  }

  today(): Day | undefined {
    return this.host.today();
  }

  loadSolver(): Promise<Highs> {
    return this.host.loadSolver(async () =>
      bytesOf(await this.connection.sendRequest<string>(solverProgramRequest)),
    );
  }

  run(): string {
    return this.host.run;
  }

  severities(): ReadonlyMap<string, SeverityChoice> {
    return this.settings.severities;
  }

  version(uri: string): number | undefined {
    return this.workspace.version(uri);
  }

  start(): void {
    const { connection } = this;
    if (this.host.ahead) this.lookAhead(this.host.ahead);
    connection.onInitialize((params) => this.initialize(params));
    connection.onInitialized(async () => {
      // Both at once: while a window opens, each answer of the editor takes its time.
      const { settings } = this.clientOptions;
      const [hasOthers] = await Promise.all([
        settings === undefined ? this.readSettings() : this.settings.take(settings),
        this.opening ?? this.readFiles(),
      ]);
      if (hasOthers) this.isAsAhead = false;
      this.begin();
      this.setLoaded();
      this.watch();
    });
    connection.onDidChangeConfiguration(async (params) => {
      if (await this.readSettings(params)) this.plans.editedAll();
    });
    connection.onShutdown(async () => {
      this.isEnded = true;
      this.plans.dispose();
      await this.host.hasTime?.();
    });
    this.followDocuments();
    answerRefused(connection);
    addFeatures(connection, this);
  }

  private initialize(params: InitializeParams): InitializeResult {
    this.clientOptions = (params.initializationOptions ?? {}) as InitializationOptions;
    this.capabilities = params.capabilities;
    this.folders = (params.workspaceFolders ?? []).map(({ uri }) => uri);
    const source = this.clientOptions.clientReadsFiles ? clientFiles(this.connection) : this.host.files;
    this.source = source ?? NO_FILES;
    this.opening = this.ahead ? this.takenOver(this.ahead) : this.openedAnew();
    return initializeResult;
  }

  /** Computes the plans of folders that the client has said before its first request; they are told of after it. */
  private lookAhead(said: Ahead): void {
    this.source = clientFiles(this.connection);
    this.workspace = new Workspace(this.source);
    const plans = this.sessions();
    this.plans = plans;
    this.settings.takeAhead(said.settings);
    this.ahead = OpeningAhead.begun(said, this.host.disk, this.workspace, () => {
      if (this.plans === plans) plans.regroup();
    });
  }

  private async takenOver(ahead: OpeningAhead): Promise<void> {
    this.isAsAhead = true;
    if (await ahead.isReadFor(this.folders, this.clientOptions.onDisk)) return;
    this.isAsAhead = false;
    await (this.openedAnew() ?? this.readFiles());
  }

  private openedAnew(): Promise<void> | undefined {
    this.plans.dispose();
    this.workspace = new Workspace(this.source);
    this.plans = this.sessions();
    return this.openingRead();
  }

  /** What can be read without asking the client for it is read while it is still busy with the answer. */
  private openingRead(): Promise<void> | undefined {
    const files = openingFiles(this.source, this.host.disk, this.clientOptions.onDisk);
    return files && this.guard(() => this.workspace.load(this.folders, files));
  }

  private sessions(): PlanSessions {
    return new PlanSessions(this.workspace, {
      delays: this.host.delays ?? DELAYS,
      severities: () => this.settings.severities,
      later: this.host.later,
      now: this.host.now,
      computed: (plan, snapshot) => this.isLoaded && !this.isEnded && this.publish(plan, snapshot),
      belonging: (uris) => this.publisher.keepOnly(uris),
    });
  }

  private followDocuments(): void {
    const { connection, documents } = this;
    documents.onDidChangeContent(async ({ document }) => {
      const { uri } = document;
      const { isNew, isSame } = this.workspace.edit(uri, document);
      // Findings about half a plan would be wrong: nothing is computed before its files have been read.
      if (!this.isLoaded) {
        this.isAsAhead &&= isSame;
        return;
      }
      if (isSame) return this.plans.retold(uri);
      const isOurs = this.workspace.inFolders(uri);
      if (isNew && !isOurs) await this.load();
      this.plans.edited(uri);
      this.plans.regroup();
      // A folder that comes all at once is told of file by file, and not always of each.
      if (isNew && isOurs) await this.reread([uri]);
    });
    documents.onDidClose(async ({ document: { uri } }) => {
      this.workspace.close(uri);
      await this.reread([uri]);
    });
    documents.listen(connection);
    connection.onDidChangeWatchedFiles(({ changes }) => {
      // What was deleted is read again too: it may have come back by now.
      void this.reread(changes.map(({ uri }) => uri).filter(isPlanFile));
      this.readingsChanged(changes.map(({ uri }) => uri).filter((uri) => !isPlanFile(uri)));
      // A folder that goes is told of by itself, not file by file.
      const gone = changes.filter(({ uri, type }) => type === FileChangeType.Deleted && !isPlanFile(uri));
      if (gone.some(({ uri }) => this.workspace.hasFilesBelow(uri))) void this.load();
    });
    connection.workspace.onDidDeleteFiles(() => void this.load());
    connection.workspace.onDidRenameFiles(() => void this.load());
  }

  /** Reads the workspace's files and computes their plans. */
  private async load(): Promise<void> {
    await this.readFiles();
    this.begin();
  }

  private readFiles(): Promise<void> {
    return this.guard(() => this.workspace.load(this.folders));
  }

  private begin(): void {
    this.isLoaded = true;
    this.plans.regroup();
    if (this.isAsAhead) {
      this.plans.retoldAll();
      this.host.later(NOTHING_PRESSES, () => void this.openedAgain());
    } else this.plans.editedAll();
    this.isAsAhead = false;
  }

  /** What was read ahead may have changed before anybody watched it. */
  private async openedAgain(): Promise<void> {
    if (this.isEnded) return;
    const files = openingFiles(this.source, this.host.disk, this.clientOptions.onDisk);
    await this.guard(async () => {
      if (!(await this.workspace.load(this.folders, files))) return;
      this.plans.regroup();
      this.plans.editedAll();
    });
  }

  private async reread(uris: readonly string[]): Promise<void> {
    await this.guard(() => this.workspace.reread(uris));
    if (!this.isLoaded || this.isEnded) return;
    this.plans.regroup();
    for (const uri of uris) this.plans.edited(uri);
  }

  /** A client that cannot read a file must not end the server. */
  private async guard(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      this.complain(`Plan files could not be read: ${String(error)}`);
    }
  }

  private complain(text: string): void {
    try {
      this.connection.console.error(text);
    } catch {
      // The client has gone while its files were read: there is nobody to tell.
    }
  }

  /** Gives true when they are others than before. A client that cannot be asked may have said them. */
  private async readSettings(said?: unknown): Promise<boolean> {
    return this.abilities().tellsSettings
      ? this.settings.read(this.connection)
      : this.settings.takeSaid(said);
  }

  private watch(): void {
    const { workspace } = this.capabilities;
    if (workspace?.didChangeWatchedFiles?.dynamicRegistration) watchFiles(this.connection);
    if (workspace?.workspaceFolders)
      this.connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => uri));
        this.folders = [...this.folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
        void this.load();
      });
  }

  /** Figures above entries follow from the whole plan: an edit elsewhere changes them too. */
  private refreshFigures(): void {
    if (!this.abilities().refreshesFigures) return;
    // A client that cannot now will ask again by itself.
    this.connection.sendRequest(CodeLensRefreshRequest.type).catch(() => {});
  }

  private readingsChanged(uris: readonly string[]): void {
    for (const uri of uris) this.readings.changed(uri);
    if (uris.length > 0) for (const open of this.plans.all()) void this.followReadings(open);
  }

  /** The readings beside a plan are found when they have been read; nothing waits for them. */
  private async followReadings(open: OpenPlan): Promise<void> {
    const plan = open.session.latestSnapshot()?.plan;
    if (!plan) return;
    try {
      const files = await this.readings.filesOf(open, plan);
      if (this.plans.withRoot(open.root) === open) open.session.read(files);
    } catch (error) {
      this.complain(`Readings could not be read: ${String(error)}`);
    }
  }

  private publish(plan: OpenPlan, snapshot: Snapshot): void {
    const { plan: read, isSettled } = snapshot;
    this.publishFindings(plan, snapshot);
    const computed = planComputed(plan, snapshot, (uri) => this.workspace.version(uri));
    void this.connection.sendNotification(notifications.timelineChanged, computed);
    this.refreshFigures();
    // A plan that settles is the one that was followed when it was edited.
    if (this.followed.get(plan.session) !== read) void this.followReadings(plan);
    this.followed.set(plan.session, read);
    if (isSettled && computed.hasRecords) void this.learn(plan);
    if (this.hadTime) return;
    this.hadTime = true;
    this.host.later(NOTHING_PRESSES, () => void this.host.hasTime?.());
  }

  private publishFindings(plan: OpenPlan, { plan: read, findings }: Snapshot): void {
    const uriOf = (file: string) => plan.uriOf(file) ?? addressOf(file, `${plan.root}/`);
    const inWords: InWords = {
      make: (finding) => toDiagnostic(read, finding, uriOf, this.clientOptions.pagesUri),
      isOf: (diagnostic, finding) => isDiagnosticOf(read, diagnostic, finding, uriOf),
    };
    const madeOf = { files: read.files, addresses: plan.files() };
    for (const [file, found] of findingsByFile(read, findings)) {
      const uri = plan.uriOf(file);
      if (uri === undefined) continue;
      this.publisher.publish(uri, { findings: found, ...madeOf }, inWords, this.workspace.version(uri));
    }
  }

  /** What records teach is learned once the plan is settled, and then shown above the entries it is of. */
  private async learn(plan: OpenPlan): Promise<void> {
    if (this.lessons.atHand(plan)) return;
    const known = await this.lessons.of(plan).catch((error) => {
      this.complain(`Nothing could be learned from the records: ${String(error)}`);
      return undefined;
    });
    if (known && known.learned.lessons.length > 0) this.refreshFigures();
  }
}
