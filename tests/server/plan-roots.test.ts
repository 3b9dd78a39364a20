import { describe, expect, it } from 'vitest';
import { isPlanFile, pathInPlan, plansOf } from '../../src/server/plan-roots';

const WORKSPACE = 'file:///farm';

describe('which files are one plan', () => {
  it('a folder with plan files is a plan, with everything below it', () => {
    const files = ['file:///farm/a.lotplan.yaml', 'file:///farm/rooms/north/b.lotplan.yaml'];
    expect([...plansOf(files, [WORKSPACE])]).toEqual([['file:///farm', files]]);
  });

  it('plans lie side by side where no plan file stands above them', () => {
    const files = [
      'file:///farm/2025/a.lotplan.yaml',
      'file:///farm/2026/a.lotplan.yaml',
      'file:///farm/2026/fruit/b.lotplan.yaml',
    ];
    expect([...plansOf(files, [WORKSPACE]).keys()]).toEqual(['file:///farm/2025', 'file:///farm/2026']);
  });

  it('a folder in between that has no plan file itself does not part a plan', () => {
    const files = ['file:///farm/2026/a.lotplan.yaml', 'file:///farm/2026/x/y/z/b.lotplan.yaml'];
    expect([...plansOf(files, [`${WORKSPACE}/`]).keys()]).toEqual(['file:///farm/2026']);
  });

  it('looks no higher than the workspace folder', () => {
    const files = ['file:///farm/a.lotplan.yaml', 'file:///farm/2026/b.lotplan.yaml'];
    expect([...plansOf(files, ['file:///farm/2026']).keys()].sort()).toEqual([
      'file:///farm',
      'file:///farm/2026',
    ]);
  });

  it('does not take a folder for another whose name it begins', () => {
    const files = ['file:///farm-two/x/a.lotplan.yaml', 'file:///farm-two/b.lotplan.yaml'];
    expect([...plansOf(files, [WORKSPACE]).keys()]).toEqual(['file:///farm-two', 'file:///farm-two/x']);
  });

  it('a document that was never saved is a plan by itself', () => {
    expect([...plansOf(['untitled:Untitled-1'], [])]).toEqual([
      ['untitled:Untitled-1', ['untitled:Untitled-1']],
    ]);
    expect(pathInPlan('untitled:Untitled-1', 'untitled:Untitled-1')).toBe('Untitled-1');
  });

  it('paths below the plan are as people read them', () => {
    expect(pathInPlan('file:///farm', 'file:///farm/north%20rooms/a%2Bb.lotplan.yaml')).toBe(
      'north rooms/a+b.lotplan.yaml',
    );
    expect(pathInPlan('file:///farm', 'file:///farm/50%.lotplan.yaml')).toBe('50%.lotplan.yaml');
  });

  it('only files of the plan language count', () => {
    expect(isPlanFile('file:///farm/a.lotplan.yaml')).toBe(true);
    expect(isPlanFile('file:///farm/a.yaml')).toBe(false);
  });
});
