import type { Connection } from 'vscode-languageserver';
import { displayUnits } from '../report/explain';
import { calendarBefore, filesOf, type PaperFile } from '../report/papers/paper-files';
import { papersFor } from '../report/papers/papers';
import { seasonAccount } from '../report/papers/season-account';
import { type PapersAnswer, type PapersParams, papersRequest } from './protocol-papers';
import type { ServerState } from './server-state';

/** Registers the schedule for people: the same files that the command line writes. */
export function addPaperFeatures(connection: Connection, state: ServerState): void {
  connection.onRequest(papersRequest, async (params: PapersParams): Promise<PapersAnswer | null> => {
    await state.ready();
    const open = state.plans.planOrLatest(params.uri);
    if (!open) return null;
    const { plan, season } = await open.session.settledSoon();
    const files = filesOf(papersFor(seasonAccount(season), params.reader), params.form, {
      size: displayUnits(plan).system === 'us' ? 'letter' : 'a4',
      stamp: state.today() ?? 0,
    });
    return {
      root: open.root,
      files: files.map((file) => ({ name: file.name, content: base64(contentOf(file, params)) })),
    };
  });
}

function contentOf(file: PaperFile, { previous }: PapersParams): string | Uint8Array {
  const text = previous?.[file.name];
  const before = text === undefined ? undefined : calendarBefore(text);
  return file.content(before?.identity === file.calendarOf ? before : undefined);
}

/** In parts: a call with all bytes as arguments has too many of them. */
function base64(content: string | Uint8Array): string {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  let letters = '';
  for (let at = 0; at < bytes.length; at += 8192)
    letters += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(letters);
}
