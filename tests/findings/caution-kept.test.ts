import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { checkLines, checkReport, checkText } from '../../src/report/check-report';
import { caution, cautionInShort } from '../../src/room/caution';
import { sampleFiles } from '../samples/sample';

/** The first season, of which one room is pinned too late, with some of its text written otherwise. */
function season(...changes: readonly (readonly [was: string, now: string])[]) {
  const files = sampleFiles('first-season').map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [was, now]) => all.replace(was, now), text),
  }));
  return computeSeason(readPlan(files));
}

const PIN = 'open: 2027-W01';

describe('the caution before a room is opened', () => {
  test('stays on whatever the policy says, and the line that would turn it off is told', () => {
    const found = findingsOf(
      season(['\npolicy:\n', '\npolicy:\n  findings: { caution-before-opening: off }\n']),
    );
    expect(found.map(({ code }) => code)).toContain('caution-before-opening');
    expect(found.find(({ code }) => code === 'allowance-unused')?.message).toBe(
      '`caution-before-opening` is a caution and stays on: this line changes nothing. Take it out.',
    );
  });

  test('stays on beside a comment that would allow it, and under a setting of the editor', () => {
    const commented = season([PIN, `${PIN} # lotwright: allow caution-before-opening -- the crew knows`]);
    const off = { severities: new Map([['caution-before-opening', 'off' as const]]) };
    const found = findingsOf(commented, off);
    expect(found.map(({ code }) => code)).toContain('caution-before-opening');
    expect(found.find(({ code }) => code === 'allowance-unused')?.fixes.map(({ title }) => title)).toEqual([
      'Remove the comment',
    ]);
  });

  test('may be made graver', () => {
    const found = findingsOf(
      season(['\npolicy:\n', '\npolicy:\n  findings: { caution-before-opening: warning }\n']),
    );
    expect(found.find(({ code }) => code === 'caution-before-opening')?.severity).toBe('warning');
  });

  test('stands once in a check for people, in full and before all else, and in each finding for programs', () => {
    const late = season([PIN, 'open: 2027-W30']);
    const found = findingsOf(late);
    const report = checkReport(late, found, { units: 'metric', failOn: 'error' });
    const text = checkText(report, late.plan.files).replace(/\s+/g, ' ');
    expect(text.indexOf(caution)).toBe(0);
    expect(text.split('Sealed rooms kill').length - 1).toBe(1);
    expect(text).toContain('or take it out. The caution above comes first.');
    expect(report.findings.find(({ code }) => code === 'pin-outside-window')?.message).toContain(
      cautionInShort,
    );
    expect(checkLines(report).split(/Sealed rooms kill/).length - 1).toBeGreaterThan(1);
  });

  test('is not told where nothing speaks of opening', () => {
    const empty = computeSeason(
      readPlan([{ path: 'a.lotplan.yaml', text: 'lotwright: 1\nseason: { starts: 2026-13-01 }\n' }]),
    );
    const report = checkReport(empty, findingsOf(empty), { units: 'metric', failOn: 'error' });
    expect(checkText(report, empty.plan.files)).not.toContain('Sealed rooms kill');
  });
});
