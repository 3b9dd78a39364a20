import { element, shape } from './dom';
import { hangsMark } from './draw-hangs';
import { conflictMark, openingMark, severityMark } from './marks';

const WIDTH = 26;

/** What the shapes mean. */
export function drawKey(): HTMLElement {
  const entries: readonly (readonly [string, readonly Node[]])[] = [
    ['filling', [shape('polygon', { class: 'filling', points: '3,11 23,4 23,18' })]],
    ['oxygen pulled down', [shape('rect', { class: 'pull-down', x: 7, y: 4, width: 12, height: 14 })]],
    ['keeping', [shape('rect', { class: 'keeping', x: 0, y: 8, width: WIDTH, height: 6 })]],
    ['opening window', [shape('rect', { class: 'window', x: 1, y: 3.5, width: 24, height: 15 })]],
    [
      'after best before',
      [
        shape('rect', { class: 'window', x: 1, y: 3.5, width: 24, height: 15 }),
        shape('rect', { class: 'late', x: 1, y: 4, width: 24, height: 14 }),
      ],
    ],
    ['opens', [openingMark('50%', false)]],
    ['opens, pinned', [openingMark('50%', true)]],
    ['no week fits', [conflictMark('50%')]],
    ['packed out', [shape('polygon', { class: 'emptying', points: '3,4 23,11 3,18' })]],
    ['wanted', [shape('path', { class: 'demand', d: 'M1 14 H9 V6 H17 V11 H25' })]],
    ['supplied', [shape('rect', { class: 'supplied', x: 6, y: 5, width: 14, height: 14 })]],
    ['short', [shape('rect', { class: 'lacking', x: 6, y: 5, width: 14, height: 14 })]],
    ['to processing', [shape('rect', { class: 'surplus', x: 6, y: 5, width: 14, height: 14 })]],
    ['finding of a week', [shape('svg', { x: 7, y: 5, width: 12, height: 12 }, severityMark('warning'))]],
    ['chance of a short week', [shape('rect', { class: 'chance', x: 8, y: 4, width: 10, height: 12 })]],
    ['schedule hangs on it', [shape('svg', { x: 13, y: -6, overflow: 'visible' }, hangsMark(1))]],
    ['other state: opens', [shape('circle', { class: 'other-ring', cx: 13, cy: 11, r: 7.5 })]],
    ['other state: window', [shape('rect', { class: 'other-window', x: 1, y: 2.5, width: 24, height: 17 })]],
    ['other state: supplied', [shape('path', { class: 'other-supply', d: 'M1 14 H9 V6 H17 V11 H25' })]],
    ['equipment above limit', [shape('rect', { class: 'load over', x: 6, y: 5, width: 14, height: 14 })]],
  ];
  return element(
    'ul',
    { class: 'key' },
    ...entries.map(([label, drawn]) =>
      element('li', {}, shape('svg', { width: WIDTH, height: 22, 'aria-hidden': 'true' }, ...drawn), label),
    ),
  );
}
