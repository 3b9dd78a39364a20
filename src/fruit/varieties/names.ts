import type { RespirationTable } from './respiration-tables';
import * as tables from './respiration-tables';

/** When a variety ripens; it decides what stands in where no source gives a value for the variety itself. */
export type Ripens = 'early' | 'mid-season' | 'late';

export interface VarietyName {
  readonly name: string;
  readonly fruit: 'apple' | 'pear';
  readonly ripens: Ripens;
  /** The short name its regimes begin with. */
  readonly regimeName: string;
  /** Other names that growers and markets use, protected ones included. */
  readonly aliases: readonly string[];
  readonly respiration: RespirationTable;
}

const late = (name: string, ...aliases: string[]) => apple(name, 'late', tables.fallVarieties, aliases);
const midSeason = (name: string, ...aliases: string[]) =>
  apple(name, 'mid-season', tables.averageOfMany, aliases);

/** Every built-in variety. */
export const varietyNames: readonly VarietyName[] = [
  late('Ambrosia'),
  late('Belle de Boskoop', 'Boskoop', 'Schone van Boskoop'),
  late('Braeburn'),
  { ...late("Bramley's Seedling", 'Bramley'), regimeName: 'bramley' },
  late('Cameo'),
  midSeason('Cortland'),
  { ...midSeason("Cox's Orange Pippin", 'Cox', 'Coxs Orange Pippin'), regimeName: 'cox' },
  late('Cripps Pink', 'Pink Lady'),
  late('Cripps Red', 'Sundowner'),
  { ...late('Delicious', 'Red Delicious', 'Starkrimson', 'Starking'), respiration: tables.delicious },
  midSeason('Elstar'),
  late('Empire'),
  late('Fuji'),
  midSeason('Gala', 'Royal Gala'),
  late('Gloster', 'Gloster 69'),
  { ...late('Golden Delicious', 'Golden', 'Goldens'), respiration: tables.goldenDelicious },
  late('GoldRush', 'Gold Rush'),
  late('Granny Smith', 'Granny'),
  midSeason('Honeycrisp', 'Honeycrunch', 'Honey Crisp'),
  late('Idared', 'Ida Red'),
  midSeason('Jonagold'),
  { ...midSeason('Jonathan'), respiration: tables.jonathan },
  late('Ladina'),
  late('Lady Williams'),
  late('Ligol'),
  midSeason('Lobo'),
  { ...midSeason('McIntosh', 'Mac', 'Red McIntosh'), respiration: tables.mcintosh },
  late('Mutsu', 'Crispin'),
  late('Nicoter', 'Kanzi'),
  late('Northern Spy'),
  apple('Paulared', 'early', tables.summerVarieties, ['Paula Red']),
  late('Pinova', 'Pinata', 'Corail'),
  late('Rome', 'Rome Beauty', 'Red Rome'),
  midSeason('Rubens', 'Civni'),
  late('Scifresh', 'Jazz'),
  late('Scilate', 'Envy'),
  midSeason('Shampion', 'Champion', 'Sampion'),
  midSeason('Spartan'),
  late('Stayman', 'Stayman Winesap'),
  late('Topaz'),
  late('Winesap'),
  pear('Anjou', tables.winterPears, ["d'Anjou", 'Beurre d Anjou', "Beurre d'Anjou"]),
  pear('Bartlett', tables.bartlett, ['Williams', 'Williams Bon Chretien', 'Bon Chretien']),
  pear('Bosc', tables.winterPears, ['Beurre Bosc', 'Kaiser']),
];

function apple(
  name: string,
  ripens: Ripens,
  respiration: RespirationTable,
  aliases: readonly string[],
): VarietyName {
  return { name, fruit: 'apple', ripens, regimeName: kebab(name), aliases, respiration };
}

function pear(name: string, respiration: RespirationTable, aliases: readonly string[]): VarietyName {
  return { name, fruit: 'pear', ripens: 'late', regimeName: kebab(name), aliases, respiration };
}

function kebab(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]+/g, '-');
}
