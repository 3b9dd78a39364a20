import { usualDensity } from '../fruit/varieties/bulk';
import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { BinType } from '../plan/model';
import { polyethylene, woodSource } from './sources';

const binMaterialDensity = {
  wood: referenceFigure('density of bin wood', 'kg/m3', 500, woodSource),
  plastic: referenceFigure('density of bin plastic', 'kg/m3', 950, polyethylene),
};

/** What the planner measured, in place of the bins' mass over their density, and beside it. */
export interface MeasuredVolumes {
  /** Of the fruit itself. */
  readonly fruitDensity?: Figure<'kg/m3'> | undefined;
  /** Material of one bin. */
  readonly solidVolume?: Figure<'m3'> | undefined;
  readonly equipmentVolume?: Figure<'m3'> | undefined;
}

/** Gas in a filled room: the room less the fruit itself, the bins' material and the equipment. */
export function freeGasVolume(
  roomVolume: Figure<'m3'>,
  fruit: Figure<'t'>,
  bins: Figure<'bins'>,
  tare: Figure<'kg'>,
  material: NonNullable<BinType['material']>,
  { fruitDensity = usualDensity, solidVolume, equipmentVolume }: MeasuredVolumes = {},
): Figure<'m3'> {
  const ofBins: { readonly formula: string; readonly inputs: Readonly<Record<string, Figure>> } = solidVolume
    ? { formula: 'bins * solidVolume', inputs: { solidVolume } }
    : {
        formula: 'bins * tare / materialDensity',
        inputs: { tare, materialDensity: binMaterialDensity[material] },
      };
  const inBins = solidVolume
    ? bins.value * solidVolume.value
    : (bins.value * tare.value) / binMaterialDensity[material].value;
  const rest = equipmentVolume ? ' - equipmentVolume' : '';
  return compute(
    'free gas volume',
    'm3',
    `max(0, roomVolume - fruit * 1000 / fruitDensity - ${ofBins.formula}${rest})`,
    {
      roomVolume,
      fruit,
      fruitDensity,
      bins,
      ...ofBins.inputs,
      ...(equipmentVolume ? { equipmentVolume } : {}),
    },
    (v) =>
      Math.max(0, v.roomVolume - (v.fruit * 1000) / v.fruitDensity - inBins - (equipmentVolume?.value ?? 0)),
  );
}

/** Carbon dioxide that fruit gives off in a day at a respiration rate. */
export function carbonDioxideOf(
  name: string,
  fruit: Figure<'kg'>,
  rate: Figure<'mg/kg/h'>,
): Figure<'kg/day'> {
  return compute(
    name,
    'kg/day',
    'fruit * rate * 24 / 1000000',
    { fruit, rate },
    (v) => (v.fruit * v.rate * 24) / 1_000_000,
  );
}

/** Oxygen used for the carbon dioxide given off: volume of CO2 over the respiratory quotient. */
export function oxygenUseOf(
  carbonDioxide: Figure<'kg/day'>,
  respiratoryQuotient: Figure<'1'>,
  density: Figure<'mg/mL'>,
): Figure<'m3/h'> {
  return compute(
    'oxygen the fruit uses',
    'm3/h',
    'carbonDioxide / 24 / respiratoryQuotient / density',
    { carbonDioxide, respiratoryQuotient, density },
    (v) => v.carbonDioxide / 24 / v.respiratoryQuotient / v.density,
  );
}

/** Hours in which the fruit itself brings oxygen from one level to another: Vg * (from - to) / 100 over its use. */
export function respirationHours(
  volume: Figure<'m3'>,
  oxygenFrom: Figure<'%'>,
  oxygenTo: Figure<'%'>,
  oxygenUse: Figure<'m3/h'>,
): Figure<'h'> {
  return compute(
    'hours the fruit takes for the rest',
    'h',
    'max(0, volume * (oxygenFrom - oxygenTo) / 100 / oxygenUse)',
    { volume, oxygenFrom, oxygenTo, oxygenUse },
    (v) => Math.max(0, (v.volume * (v.oxygenFrom - v.oxygenTo)) / 100 / v.oxygenUse),
  );
}
