import { describe, expect, it } from 'vitest';
import { EDITS_HELP, editsOptions } from '../edits/run-options';

describe('the long run of edits', () => {
  it('tries what it is asked for', () => {
    expect(editsOptions([])).toEqual({ count: 10_000, from: 0, seed: 2026 });
    expect(editsOptions(['2500', '--from', '2500', '--seed', '7'])).toEqual({
      count: 2500,
      from: 2500,
      seed: 7,
    });
  });

  it('tells how it is called and begins nothing', () => {
    expect(editsOptions(['--help'])).toBe('help');
    expect(editsOptions(['2500', '-h'])).toBe('help');
    expect(EDITS_HELP).toContain('--from <a multiple of 100>');
  });

  it.each([
    [['--form', '100']],
    [['many']],
    [['1', '2']],
    [['--from', '50']],
    [['--seed', 'x']],
    [['--from']],
  ])('does not begin with %j', (words) => {
    expect(() => editsOptions(words)).toThrow();
  });
});
