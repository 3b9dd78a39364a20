import { KEY_CONFIDENCES } from './confidence-layout';
import { element, shape } from './dom';
import { beyondBox, withinLine } from './draw-confidence';
import { hangsMark } from './draw-hangs';
import { conflictMark, openingMark, severityMark } from './marks';
import { filled, say } from './words';

const WIDTH = 26;

/** Steps down from the window: a line within it at the highest confidence, boxes behind it at lower ones. */
function confidenceEntry(): readonly [string, readonly Node[]] {
  const [highest = 0, ...lower] = KEY_CONFIDENCES;
  const drawn = [
    shape('rect', { class: 'window', x: 1, y: 3.5, width: 10, height: 15 }),
    withinLine(highest, 6),
    ...lower.map((confidence, at) => beyondBox(confidence, { x: 11 + 7 * at, width: 7 })),
  ];
  return [filled(say.keyConfidence, KEY_CONFIDENCES.join(', ')), drawn];
}

/** What the shapes mean. */
export function drawKey(): HTMLElement {
  const entries: readonly (readonly [string, readonly Node[]])[] = [
    [say.keyFilling, [shape('polygon', { class: 'filling', points: '3,11 23,4 23,18' })]],
    [say.keyPulledDown, [shape('rect', { class: 'pull-down', x: 7, y: 4, width: 12, height: 14 })]],
    [say.keyKeeping, [shape('rect', { class: 'keeping', x: 0, y: 8, width: WIDTH, height: 6 })]],
    [say.keyWindow, [shape('rect', { class: 'window', x: 1, y: 3.5, width: 24, height: 15 })]],
    [
      say.keyLate,
      [
        shape('rect', { class: 'window', x: 1, y: 3.5, width: 24, height: 15 }),
        shape('rect', { class: 'late', x: 1, y: 4, width: 24, height: 14 }),
      ],
    ],
    confidenceEntry(),
    [say.keyOpens, [openingMark('50%', false)]],
    [say.keyPinned, [openingMark('50%', true)]],
    [say.keyNoWeek, [conflictMark('50%')]],
    [say.keyPackedOut, [shape('polygon', { class: 'emptying', points: '3,4 23,11 3,18' })]],
    [say.keyWanted, [shape('path', { class: 'demand', d: 'M1 14 H9 V6 H17 V11 H25' })]],
    [say.keySupplied, [shape('rect', { class: 'supplied', x: 6, y: 5, width: 14, height: 14 })]],
    [say.keyShort, [shape('rect', { class: 'lacking', x: 6, y: 5, width: 14, height: 14 })]],
    [say.keyProcessing, [shape('rect', { class: 'surplus', x: 6, y: 5, width: 14, height: 14 })]],
    [say.keyFinding, [shape('svg', { x: 7, y: 5, width: 12, height: 12 }, severityMark('warning'))]],
    [say.keyChance, [shape('rect', { class: 'chance', x: 8, y: 4, width: 10, height: 12 })]],
    [say.keyHangs, [shape('svg', { x: 13, y: -6, overflow: 'visible' }, hangsMark(1))]],
    [say.keyOtherOpens, [shape('circle', { class: 'other-ring', cx: 13, cy: 11, r: 7.5 })]],
    [say.keyOtherWindow, [shape('rect', { class: 'other-window', x: 1, y: 2.5, width: 24, height: 17 })]],
    [say.keyOtherSupplied, [shape('path', { class: 'other-supply', d: 'M1 14 H9 V6 H17 V11 H25' })]],
    [say.keyCaret, [shape('rect', { class: 'caret-bar', x: 11, y: 2, width: 3, height: 18 })]],
    [say.keyOverLimit, [shape('rect', { class: 'load over', x: 6, y: 5, width: 14, height: 14 })]],
  ];
  return element(
    'ul',
    { class: 'key' },
    ...entries.map(([label, drawn]) =>
      element('li', {}, shape('svg', { width: WIDTH, height: 22, 'aria-hidden': 'true' }, ...drawn), label),
    ),
  );
}
