import { describe, expect, it } from 'vitest';
import { ruleOf } from '../../src/findings/rules';
import type { TextEdit } from '../../src/plan/problem';
import { actionsAt, allowance } from '../../src/server/services/actions';
import { computed, samplePlan, type TextFile } from './plans';

function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.at.start - a.at.start)
    .reduce((all, { at, newText }) => all.slice(0, at.start) + newText + all.slice(at.end), text);
}

const files = samplePlan('first-season');
const ANYWHERE = { start: 0, end: Number.MAX_SAFE_INTEGER };

function withText(path: string, change: (text: string) => string): TextFile[] {
  return files.map((file) => (file.path === path ? { path, text: change(file.text) } : file));
}

describe('what can be done about a finding', () => {
  it("offers the finding's own fix, and the fix cures it", () => {
    const changed = withText('fruit.lotplan.yaml', (text) =>
      text.replace('variety: Braeburn', 'variety: Braebrun'),
    );
    const { season, findings } = computed(changed);
    const [fix] = actionsAt(season.plan, findings, { file: 'fruit.lotplan.yaml', ...ANYWHERE }).filter(
      ({ kind, finding }) => kind === 'fix' && finding.code === 'unknown-reference',
    );
    expect(fix?.title).toContain('Braeburn');
    const text = season.plan.files.get('fruit.lotplan.yaml')?.text ?? '';
    const cured = computed(
      changed.map((file) =>
        file.path === 'fruit.lotplan.yaml' ? { ...file, text: applied(text, fix?.edits ?? []) } : file,
      ),
    );
    expect(cured.findings.map(({ code }) => code)).not.toContain('unknown-reference');
  });

  it('is offered only where the finding is', () => {
    const { season, findings } = computed(files);
    const [finding] = findings;
    if (!finding) throw new Error('the first season has findings');
    const before = { file: finding.at.file, start: 0, end: finding.at.start - 1 };
    expect(actionsAt(season.plan, [finding], before)).toEqual([]);
    expect(actionsAt(season.plan, [finding], finding.at).map(({ kind }) => kind)).toContain('page');
  });

  it.each([
    ['with a tab', '\t', 'Indent this file with spaces'],
    ['two columns too deep', '      ', 'Indent as the line above'],
  ])('a key that stands %s has one fix, which puts it beside the others', (_what, before, title) => {
    const keys = ['    variety: Gala', '    picked: 2026-09-03', '    bins: 240'];
    const text = (lines: readonly string[]) => `lotwright: 1\nlots:\n  L1:\n${lines.join('\n')}\n`;
    const slipped = text(keys.with(1, `${before}picked: 2026-09-03`));
    const { season, findings } = computed([{ path: 'p.lotplan.yaml', text: slipped }]);
    const offered = actionsAt(season.plan, findings, { file: 'p.lotplan.yaml', ...ANYWHERE });
    const fixes = offered.filter(({ kind }) => kind === 'fix');
    expect(fixes.map((fix) => fix.title)).toEqual([title]);
    expect(applied(slipped, fixes[0]?.edits ?? [])).toBe(text(keys));
  });

  it('what cannot be read cannot be allowed', () => {
    const broken: TextFile = { path: 'p.lotplan.yaml', text: 'rooms:\n  R1: { colour: red }\n' };
    const { season, findings } = computed([broken]);
    const actions = actionsAt(season.plan, findings, { file: broken.path, ...ANYWHERE });
    const unreadable = actions.filter(({ finding }) => finding.code === 'unknown-key');
    expect(unreadable.map(({ kind }) => kind)).toContain('page');
    expect(unreadable.map(({ kind }) => kind)).not.toContain('allow');
  });

  it('the caution before a room is opened cannot be allowed away', () => {
    const { season, findings } = computed(files);
    const caution = findings.find(({ code }) => code === 'caution-before-opening');
    if (!caution) throw new Error('the first season has sealed rooms');
    expect(actionsAt(season.plan, [caution], caution.at).map(({ kind }) => kind)).toEqual(['page']);
  });
});

describe('allowing a finding', () => {
  it.each(
    computed(files)
      .findings.filter(({ code }) => !ruleOf(code).isKept)
      .map((finding) => [finding.code, finding] as const),
  )('writes a comment that silences %s, and nothing else', (code, finding) => {
    const { season, findings } = computed(files);
    const edit = allowance(season.plan, finding.at, code, 'agreed with the crew');
    const after = computed(
      files.map(({ path, text }) => ({ path, text: path === edit.at.file ? applied(text, [edit]) : text })),
    );
    expect(after.findings.map(({ fingerprint }) => fingerprint)).toEqual(
      findings.map(({ fingerprint }) => fingerprint).filter((entry) => entry !== finding.fingerprint),
    );
  });

  it('goes above a line that has a comment already, as deep as the line and with its line ending', () => {
    const text = 'rooms:\r\n  R1: {} # the old one\r\n';
    const { season } = computed([{ path: 'p.lotplan.yaml', text }]);
    const start = text.indexOf('R1');
    const edit = allowance(
      season.plan,
      { file: 'p.lotplan.yaml', start, end: start + 2 },
      'unused-entry',
      'kept\nempty',
    );
    expect(applied(text, [edit])).toBe(
      'rooms:\r\n  # lotwright: allow unused-entry -- kept empty\r\n  R1: {} # the old one\r\n',
    );
  });
});
