import { element } from './dom';
import { keysTold } from './keys-told';
import { say } from './words';

/** The keys and what each does, folded away till somebody wants to know. */
export function keyList(): HTMLElement {
  const entries = keysTold().map(({ keys, withShift, does }) => {
    const caps = keys.map((key) => element('kbd', {}, capOf(key)));
    const shift = withShift ? [element('kbd', {}, say.keyShift), ' '] : [];
    return element('div', {}, element('dt', {}, ...shift, ...caps), element('dd', {}, does));
  });
  return element(
    'details',
    { class: 'keyboard' },
    element('summary', {}, say.keyboard),
    element('dl', { class: 'keys' }, ...entries),
  );
}

/** What stands on the key. */
function capOf(key: string): string {
  const caps: Readonly<Record<string, string>> = {
    ArrowUp: '↑',
    ArrowDown: '↓',
    ArrowLeft: '←',
    ArrowRight: '→',
    PageUp: say.keyPageUp,
    PageDown: say.keyPageDown,
    Home: say.keyHome,
    End: say.keyEnd,
    Enter: say.keyEnter,
    Escape: say.keyEscape,
    '-': '−',
  };
  return caps[key] ?? key.toUpperCase();
}
