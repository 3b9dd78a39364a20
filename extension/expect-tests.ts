import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PlanComputed } from '../src/server/protocol';
import {
  type ExpectationsAnswer,
  type ExpectationsParams,
  expectationsRequest,
  type ToldExpectation,
} from '../src/server/protocol-expect';

/** What came of a promise that was run last; for other extensions and tests. */
export interface RunExpectation {
  readonly id: string;
  readonly state: 'kept' | 'broken' | 'not judged';
  readonly message: string;
}

/**
 * The promises of each plan in the editor's test explorer: a branch a plan, one a file, a leaf a promise. They are listed
 * as the text has them and run on the season that the server has computed.
 */
export class ExpectTests implements vscode.Disposable {
  /** What came of the promises that were run last. */
  lastRun: readonly RunExpectation[] = [];
  private readonly controller = vscode.tests.createTestController(
    'lotwright.expectations',
    vscode.l10n.t('Promises of the plan'),
  );
  private readonly disposables: vscode.Disposable[];

  constructor(
    private readonly client: BaseLanguageClient,
    computed: vscode.Event<PlanComputed>,
  ) {
    this.controller.createRunProfile(
      vscode.l10n.t('Check Promises'),
      vscode.TestRunProfileKind.Run,
      (request, token) => this.run(request, token),
      true,
    );
    this.disposables = [this.controller, computed(({ root }) => void this.list(root))];
  }

  dispose(): void {
    for (const disposable of this.disposables) disposable.dispose();
  }

  /** Runs every promise that is listed, as the explorer's button does. */
  async runAll(): Promise<readonly RunExpectation[]> {
    const source = new vscode.CancellationTokenSource();
    await this.run(new vscode.TestRunRequest(), source.token);
    return this.lastRun;
  }

  /** The promises that are listed, by plan and file. */
  listed(): { readonly plan: string; readonly file: string; readonly ids: readonly string[] }[] {
    return [...this.controller.items].flatMap(([, plan]) =>
      [...plan.children].map(([, file]) => ({
        plan: plan.label,
        file: file.label,
        ids: [...file.children].map(([, item]) => item.label),
      })),
    );
  }

  private ask(root: string, judge: boolean): Promise<ExpectationsAnswer | null> {
    const params: ExpectationsParams = { root, judge };
    return this.client.sendRequest<ExpectationsAnswer | null>(expectationsRequest, params);
  }

  /** Lists a plan's promises anew; a plan that promises nothing has no branch. */
  private async list(root: string): Promise<void> {
    const told = await this.ask(root, false).catch(() => null);
    if (told) this.show(told);
  }

  private show({ root, name, expectations }: ExpectationsAnswer): void {
    if (expectations.length === 0) {
      this.controller.items.delete(root);
      return;
    }
    const plan = this.controller.items.get(root) ?? this.controller.createTestItem(root, name);
    plan.label = name;
    const files = [...new Set(expectations.map(({ uri }) => uri))];
    plan.children.replace(
      files.map((uri) =>
        this.fileItem(
          root,
          uri,
          expectations.filter((one) => one.uri === uri),
        ),
      ),
    );
    this.controller.items.add(plan);
  }

  private fileItem(root: string, uri: string, expectations: readonly ToldExpectation[]): vscode.TestItem {
    const address = vscode.Uri.parse(uri);
    const label = uri.startsWith(`${root}/`) ? decodeURIComponent(uri.slice(root.length + 1)) : address.path;
    const file = this.controller.createTestItem(uri, label, address);
    file.children.replace(
      expectations.map(({ id, claim, start, end }) => {
        const item = this.controller.createTestItem(`${uri}#${id}`, id, address);
        item.description = claim;
        item.range = new vscode.Range(start.line, start.character, end.line, end.character);
        return item;
      }),
    );
    return file;
  }

  private async run(request: vscode.TestRunRequest, token: vscode.CancellationToken): Promise<void> {
    const run = this.controller.createTestRun(request);
    const excluded = new Set((request.exclude ?? []).flatMap((item) => leaves(item)));
    const included = request.include ?? [...this.controller.items].map(([, item]) => item);
    const wanted = included.flatMap((item) => leaves(item)).filter((item) => !excluded.has(item));
    for (const item of wanted) run.enqueued(item);
    const ran: RunExpectation[] = [];
    for (const [root, items] of byPlan(wanted)) {
      if (token.isCancellationRequested) break;
      for (const item of items) run.started(item);
      const told = await this.ask(root, true).catch(() => null);
      for (const item of items) {
        const one = told?.expectations.find(({ uri, id }) => item.id === `${uri}#${id}`);
        if (one) ran.push(tell(run, item, one));
        else run.skipped(item);
      }
      if (!told) run.appendOutput(`${vscode.l10n.t('No plan could be computed.')} ${root}\r\n`);
    }
    this.lastRun = ran;
    run.end();
  }
}

function leaves(item: vscode.TestItem): vscode.TestItem[] {
  if (item.children.size === 0) return [item];
  return [...item.children].flatMap(([, child]) => leaves(child));
}

function byPlan(items: readonly vscode.TestItem[]): Map<string, vscode.TestItem[]> {
  const plans = new Map<string, vscode.TestItem[]>();
  for (const item of items) {
    const root = item.parent?.parent?.id ?? '';
    plans.set(root, [...(plans.get(root) ?? []), item]);
  }
  return plans;
}

/** Shows what came of a promise, at the line where it stands. */
function tell(run: vscode.TestRun, item: vscode.TestItem, one: ToldExpectation): RunExpectation {
  const { verdict, id } = one;
  if (!verdict) return { id, state: 'not judged', message: '' };
  const { state, message, promised, measured, at } = verdict;
  const told = new vscode.TestMessage(message);
  if (promised !== undefined && measured !== undefined)
    Object.assign(told, { expectedOutput: promised, actualOutput: measured });
  if (item.uri) told.location = new vscode.Location(item.uri, new vscode.Position(at.line, at.character));
  if (state === 'kept') run.passed(item);
  else if (state === 'broken') run.failed(item, told);
  else run.errored(item, told);
  return { id, state, message };
}
