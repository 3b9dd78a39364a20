import type { Connection } from 'vscode-languageserver';
import { answerTo } from '../report/assistant/answer';
import { askedBy } from '../report/assistant/asked';
import { caution } from '../room/caution';
import { ofClient } from './conversation';
import { type AskAnswer, type AskParams, askRequest } from './protocol-ask';
import type { ServerState } from './server-state';

/** Registers the questions of assistants, answered from the texts as they stand in the editor, saved or not. */
export function addAssistantFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest<AskAnswer | null, void>(
    askRequest,
    async (params: AskParams): Promise<AskAnswer | null> => {
      await state.ready();
      const asked = askedBy(params.name, params.input);
      if (typeof asked === 'string') return { text: asked, failed: true, caution };
      const open = state.plans.planOrLatest(params.uri);
      if (!open) return null;
      const files = [...open.session.plan().files.values()];
      const around = {
        today: state.today() ?? 0,
        page: () => params.page,
        severities: state.severities(),
        readings: () => open.session.latestSnapshot()?.season.readings,
        solved: params.solved,
      };
      return ofClient(() => answerTo(files, asked, around));
    },
  );
}
