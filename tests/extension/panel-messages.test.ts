import { describe, expect, it } from 'vitest';
import { fillOfRow, fromPanel } from '../../extension/panel-messages';

describe('what the panel sends is not trusted', () => {
  it.each([{ kind: 'ready' }, { kind: 'computeRelease' }, { kind: 'cancelRelease' }])(
    'takes $kind',
    (message) => {
      expect(fromPanel({ ...message, more: 'ignored' })).toEqual(message);
    },
  );

  it('takes a place in the text', () => {
    const target = { file: 'fruit.lotplan.yaml', start: 4, end: 9 };
    expect(fromPanel({ kind: 'reveal', target })).toEqual({ kind: 'reveal', target });
  });

  it('takes the ways to begin, and no other', () => {
    for (const way of ['sample', 'newPlan', 'folder', 'walkthrough'])
      expect(fromPanel({ kind: 'begin', with: way })).toEqual({ kind: 'begin', with: way });
    for (const way of [undefined, 'workbench.action.quit', 7])
      expect(fromPanel({ kind: 'begin', with: way })).toBeUndefined();
  });

  it('takes the fill to pin', () => {
    expect(fromPanel({ kind: 'pin', fill: 'R2-gala', more: 1 })).toEqual({ kind: 'pin', fill: 'R2-gala' });
    expect(fillOfRow({ webviewSection: 'canPin', fill: 'R2-gala' })).toBe('R2-gala');
    for (const other of [undefined, null, 'R2-gala', {}, { fill: 7 }])
      expect(fillOfRow(other)).toBeUndefined();
  });

  it.each([
    undefined,
    null,
    'ready',
    {},
    { kind: 'openFile' },
    { kind: 'pin' },
    { kind: 'pin', fill: 3 },
    { kind: 'reveal' },
    { kind: 'reveal', target: { file: 3, start: 0, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: -1, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: 0.5, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: 0, end: '1' } },
  ])('drops %j', (message) => {
    expect(fromPanel(message)).toBeUndefined();
  });
});
