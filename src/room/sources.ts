import type { Source } from '../plan/figure';

/** The publications behind the room calculations. `published` was read; `from memory` was not. */

function published(citation: string): Source {
  return { citation, known: 'published' };
}

function fromMemory(citation: string): Source {
  return { citation, known: 'from memory' };
}

export function commonPractice(citation: string): Source {
  return { citation, known: 'common practice' };
}

export const handbook66HeatLoad = published(
  'USDA Agriculture Handbook 66, chapter "Heat Load Calculation", read in a copy at https://www.scribd.com/doc/259945372',
);
export const commodityManual = published(
  'World Food Logistics Organization, Commodity Storage Manual, Apples, 2008, https://www.scribd.com/document/579136178',
);
export const rapidCooling = published(
  'AHDB Apple Best Practice Guide, post-harvest section 7, https://apples.ahdb.org.uk/post-harvest-section7-link7.asp',
);
export const purgeDilution = published(
  'SIGTTO/IGC purging by dilution (perfect mixing), https://staging.shipcalculators.com/docs/formulas/lng-purge-dilution',
);
export const lowOxygenWork = published(
  'OSHA letter of interpretation of 2 April 2007 on 29 CFR 1910.134(d)(2)(iii), https://www.osha.gov/laws-regs/standardinterpretations/2007-04-02-0',
);
export const carbonDioxideLimit = fromMemory(
  'OSHA permissible exposure limit for carbon dioxide, 5,000 ppm over 8 h; seen only as others quote it, not in the rule itself',
);
export const buck = published(
  'Buck, A. L., saturation vapour pressure over water, 1996 form of the 1981 equation, https://en.wikipedia.org/wiki/Arden_Buck_equation',
);
export const moistAir = published(
  'Moist air as an ideal mixture: w = 0.622 p / (P - p), h = 1.005 t + w (2501 + 1.88 t), http://www.herramientasingenieria.com/onlinecalc/AirEnthalpy/AirEnthalpy.html and http://www.personal.psu.edu/dhj1/classes/thermo/hvac.html',
);
export const humidStores = published(
  'Umidade relativa na câmara frigorífica: air to coil at most 5 K, relative humidity 90 to 96 %, 4.5 L of water to a wooden bin in its first weeks, https://friomilia.com.br/umidade-relativa-na-camara-frigorifica',
);
export const physicalConstants = published(
  'Ideal gas at the standard atmosphere of 101,325 Pa; gas constant 8.314462618 J/(mol K) (CODATA 2018); molar masses by IUPAC',
);
export const polyethylene = published(
  'Thermal properties of polymers, PE-HD: 0.94 to 0.96 g/cm3, https://polymers.netzsch.com/Materials/Details/8',
);
export const transpirationTable = fromMemory(
  'ASHRAE Handbook Refrigeration, "Thermal properties of foods", Table 10 (Sastry and others): apples average 42, range 16 to 100',
);
export const woodSource = fromMemory('Softwood at storage moisture 450 to 550 kg/m3 (general timber tables)');
export const plasticHeatSource = fromMemory(
  'High-density polyethylene, about 1.9 kJ/kgK (general polymer tables)',
);
export const serviceLeakSource = fromMemory(
  'Planning assumption: mean pressure difference of 10 Pa across a room in service, from wind, fans and cooler cycles; the rise of oxygen with the scrubber at rest is the better figure',
);
export const weatherSource = fromMemory(
  'Planning assumption: the barometer rises by about 0.5 kPa in all on a mean day of a temperate winter',
);
export const fanSource = fromMemory(
  'Planning assumption: fans of a cooler work against about 200 Pa at an efficiency of about 50 %',
);
export const limeByTheBushel = published(
  'Bartsch, Cornell: half a pound of hydrated lime per bushel (42 lb) for three months, https://tr.scribd.com/document/409280233',
);
export const limeByTheTonne = published(
  'Koelet 1992 in Thompson 2010, p. 32: 7.5 kg/t every 6 to 10 weeks, https://www.yumpu.com/en/document/view/43259624',
);
export const outsideHumiditySource = fromMemory(
  'Planning assumption: outside air in the harvest weeks at 60 % relative humidity',
);
