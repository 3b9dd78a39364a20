import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PublishDiagnosticsParams } from 'vscode-languageserver';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { isDiagnosticOf, toDiagnostic } from '../../src/server/lsp';
import { Publisher } from '../../src/server/publisher';
import { smallPlan } from '../edits/bases';

const URI = 'file:///plan/plan.lotplan.yaml';
const uriOf = () => URI;

/** What the editor shows after each text, and how often it was told, beside what it should show. */
function publishing() {
  const sent: PublishDiagnosticsParams[] = [];
  const publisher = new Publisher((params) => sent.push(params));
  const cache = emptyPlanCache();
  const again = new SeasonAgain({ byField: true });
  const publish = (files: ReturnType<typeof smallPlan>) => {
    const plan = readPlan(files, cache);
    const season = again.compute(plan, { release: undefined, courses: undefined });
    const findings = again.findings(season, {});
    publisher.publish(
      URI,
      { findings, files: plan.files, addresses: sent },
      {
        make: (finding) => toDiagnostic(plan, finding, uriOf),
        isOf: (diagnostic, finding) => isDiagnosticOf(plan, diagnostic, finding, uriOf),
      },
      1,
    );
    return findings.map((finding) => toDiagnostic(plan, finding, uriOf));
  };
  return { sent, publisher, publish };
}

const edits = fc.array(
  fc.record({
    at: fc.double({ min: 0, max: 0.999, noNaN: true }),
    text: fc.constantFrom('\n', ' ', '7', 'x', '# a\n', ''),
    length: fc.constantFrom(0, 1, 1),
  }),
  { minLength: 1, maxLength: 8 },
);

type Edit = { readonly at: number; readonly text: string; readonly length: number };

/** After each edit the editor shows what the findings say, and was told of it only where it showed something else. */
function follow(changes: readonly Edit[]): void {
  const { sent, publish } = publishing();
  let files = smallPlan('orchard');
  let shown = '[]';
  for (const { at, text, length } of [{ at: 0, text: '', length: 0 }, ...changes]) {
    files = files.map((file, index) => {
      if (index > 0) return file;
      const from = Math.floor(at * file.text.length);
      return { ...file, text: file.text.slice(0, from) + text + file.text.slice(from + length) };
    });
    const before = sent.length;
    const now = JSON.stringify(publish(files));
    expect(sent.length - before).toBe(now === shown ? 0 : 1);
    shown = now;
    expect(JSON.stringify(sent.at(-1)?.diagnostics ?? [])).toBe(now);
  }
}

describe('what is published of a file', () => {
  it('is what its findings say now, and is sent when it differs', () => {
    fc.assert(fc.property(edits, follow), { numRuns: 40 });
  });

  it('is taken back once for a file that is in no plan any more', () => {
    const { sent, publisher, publish } = publishing();
    const files = smallPlan('orchard').map((file) => ({ ...file, text: `${file.text}\nunknown-key: 1\n` }));
    publish(files);
    expect(sent).toHaveLength(1);
    publisher.keepOnly(new Set([URI]));
    expect(sent).toHaveLength(1);
    publisher.keepOnly(new Set());
    publisher.keepOnly(new Set());
    expect(sent.slice(1)).toEqual([{ uri: URI, diagnostics: [] }]);
  });
});
