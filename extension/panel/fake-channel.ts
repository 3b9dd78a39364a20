import type { FromPanel } from '../../src/report/timeline-types';
import { type Channel, incoming } from './channel';

const KEY = 'lotwright-panel-state';

/**
 * Stands in for the editor in a plain page, for tests and for looking at the panel in a browser: state is kept for the
 * tab, what the page says is told as `panel-message` events on the window, and `window.postMessage` speaks to the page.
 */
export function fakeChannel(page: Window): Channel {
  return {
    send: (message: FromPanel) => page.dispatchEvent(new CustomEvent('panel-message', { detail: message })),
    listen: incoming(page),
    savedState: () => {
      const saved = page.sessionStorage.getItem(KEY);
      return saved === null ? undefined : JSON.parse(saved);
    },
    saveState: (state) => page.sessionStorage.setItem(KEY, JSON.stringify(state)),
  };
}
