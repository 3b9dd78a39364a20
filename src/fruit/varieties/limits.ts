import { one, type Printed } from '../printed';
import { commonPractice, remark, sources } from '../sources';
import { handbook66 } from './handbook-66';
import { CHILLING_SENSITIVE_ABOVE, holdingTemperatures } from './holding-temperatures';

const leastTemperatures: Readonly<Record<string, Printed>> = {
  Anjou: one(-1, '°C', sources.ucDavisWinterPears),
  Bartlett: one(-1, '°C', sources.chu),
  Bosc: one(-1, '°C', sources.ucDavisWinterPears),
  Delicious: one(-1, '°C', remark(sources.ucDavisApples, '0 ± 1 °C')),
  Gala: one(-1, '°C', remark(sources.ucDavisApples, '0 ± 1 °C')),
  'Golden Delicious': one(-1, '°C', remark(sources.ucDavisApples, '0 ± 1 °C')),
  'Granny Smith': one(0, '°C', remark(sources.ucDavisApples, '0.5 ± 0.5 °C')),
  Honeycrisp: one(37, '°F', remark(sources.wsuHoneycrisp, '37 to 39 °F after conditioning')),
};

const leastOxygens: Readonly<Record<string, Printed>> = {
  Anjou: one(1, '%', sources.ucDavisWinterPears),
  Bartlett: one(1, '%', sources.chu),
  Bosc: one(1.5, '%', remark(sources.oregonBosc, 'brown core below; northern districts')),
  Delicious: one(0.8, '%', remark(sources.deng, 'Starkrimson Delicious')),
  Empire: one(1.5, '%', sources.handbook66Apples),
  Gala: one(0.65, '%', remark(sources.deng, 'Gala')),
  'Golden Delicious': one(0.75, '%', remark(sources.deng, 'Golden Delicious')),
  Honeycrisp: one(1.5, '%', sources.michiganHoneycrisp),
  McIntosh: one(2, '%', remark(sources.maine, 'some varieties should stay at 2 % or above')),
  Spartan: one(1, '%', remark(sources.lau1990, '0.5 % injured it badly, 1.0 % was as good as 1.5 %')),
};

const mostCarbonDioxides: Readonly<Record<string, Printed>> = {
  Anjou: one(1, '%', sources.ucDavisWinterPears),
  Bartlett: one(1, '%', sources.chu),
  Bosc: one(0.5, '%', sources.oregonBosc),
  Braeburn: one(1, '%', commonPractice('Sensitive to carbon dioxide (Mattheis); held at or below 1 %')),
  "Cox's Orange Pippin": one(1, '%', remark(sources.niabCox, 'less than 1 %')),
  Delicious: one(4, '%', sources.ucDavisApples),
  Fuji: one(1, '%', remark(sources.argenta, '0.5 to 1 % or less; 3 % injures')),
  Gala: one(2.5, '%', sources.brazilGala),
  'Golden Delicious': one(3, '%', sources.ucDavisApples),
  'Granny Smith': one(1, '%', sources.ucDavisApples),
  Honeycrisp: one(1, '%', sources.wsuHoneycrisp),
};

const freezing: Readonly<Record<string, Printed>> = {
  'Granny Smith': one(-1.5, '°C', sources.ucDavisApples),
  Delicious: one(-1.7, '°C', sources.ucDavisApples),
  'Golden Delicious': one(-1.7, '°C', sources.ucDavisApples),
};

/** Below it the fruit is injured by cold. */
export function leastTemperature(name: string): Printed {
  return leastTemperatures[name] ?? leastTemperatureByReview(name);
}

/** Below it the fruit ferments. */
export function leastOxygen(name: string): Printed {
  return leastOxygens[name] ?? one(1, '%', remark(sources.maine, 'below 1 % fermentation is likely'));
}

const breakpoints: Readonly<Record<string, Printed>> = {
  Delicious: one(0.8, '%', remark(sources.deng, 'Starkrimson Delicious')),
  Gala: one(0.65, '%', remark(sources.deng, 'Gala')),
  'Golden Delicious': one(0.75, '%', remark(sources.deng, 'Golden Delicious')),
};

/** A variety of which nothing is measured. */
export const usualBreakpoint: Printed = one(
  0.8,
  '%',
  commonPractice(
    'Assumption: the highest of the three breakpoints that Deng and others 1997 measured (0.65 % Gala, 0.75 % Golden Delicious, 0.80 % Starkrimson Delicious); none is at hand for this variety',
  ),
);

/** At it the respiratory quotient is a tenth above its value in plenty of oxygen. */
export function oxygenBreakpoint(name: string): Printed {
  return breakpoints[name] ?? usualBreakpoint;
}

/** Above it the fruit is injured. */
export function mostCarbonDioxide(name: string): Printed {
  const row = handbook66[name];
  return (
    mostCarbonDioxides[name] ??
    (row && one(row.carbonDioxide[1], '%', sources.handbook66Apples)) ??
    one(2, '%', commonPractice('A cautious limit where no publication gives one for the variety'))
  );
}

export function freezesAt(name: string, fruit: 'apple' | 'pear'): Printed {
  if (fruit === 'pear') return one(-1.5, '°C', remark(sources.ucDavisWinterPears, '−1.5 to −2 °C'));
  return freezing[name] ?? one(-1.7, '°C', remark(sources.wflo, 'apples'));
}

function leastTemperatureByReview(name: string): Printed {
  const mean = holdingTemperatures[name]?.mean;
  if (mean === undefined || mean <= CHILLING_SENSITIVE_ABOVE) {
    const why = 'Not sensitive to chilling; a degree and more above freezing';
    return one(-0.5, '°C', commonPractice(mean === undefined ? 'A degree and more above freezing' : why));
  }
  return one(
    Math.round((mean - 1) * 100) / 100,
    '°C',
    commonPractice(
      `A degree below ${mean} °C, the mean of the recommendations in Prange and Wright 2023, Foods 12(3):466; the variety is sensitive to chilling`,
    ),
  );
}
