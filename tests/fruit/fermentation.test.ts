import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import {
  carbonDioxideAtRegime,
  ethanolMade,
  fermentationAtRegime,
  heatAtRegime,
  heatOfFermentation,
  quotientAtRegime,
  sugarFermented,
} from '../../src/fruit/fermentation';
import { respirationAtRegime } from '../../src/fruit/respiration';
import type { Variety } from '../../src/fruit/types';
import { ownVariety, planWith, present, written } from './plans';

const variety = (name: string, own: Parameters<typeof ownVariety>[1][] = []): Variety =>
  present(fruitData(planWith(own.map((values) => ownVariety(name, values)))).variety(name));
const at = (oxygen: number, celsius = 1) => ({
  temperature: written(celsius, 'degC'),
  oxygen: written(oxygen, '%'),
});

describe('fruit at low oxygen', () => {
  it('gives off a tenth more carbon dioxide for its oxygen at the breakpoint', () => {
    for (const name of ['Gala', 'Golden Delicious', 'Delicious', 'Fuji']) {
      const one = variety(name);
      const quotient = quotientAtRegime(one, at(one.oxygenBreakpoint.value)).value;
      expect(quotient / one.respiratoryQuotient.value, name).toBeCloseTo(1.1, 9);
    }
  });

  it('ferments all but nothing from one and a half times the breakpoint on, and is left as it was there', () => {
    const gala = variety('Gala');
    const edge = 1.5 * gala.oxygenBreakpoint.value;
    const below = at(edge - 1e-9);
    const share = present(fermentationAtRegime(gala, below)).value / respirationAtRegime(gala, below).value;
    expect(share).toBeLessThan(1 / 300);
    expect(fermentationAtRegime(gala, at(edge))).toBeUndefined();
    expect(carbonDioxideAtRegime(gala, at(1.5))).toEqual(respirationAtRegime(gala, at(1.5)));
    expect(quotientAtRegime(gala, at(1.5))).toBe(gala.respiratoryQuotient);
  });

  it('ferments the more the less oxygen there is, and never more than its greatest', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Gala', 'Fuji', 'Honeycrisp', 'Bartlett'),
        fc.double({ min: 0.01, max: 0.9, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (name, oxygen, share) => {
          const one = variety(name);
          const [more, less] = [oxygen, Math.max(0.01, oxygen * share)].map(
            (each) => quotientAtRegime(one, at(each)).value,
          );
          expect(less).toBeGreaterThanOrEqual((more ?? 0) * (1 - 1e-12));
          const made = fermentationAtRegime(one, at(oxygen))?.value ?? 0;
          expect(made).toBeLessThan(0.73 * respirationAtRegime(one, at(oxygen)).value);
        },
      ),
    );
  });

  it("follows the planner's own breakpoint, and an own least oxygen where none was measured", () => {
    expect(variety('Fuji').oxygenBreakpoint.value).toBe(0.8);
    expect(variety('Fuji', [{ oxygenBreakpoint: written(0.5, '%') }]).oxygenBreakpoint.value).toBe(0.5);
    expect(variety('Fuji', [{ leastOxygen: written(0.6, '%') }]).oxygenBreakpoint.value).toBe(0.6);
    expect(variety('Fuji', [{ leastOxygen: written(1.4, '%') }]).oxygenBreakpoint.value).toBe(0.8);
    expect(variety('Gala', [{ leastOxygen: written(0.4, '%') }]).oxygenBreakpoint.value).toBe(0.65);
  });
});

describe('fermentation', () => {
  it('keeps the carbon and the mass of its sugar', () => {
    // Sugar is 72.066 of carbon in 180.156, carbon dioxide 12.011 in 44.0095, ethanol 24.022 in 46.068.
    const carbon = 12.011 / 44.0095 + (ethanolMade.value * 24.022) / 46.068;
    expect((sugarFermented.value * 72.066) / 180.156 / carbon).toBeCloseTo(1, 5);
    expect(sugarFermented.value).toBeCloseTo(1 + ethanolMade.value, 4);
  });

  it('adds its little heat to that of respiration', () => {
    const gala = variety('Gala');
    const [respired, fermented] = [
      respirationAtRegime(gala, at(0.5)).value,
      present(fermentationAtRegime(gala, at(0.5))).value,
    ];
    const watts = (respired * 10.7 + (fermented * (2803 - 2 * 1367)) / 88.019) / 3.6;
    expect(heatAtRegime(gala, at(0.5)).value).toBeCloseTo(watts, 6);
    expect(heatAtRegime(gala, at(2)).value).toBeCloseTo(
      (respirationAtRegime(gala, at(2)).value * 10.7) / 3.6,
      9,
    );
  });

  it('warms the fruit a fourteenth as much as respiration for each milligram', () => {
    expect(10.7 / heatOfFermentation.value).toBeCloseTo(13.65, 1);
  });
});
