import { describe, expect, it } from 'vitest';
import { shown } from '../../src/server/services/consequences-text';
import { hoverAt } from '../../src/server/services/hover';
import { plainText } from '../../src/server/services/plain-text';
import { computed, samplePlan } from './plans';

describe('a hover as plain text', () => {
  it('has the words and the lines of the Markdown and none of its marks', () => {
    const hover = [
      '*Sealed rooms kill.*',
      '**R\\_2** holds 18 t.  ',
      'Firmest lot: *G1*',
      '- `CO2` mass  \n  = `fruit * 0.5 / 2`',
    ].join('\n\n---\n\n');
    expect(plainText(hover)).toBe(
      ['Sealed rooms kill.', 'R_2 holds 18 t.', 'Firmest lot: G1', '- CO2 mass\n  = fruit * 0.5 / 2'].join(
        '\n\n',
      ),
    );
    expect(plainText('from [fruit.lotplan.yaml:3](file:///farm/fruit.lotplan.yaml)')).toBe(
      'from fruit.lotplan.yaml:3',
    );
    expect(plainText('2 * 3 and ``a ` b``')).toBe('2 * 3 and a ` b');
  });

  it.each(['a * b', '*', 'x_y <z> [1] #2 | 3', '\\', 'C:\\*.csv', '**', 'see https://orchard.example/a_b'])(
    'gives a text of the plan back as it stands there: %s',
    (text) => {
      expect(plainText(shown(text))).toBe(text);
    },
  );

  it('leaves no mark in any hover of a plan', () => {
    const files = samplePlan('in-march');
    const { season } = computed(files);
    let hovers = 0;
    for (const { path: file, text } of files)
      for (const { index, 0: word } of text.matchAll(/[\w-]+/g)) {
        const hover = hoverAt(season, { file, offset: index + Math.floor(word.length / 2) });
        if (!hover) continue;
        hovers += 1;
        const plain = plainText(hover.markdown);
        // A sum in a formula has its stars; nothing else has.
        expect(plain.replace(/ \* /g, ' '), word).not.toMatch(/[\\*`]|^---$/m);
      }
    expect(hovers).toBeGreaterThan(500);
  });
});
