import type { FromPanel, ToPanel } from '../../src/report/timeline-types';

/** All that passes between the page and whoever shows it, and the state that outlives the page. */
export interface Channel {
  send(message: FromPanel): void;
  /** Hands over every message, those first that came before anyone listened. */
  listen(listener: (message: ToPanel) => void): void;
  /** What was saved last, by this page or the one before it; undefined at first. */
  savedState(): unknown;
  saveState(state: unknown): void;
}

interface EditorApi {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): EditorApi;

/** The channel to the editor. It can be asked for only once in a page's life. */
export function editorChannel(page: Window): Channel {
  const editor = acquireVsCodeApi();
  return {
    send: (message) => editor.postMessage(message),
    listen: incoming(page),
    savedState: () => editor.getState(),
    saveState: (state) => editor.setState(state),
  };
}

/** Collects the page's messages from the start and gives them to the listener once there is one. */
export function incoming(page: Window): Channel['listen'] {
  const waiting: ToPanel[] = [];
  let listener: ((message: ToPanel) => void) | undefined;
  page.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (!isToPanel(data)) return;
    if (listener) listener(data);
    else waiting.push(data);
  });
  return (next) => {
    listener = next;
    for (const message of waiting.splice(0)) next(message);
  };
}

/** The extension is trusted; other scripts of the editor's frame post messages too, and those are not for us. */
function isToPanel(data: unknown): data is ToPanel {
  if (typeof data !== 'object' || data === null || !('kind' in data)) return false;
  if (data.kind === 'view') return 'view' in data && typeof data.view === 'object' && data.view !== null;
  if (data.kind === 'caret') return 'row' in data && (data.row === null || typeof data.row === 'string');
  if (data.kind === 'noPlan') return 'hasFolder' in data && typeof data.hasFolder === 'boolean';
  if (data.kind === 'otherWeek')
    return 'text' in data && typeof data.text === 'string' && 'fill' in data && typeof data.fill === 'string';
  if (data.kind === 'around') return 'text' in data && typeof data.text === 'string';
  if (data.kind === 'roomCard' || data.kind === 'seasonCard')
    return 'card' in data && typeof data.card === 'object';
  if (data.kind === 'showCard') return 'card' in data && typeof data.card === 'object' && data.card !== null;
  if (data.kind === 'roomLessons') return 'lessons' in data && Array.isArray(data.lessons);
  if (data.kind === 'lessonEffects')
    return 'lines' in data && 'lesson' in data && typeof data.lesson === 'string';
  if (data.kind === 'explained')
    return 'figure' in data && typeof data.figure === 'string' && 'text' in data && 'title' in data;
  if (data.kind === 'makePicture')
    return 'format' in data && (data.format === 'svg' || data.format === 'png');
  if (data.kind === 'progress') return 'text' in data && typeof data.text === 'string';
  return data.kind === 'idle';
}
