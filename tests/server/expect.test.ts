import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';
import { completionAt } from '../../src/server/services/completion';
import { outlineOf } from '../../src/server/services/outline';
import { sampleFiles } from '../samples/sample';

/** What is offered at the `|` in a file beside the first season. */
function offered(text: string): string[] {
  const offset = text.indexOf('|');
  const file = { path: 'x.lotplan.yaml', text: text.replace('|', '') };
  const plan = readPlan([...sampleFiles('first-season'), file]);
  return completionAt(plan, { file: file.path, offset }).map(({ label }) => label);
}

describe('completion in promises and scenarios', () => {
  it.each([
    ['expect:\n  a: { opens: { room: | } }', ['R1', 'R2', 'R3', 'R4']],
    ['expect:\n  a: { no-shortage: { market: | } }', ['home', 'schools', 'wholesale']],
    ['expect:\n  a: { grower-out: { grower: | } }', ['Hollow Farm', 'Larkfield', 'Weir Orchard']],
    ['expect:\n  a: { scrubber-load: { scrubber: | } }', ['S1', 'lime-box']],
    ['scenarios:\n  a:\n    take-out: { pins: [|] }', ['R1-gala', 'R2-gala', 'R3-golden', 'R4-braeburn']],
  ])('%j offers the names of the right kind', (text, names) => {
    expect(offered(text)).toEqual(names);
  });

  it('offers the kinds of promise, codes of findings, and keys of what a scenario changes', () => {
    expect(offered('expect:\n  a:\n    |\n')).toEqual(
      expect.arrayContaining(['no-shortage', 'opens', 'window']),
    );
    expect(offered('expect:\n  a: { no-finding: { code: | } }')).toContain('room-left-closed');
    expect(offered('scenarios:\n  a:\n    change:\n      rooms:\n        R1:\n          |\n')).toContain(
      'scrubber',
    );
    expect(offered('expect:\n  |\n')).toContain('new expectation');
  });

  it('has both in the outline', () => {
    const plan = readPlan(sampleFiles('full-season'));
    const names = outlineOf(plan, 'expect.lotplan.yaml').map(({ name }) => name);
    expect(names).toEqual(['expect', 'scenarios']);
  });
});
