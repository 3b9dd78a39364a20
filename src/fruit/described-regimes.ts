import { between, one } from './printed';
import { fromHandbook, fromHandbookInAir, meanTemperature, type RegimeRow } from './regime-row';
import { commonPractice, remark, sources } from './sources';
import { coxSoftening, coxSofteningAtFivePercent, coxSofteningAtTwoPercent } from './varieties/firmness';

const COX = "Cox's Orange Pippin";

/** Regimes that a publication describes for a variety, the usual one first. */
export const describedRegimes: readonly RegimeRow[] = [
  {
    name: 'gala-standard',
    varieties: ['Gala'],
    temperature: meanTemperature('Gala'),
    oxygen: between(1.5, 2, '%', sources.ucDavisApples),
    carbonDioxide: between(1, 2, '%', sources.ucDavisApples),
    storageLife: between(4, 5, 'months', sources.ucDavisApples),
  },
  {
    name: 'gala-low-oxygen',
    varieties: ['Gala'],
    temperature: between(0.5, 1, '°C', sources.brazilGala),
    oxygen: between(1, 1.2, '%', sources.brazilGala),
    carbonDioxide: between(2, 2.5, '%', sources.brazilGala),
    storageLife: one(7, 'months', remark(sources.brazilGala, 'up to')),
  },
  {
    name: 'gala-new-york',
    varieties: ['Gala'],
    temperature: one(38, '°F', sources.cornellGala),
    oxygen: one(2, '%', sources.cornellGala),
    carbonDioxide: one(1, '%', sources.cornellGala),
    storageLife: one(
      4,
      'months',
      remark(sources.cornellGala, 'at most, without a growth regulator before harvest'),
    ),
  },
  {
    name: 'gala-dynamic',
    varieties: ['Gala'],
    temperature: one(38, '°F', sources.cornellGala),
    oxygen: one(
      0.5,
      '%',
      remark(sources.cornellGala, 'dynamic CA; the 2024 page prints 5 %, a lost decimal'),
    ),
    carbonDioxide: between(0.5, 2, '%', sources.cornellGala),
    storageLife: one(
      7,
      'months',
      commonPractice(
        'Taken as in low oxygen (Royal Gala, Scientia Agricola 2015); the New York pages give no length',
      ),
    ),
  },
  fromHandbook('gala-handbook', 'Gala'),
  {
    name: 'golden-delicious-standard',
    varieties: ['Golden Delicious'],
    temperature: one(0, '°C', sources.ucDavisApples),
    oxygen: between(1, 3, '%', sources.ucDavisApples),
    carbonDioxide: between(1.5, 3, '%', sources.ucDavisApples),
    storageLife: one(10, 'months', sources.ucDavisApples),
  },
  fromHandbook('golden-delicious-handbook', 'Golden Delicious'),
  {
    name: 'delicious-standard',
    varieties: ['Delicious'],
    temperature: one(0, '°C', sources.ucDavisApples),
    oxygen: between(1, 2, '%', sources.ucDavisApples),
    carbonDioxide: between(2, 4, '%', sources.ucDavisApples),
    storageLife: one(10, 'months', sources.ucDavisApples),
  },
  fromHandbook('delicious-handbook', 'Delicious'),
  {
    name: 'delicious-golden-shared',
    varieties: ['Delicious', 'Golden Delicious'],
    temperature: between(0, 0.5, '°C', sources.lau1983),
    oxygen: between(1, 1.5, '%', sources.lau1983),
    carbonDioxide: between(1, 1.9, '%', sources.lau1983),
    storageLife: between(6, 10, 'months', sources.lau1983),
  },
  {
    name: 'granny-smith-standard',
    varieties: ['Granny Smith'],
    temperature: one(0.5, '°C', sources.ucDavisApples),
    oxygen: one(1.5, '%', sources.ucDavisApples),
    carbonDioxide: one(1, '%', sources.ucDavisApples),
  },
  {
    name: 'honeycrisp-conditioned',
    varieties: ['Honeycrisp'],
    temperature: between(37, 39, '°F', sources.wsuHoneycrisp),
    oxygen: between(2, 4, '%', sources.wsuHoneycrisp),
    carbonDioxide: between(0.5, 1, '%', sources.wsuHoneycrisp),
    conditioning: {
      temperature: one(50, '°F', sources.wsuHoneycrisp),
      lasts: one(7, 'days', sources.wsuHoneycrisp),
    },
  },
  {
    name: 'honeycrisp-new-york',
    varieties: ['Honeycrisp'],
    temperature: one(38, '°F', sources.cornellHoneycrisp),
    oxygen: between(2, 3, '%', sources.cornellHoneycrisp),
    carbonDioxide: one(0.5, '%', remark(sources.cornellHoneycrisp, 'below 1 %, best about 0.5 %')),
    conditioning: {
      temperature: one(50, '°F', sources.cornellHoneycrisp),
      lasts: one(7, 'days', sources.cornellHoneycrisp),
    },
  },
  {
    name: 'honeycrisp-unconditioned',
    varieties: ['Honeycrisp'],
    temperature: one(
      38,
      '°F',
      remark(sources.cornellHoneycrisp, 'no conditioning where bitter pit threatens'),
    ),
    oxygen: between(2, 3, '%', sources.cornellHoneycrisp),
    carbonDioxide: one(0.5, '%', remark(sources.cornellHoneycrisp, 'after a month at 38 °F in air')),
  },
  {
    name: 'honeycrisp-michigan',
    varieties: ['Honeycrisp'],
    temperature: one(38, '°F', sources.michiganHoneycrisp),
    oxygen: between(1.5, 3, '%', sources.michiganHoneycrisp),
    carbonDioxide: one(1, '%', remark(sources.michiganHoneycrisp, 'in the first month')),
    conditioning: {
      temperature: one(50, '°F', sources.michiganHoneycrisp),
      lasts: one(7, 'days', remark(sources.michiganHoneycrisp, '5 days, 2 more before CA')),
    },
  },
  {
    name: 'jonagold-standard',
    varieties: ['Jonagold'],
    temperature: between(0, 1, '°C', sources.drakeKupferman),
    oxygen: one(1, '%', sources.drakeKupferman),
    carbonDioxide: one(1, '%', sources.drakeKupferman),
    storageLife: one(120, 'days', remark(sources.drakeKupferman, 'at starch 2')),
  },
  fromHandbook('jonagold-handbook', 'Jonagold'),
  {
    name: 'fuji-standard',
    varieties: ['Fuji'],
    temperature: one(0, '°C', sources.argenta),
    oxygen: one(1.5, '%', sources.argenta),
    carbonDioxide: one(0.5, '%', remark(sources.argenta, 'below 0.5 to 1 %')),
    storageLife: one(8, 'months', sources.argenta),
  },
  fromHandbook('fuji-handbook', 'Fuji'),
  {
    name: 'cox-standard',
    varieties: [COX],
    temperature: one(3.5, '°C', sources.niabCox),
    oxygen: one(1.2, '%', sources.niabCox),
    carbonDioxide: one(1, '%', remark(sources.niabCox, 'below 1 %')),
    softening: coxSoftening,
  },
  {
    name: 'cox-two-percent-oxygen',
    varieties: [COX],
    temperature: one(3.5, '°C', sources.niabSoftening),
    oxygen: one(2, '%', sources.niabSoftening),
    carbonDioxide: one(1, '%', remark(sources.niabSoftening, 'below 1 %')),
    softening: coxSofteningAtTwoPercent,
  },
  {
    name: 'cox-five-percent-carbon-dioxide',
    varieties: [COX],
    temperature: one(3.5, '°C', sources.niabSoftening),
    oxygen: one(3, '%', sources.niabSoftening),
    carbonDioxide: one(5, '%', sources.niabSoftening),
    softening: coxSofteningAtFivePercent,
  },
  {
    name: 'bartlett-standard',
    varieties: ['Bartlett'],
    temperature: one(-1, '°C', sources.chu),
    oxygen: one(2.5, '%', sources.chu),
    carbonDioxide: one(1, '%', sources.chu),
    storageLife: one(4, 'months', sources.chu),
  },
  {
    name: 'bartlett-low-oxygen',
    varieties: ['Bartlett'],
    temperature: one(-1, '°C', sources.chu),
    oxygen: one(1, '%', sources.chu),
    carbonDioxide: one(0.2, '%', sources.chu),
    storageLife: one(4, 'months', sources.chu),
  },
  {
    name: 'anjou-standard',
    varieties: ['Anjou'],
    temperature: between(-1, 0, '°C', sources.ucDavisWinterPears),
    oxygen: between(1, 2, '%', sources.ucDavisWinterPears),
    carbonDioxide: between(0, 1, '%', sources.ucDavisWinterPears),
  },
  {
    name: 'bosc-standard',
    varieties: ['Bosc'],
    temperature: one(-1, '°C', sources.oregonBosc),
    oxygen: one(1.5, '%', remark(sources.oregonBosc, 'northern districts; 1 % in the south')),
    carbonDioxide: one(0.5, '%', remark(sources.oregonBosc, 'trace to 0.5 %')),
    storageLife: one(6, 'months', sources.oregonBosc),
  },
];

/** Lives in cold air that another source gives than the one a variety's usual air regime rests on. */
export const otherAirRegimes: readonly RegimeRow[] = [
  {
    name: 'delicious-california-air',
    varieties: ['Delicious'],
    temperature: one(0, '°C', sources.ucDavisApples),
    storageLife: one(6, 'months', sources.ucDavisApples),
  },
  fromHandbookInAir('delicious-handbook-air', 'Delicious'),
  fromHandbookInAir('golden-delicious-handbook-air', 'Golden Delicious'),
  fromHandbookInAir('jonagold-handbook-air', 'Jonagold'),
  fromHandbookInAir('mcintosh-handbook-air', 'McIntosh'),
];
