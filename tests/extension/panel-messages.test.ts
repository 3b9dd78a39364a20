import { describe, expect, it } from 'vitest';
import { fromPanel } from '../../extension/panel-messages';

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

  it.each([
    undefined,
    null,
    'ready',
    {},
    { kind: 'openFile' },
    { kind: 'reveal' },
    { kind: 'reveal', target: { file: 3, start: 0, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: -1, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: 0.5, end: 1 } },
    { kind: 'reveal', target: { file: 'a', start: 0, end: '1' } },
  ])('drops %j', (message) => {
    expect(fromPanel(message)).toBeUndefined();
  });
});
