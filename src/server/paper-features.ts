import type { Connection } from 'vscode-languageserver';
import { displayUnits } from '../report/explain';
import type { PaperFile } from '../report/papers/forms';
import { packedSeason } from '../report/papers/packed-season';
import { calendarBefore, filesOf } from '../report/papers/paper-files';
import { papersFor } from '../report/papers/papers';
import { seasonAccount } from '../report/papers/season-account';
import { base64Of, type PapersAnswer, type PapersParams, papersRequest } from './protocol-papers';
import type { ServerState } from './server-state';

/** Registers the schedule for people: the same files that the command line writes. */
export function addPaperFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(papersRequest, async (params: PapersParams): Promise<PapersAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(params.uri);
    if (!open) return null;
    const { plan, season } = await open.session.settledSoon();
    const packed = await packedSeason(season, () => state.loadSolver());
    const files = filesOf(papersFor(seasonAccount(packed), params.reader), params.form, {
      size: displayUnits(plan).system === 'us' ? 'letter' : 'a4',
      stamp: state.today() ?? 0,
    });
    return {
      root: open.root,
      files: files.map((file) => ({ name: file.name, content: inBase64(contentOf(file, params)) })),
    };
  });
}

function contentOf(file: PaperFile, { previous }: PapersParams): string | Uint8Array {
  const text = previous?.[file.name];
  const before = text === undefined ? undefined : calendarBefore(text);
  return file.content(before?.identity === file.calendarOf ? before : undefined);
}

function inBase64(content: string | Uint8Array): string {
  return base64Of(typeof content === 'string' ? new TextEncoder().encode(content) : content);
}
