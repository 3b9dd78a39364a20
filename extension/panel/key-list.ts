import { element } from './dom';
import { say } from './words';

/** A key, or several that do the same in two directions, as `KeyboardEvent.key` names them; and what they do. */
export interface KeyTold {
  readonly keys: readonly string[];
  readonly withShift?: boolean;
  readonly does: string;
}

/** Every key of the timeline and of its cards. */
export function keysTold(): readonly KeyTold[] {
  return [
    { keys: ['ArrowUp', 'ArrowDown'], does: say.keyToRoom },
    { keys: ['PageUp', 'PageDown'], does: say.keyTenRooms },
    { keys: ['Home', 'End'], does: say.keyFirstLast },
    { keys: ['ArrowLeft', 'ArrowRight'], does: say.keyFourWeeks },
    { keys: ['+', '-'], does: say.keyZoom },
    { keys: ['0'], does: say.keyFit },
    { keys: ['Enter'], does: say.keyInText },
    { keys: ['o'], does: say.keyWeekInText },
    { keys: ['ArrowLeft', 'ArrowRight'], withShift: true, does: say.keyMoves },
    { keys: ['Escape'], does: say.keyPutsBack },
    { keys: ['a'], does: say.keyAround },
    { keys: ['p'], does: say.keyPins },
    { keys: ['c'], does: say.keyCard },
    { keys: ['[', ']'], does: say.keyNextCard },
    { keys: ['s'], does: say.keySeason },
    { keys: ['t'], does: say.keyTable },
    { keys: ['/'], does: say.keyFind },
  ];
}

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
