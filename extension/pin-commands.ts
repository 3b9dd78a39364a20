import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type PinsAnswer, type PinsParams, requests } from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import { planInFront } from './plan-in-front';
import { translate } from './translate';
import { versionedEdit } from './versioned-edit';

type Pin = PinsAnswer['pins'][number];

const LISTED = 12;

/** Writes the schedule's weeks into the plan as pins, each as one edit that can be undone. */
export class PinCommands {
  constructor(
    private readonly client: BaseLanguageClient,
    /** A document of the plan that the timeline shows, for when no plan is in front. */
    private readonly shownPlan: () => string | undefined,
  ) {}

  /** All rooms without a pin, once that has been confirmed; `confirm: false` is for other extensions and tests. */
  async pinAll(options?: { readonly confirm?: boolean }): Promise<void> {
    const params: PinsParams = planInFront(this.client, this.shownPlan);
    const answer = await this.ask(params);
    if (!answer) return;
    if (answer.pins.length === 0) {
      void vscode.window.showInformationMessage(
        `${vscode.l10n.t('{0}: no room is left to pin.', answer.name)} ${translate(answer.schedule)}`,
      );
      return;
    }
    if (options?.confirm !== false && !(await confirmed(answer))) return;
    // The plan may have been edited while the question stood: the same question, for the text as it is now.
    const now = await this.ask(params);
    if (!now || listOf(now.pins) !== listOf(answer.pins)) {
      void vscode.window.showWarningMessage(
        vscode.l10n.t('The schedule has changed meanwhile. Nothing was pinned; ask again.'),
      );
      return;
    }
    if (await apply(now)) vscode.window.setStatusBarMessage(pinnedText(now.pins.length), 10_000);
  }

  /** The fill with this name in the plan that the timeline shows; without a name, the one at the caret. */
  async pinOne(fill?: string): Promise<void> {
    const params = fill === undefined ? this.atCaret() : { ...this.planShown(), fill };
    const answer = params && (await this.ask(params));
    if (!params || !answer) return;
    const [pin] = answer.pins;
    if (!pin) {
      void vscode.window.showInformationMessage(
        answer.fill === undefined
          ? vscode.l10n.t('Put the caret on a fill: its room is pinned to the week of the schedule.')
          : vscode.l10n.t('{0} is pinned already, or the schedule leaves its room shut.', answer.fill),
      );
      return;
    }
    if (await apply(answer)) tellPinned(pin.fill, pin.week);
  }

  /** A fill of the plan that the timeline shows, to a week chosen there. */
  async pinTo(fill: string, week: string): Promise<void> {
    const answer = await this.ask({ ...this.planShown(), fill, week });
    if (!answer || answer.pins.length === 0) return;
    if (await apply(answer)) tellPinned(fill, week);
  }

  /** A fill to a week, and the others that were offered to move along, in one edit. */
  async pinAround(fill: string, week: string): Promise<void> {
    const params = { ...this.planShown(), fill, week };
    const answer = await this.client.sendRequest<PinsAnswer | null>(requests.pinAround, params);
    if (!answer || answer.pins.length === 0) {
      void vscode.window.showWarningMessage(
        vscode.l10n.t('The plan has changed since others were offered to move along. Nothing was pinned.'),
      );
      return;
    }
    if (await apply(answer))
      vscode.window.setStatusBarMessage(
        vscode.l10n.t(
          '{0}: pinned. Undo takes it back.',
          answer.pins.map((pin) => vscode.l10n.t('{0} to {1}', pin.room, translate(pin.week))).join(', '),
        ),
        10_000,
      );
  }

  private async ask(params: PinsParams): Promise<PinsAnswer | undefined> {
    const answer = await this.client.sendRequest<PinsAnswer | null>(requests.pins, params);
    if (!answer)
      void vscode.window.showInformationMessage(vscode.l10n.t('There is no plan with a schedule to pin.'));
    return answer ?? undefined;
  }

  private atCaret(): PinsParams | undefined {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== LANGUAGE) return undefined;
    const { line, character } = editor.selection.active;
    return { uri: this.uriOf(editor.document), position: { line, character } };
  }

  private planShown(): PinsParams {
    const uri = this.shownPlan();
    return uri === undefined ? {} : { uri };
  }

  private uriOf({ uri }: vscode.TextDocument): string {
    return this.client.code2ProtocolConverter.asUri(uri);
  }
}

async function confirmed({ name, schedule, pins }: PinsAnswer): Promise<boolean> {
  const listed = pins.slice(0, LISTED).map(({ room, fill, week }) => `${room}: ${translate(week)} (${fill})`);
  if (pins.length > LISTED) listed.push(vscode.l10n.t('and {0} more', pins.length - LISTED));
  const passed = pins.filter((pin) => pin.passed).length;
  const warning = passed === 0 ? [] : ['', passedText(passed)];
  const keeps = vscode.l10n.t('Rooms that have a pin keep it. Undo takes it back.');
  const detail = [translate(schedule), ...warning, '', ...listed, '', keeps].join('\n');
  const one = pins.length === 1;
  const yes = one ? vscode.l10n.t('Pin one room') : vscode.l10n.t('Pin {0} rooms', pins.length);
  const question = one
    ? vscode.l10n.t('Pin one room of {0} to the week found?', name)
    : vscode.l10n.t('Pin {0} rooms of {1} to the weeks found?', pins.length, name);
  return (await vscode.window.showInformationMessage(question, { modal: true, detail }, yes)) === yes;
}

/** True when the edits were made; they are made to the very text they were made for, or not at all. */
async function apply({ pins, versions }: PinsAnswer): Promise<boolean> {
  const edits: Record<string, Pin['edits'][number][]> = {};
  for (const pin of pins) edits[pin.uri] = [...(edits[pin.uri] ?? []), ...pin.edits];
  const edit = await versionedEdit({ edits, versions });
  return (edit !== undefined && (await vscode.workspace.applyEdit(edit))) || refused();
}

function refused(): boolean {
  void vscode.window.showWarningMessage(
    vscode.l10n.t('The plan was changed meanwhile. Nothing was pinned; ask again.'),
  );
  return false;
}

function passedText(count: number): string {
  return count === 1
    ? vscode.l10n.t('One of these weeks has passed: pin it only if the room was opened then.')
    : vscode.l10n.t('{0} of these weeks have passed: pin them only if the rooms were opened then.', count);
}

function listOf(pins: readonly Pin[]): string {
  return pins.map(({ fill, week }) => `${fill} ${week}`).join('\n');
}

function pinnedText(count: number): string {
  return count === 1
    ? vscode.l10n.t('One room is pinned. Undo takes it back.')
    : vscode.l10n.t('{0} rooms are pinned. Undo takes it back.', count);
}

function tellPinned(fill: string, week: string): void {
  const told = vscode.l10n.t('{0} is pinned to {1}. Undo takes it back.', fill, translate(week));
  vscode.window.setStatusBarMessage(told, 10_000);
}
