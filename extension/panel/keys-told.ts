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
