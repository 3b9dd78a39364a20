import { describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { applyEdits } from '../../src/plan/edits';
import { layoutEdits } from '../../src/plan/layout/lay-out';
import { completionAt } from '../../src/server/services/completion';
import { foldingOf } from '../../src/server/services/folding';
import { hoverAt } from '../../src/server/services/hover';
import { outlineOf } from '../../src/server/services/outline';
import { renameableAt, renamedAt } from '../../src/server/services/rename';
import { selectionAt } from '../../src/server/services/selection';
import { ODD_TEXTS } from './odd-texts';
import { computed } from './plans';

const FILE = 'odd.lotplan.yaml';

/** Letters that mean something: layout may only change blanks and the comma before a closing bracket. */
function letters(text: string): string {
  return text.replace(/[\s,]/g, '');
}

describe('texts that nobody should write', () => {
  it.each(ODD_TEXTS)('$what: told at its place, and all that is asked is answered', ({ text, told }) => {
    const { season, findings } = computed([{ path: FILE, text }]);
    const { plan } = season;
    const codes = findings.map(({ code }) => code);
    if (told !== undefined) expect(codes).toContain(told);
    for (const { at, message, fixes } of findings) {
      expect(message).not.toMatch(/undefined|NaN|\[object/);
      expect(message.length).toBeLessThan(900);
      for (const { start, end } of [at, ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.at))])
        expect(0 <= start && start <= end && end <= text.length).toBe(true);
    }
    for (let offset = 0; offset <= text.length; offset += text.length > 800 ? 37 : 3) {
      const point = { file: FILE, offset };
      hoverAt(season, point, plan);
      completionAt(plan, point, season);
      for (const { start, end } of selectionAt(plan, point))
        expect(start <= offset && offset <= end).toBe(true);
      const name = renameableAt(plan, point);
      if ('refused' in name) continue;
      const edits = renamedAt(plan, point, 'Other');
      if ('refused' in edits) continue;
      const after = applyEdits(text, edits);
      // Nothing but the name has gone, wherever it stands.
      expect(letters(after.replaceAll('Other', ''))).toBe(
        letters(
          applyEdits(
            text,
            edits.map(({ at }) => ({ at, newText: '' })),
          ),
        ),
      );
    }
    expect(() => [outlineOf(plan, FILE), foldingOf(plan.files.get(FILE) as never)]).not.toThrow();
  });

  it.each(ODD_TEXTS)('$what: its layout changes blanks only, and nothing twice', ({ text }) => {
    const edits = layoutEdits(text).map(({ start, end, newText }) => ({
      at: { file: FILE, start, end },
      newText,
    }));
    const laid = applyEdits(text, edits);
    expect(letters(laid)).toBe(letters(text));
    expect(layoutEdits(laid)).toEqual([]);
    if (edits.length > 0) expect(parseDocument(laid).toJS()).toEqual(parseDocument(text).toJS());
  });
});
