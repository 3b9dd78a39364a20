import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PlanComputed } from '../src/server/protocol';
import { LANGUAGE } from './client-options';

/** The name that the manifest's `enablement` goes by. */
const HAS_PLAN = 'lotwright.hasPlan';
/** The same for what needs records of the season, or readings, in any of the plans. */
const HAS_RECORDS = 'lotwright.hasRecords';

/** The plan of the document in front, in the language status: how many rooms, how many findings. */
export class PlanStatus implements vscode.Disposable {
  private readonly plans = new Map<string, PlanComputed>();
  private readonly item = vscode.languages.createLanguageStatusItem('lotwright.plan', { language: LANGUAGE });
  private readonly disposables: vscode.Disposable[];
  private hasRecords = false;

  constructor(
    private readonly client: BaseLanguageClient,
    computed: vscode.Event<PlanComputed>,
  ) {
    this.item.name = vscode.l10n.t('Lotwright plan');
    this.item.text = vscode.l10n.t('Reading the plan');
    this.item.command = { title: vscode.l10n.t('Room timeline'), command: 'lotwright.openTimeline' };
    this.disposables = [
      this.item,
      computed((plan) => {
        // Commands that need a plan are offered from now on.
        if (this.plans.size === 0) void vscode.commands.executeCommand('setContext', HAS_PLAN, true);
        this.plans.set(plan.root, plan);
        this.tellRecords();
        this.update();
      }),
      vscode.window.onDidChangeActiveTextEditor(() => this.update()),
    ];
  }

  /** What the item says now. */
  get shown(): Readonly<Pick<vscode.LanguageStatusItem, 'text' | 'detail' | 'severity' | 'busy'>> {
    const { text, detail, severity, busy } = this.item;
    return { text, severity, busy, ...(detail !== undefined && { detail }) };
  }

  dispose(): void {
    for (const disposable of this.disposables) disposable.dispose();
  }

  private tellRecords(): void {
    const hasRecords = [...this.plans.values()].some((plan) => plan.hasRecords);
    if (hasRecords === this.hasRecords) return;
    this.hasRecords = hasRecords;
    void vscode.commands.executeCommand('setContext', HAS_RECORDS, hasRecords);
  }

  private update(): void {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== LANGUAGE) return;
    const uri = this.client.code2ProtocolConverter.asUri(document.uri);
    // Plans do not lie inside one another, so at most one root fits.
    const plan = [...this.plans.values()].find(({ root }) => uri === root || uri.startsWith(`${root}/`));
    if (!plan) return;
    const { errors, warnings, notices } = plan.findings;
    this.item.text =
      plan.rooms === 1
        ? vscode.l10n.t('{0}: one room', plan.name)
        : vscode.l10n.t('{0}: {1} rooms', plan.name, plan.rooms);
    // The last good answer stands until schedule and courses fit the text again.
    this.item.busy = !plan.isSettled;
    this.item.detail = plan.isSettled
      ? vscode.l10n.t('errors {0}, warnings {1}, notices {2}', errors, warnings, notices)
      : vscode.l10n.t(
          'Schedule and courses are those of the text before the last change; new ones are being found.',
        );
    this.item.severity =
      errors > 0
        ? vscode.LanguageStatusSeverity.Error
        : warnings > 0
          ? vscode.LanguageStatusSeverity.Warning
          : vscode.LanguageStatusSeverity.Information;
  }
}
