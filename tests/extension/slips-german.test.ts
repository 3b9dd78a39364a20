import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { wholeFindings } from '../../extension/finding-translator';
import { readPlan } from '../../src/plan/read';
import { root } from '../cli/in-process';
import { SLIPS } from '../plan/slips';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);
const german = wholeFindings(bundle, 'de');

describe('what is told of slips within a line, in German', () => {
  it.each(SLIPS)('is told in full: $what', ({ plan, written, typed }) => {
    const text = `lotwright: 1\n${plan.replace(written, () => typed)}`;
    const { problems } = readPlan([{ path: 'a.lotplan.yaml', text }]);
    expect(problems.length).toBeGreaterThan(0);
    for (const { code, message, fixes = [] } of problems)
      for (const said of [message, ...fixes.map(({ title }) => title)])
        expect(german(code, said), said).toBeDefined();
  });

  it('has spaces that are none by their names, and places counted', () => {
    const text = 'lots:\n  L1:\n    bins:\u00a050\n    block:\u00a0north\n';
    const [told] = readPlan([{ path: 'a.lotplan.yaml', text }]).problems.filter(
      ({ code }) => code === 'yaml-syntax',
    );
    expect(german('yaml-syntax', told?.message ?? '')).toBe(
      'Das sieht wie ein Leerzeichen aus, ist aber ein geschütztes Leerzeichen (U+00A0) (2 solche Stellen in dieser Datei), für YAML ein Buchstabe. An seiner Stelle ein Leerzeichen schreiben.',
    );
  });
});
