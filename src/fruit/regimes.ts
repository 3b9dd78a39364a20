import { describedRegimes, otherAirRegimes } from './described-regimes';
import { daysRange, expected, one } from './printed';
import { fromHandbook, meanTemperature, type RegimeRow } from './regime-row';
import { remembered } from './remembered';
import { commonPractice } from './sources';
import type { Regime } from './types';
import { handbook66 } from './varieties/handbook-66';
import { type VarietyName, varietyNames } from './varieties/names';
import { lifeInAir } from './varieties/storage-lives';

const usualHumidity = one(
  93,
  '%',
  commonPractice('Middle of the usual 90 to 96 % of cold stores for apples and pears'),
);

/** Every built-in regime as it is printed. Names are made of the variety and what sets the regime apart. */
export const builtInRegimeRows: readonly RegimeRow[] = [
  ...describedRegimes,
  ...varietyNames.filter((variety) => !isDescribed(variety)).map(standard),
  ...varietyNames.map(inAir),
  ...otherAirRegimes,
];

const rows: ReadonlyMap<string, RegimeRow> = new Map(builtInRegimeRows.map((row) => [row.name, row]));

/** The built-in regime of a name. A plan has few of them, so each is made when it is asked for. */
export const builtInRegime = remembered((name): Regime | undefined => {
  const row = rows.get(name);
  return row && regimeOf(row);
});

function isDescribed({ name }: VarietyName): boolean {
  return describedRegimes.some(({ varieties }) => varieties[0] === name);
}

function standard({ name, regimeName }: VarietyName): RegimeRow {
  if (handbook66[name])
    return { ...fromHandbook(`${regimeName}-standard`, name), temperature: meanTemperature(name) };
  const cautious = commonPractice('A cautious atmosphere where no publication gives one for the variety');
  return {
    name: `${regimeName}-standard`,
    varieties: [name],
    temperature: meanTemperature(name),
    oxygen: one(2, '%', cautious),
    carbonDioxide: one(1, '%', cautious),
  };
}

function inAir({ name, regimeName, ripens }: VarietyName): RegimeRow {
  return {
    name: `${regimeName}-air`,
    varieties: [name],
    temperature: meanTemperature(name),
    storageLife: lifeInAir(name, ripens),
  };
}

function regimeOf(row: RegimeRow): Regime {
  const { oxygen, carbonDioxide, storageLife, softening, conditioning } = row;
  const range = storageLife && daysRange('storage life', storageLife);
  return {
    name: row.name,
    varieties: row.varieties,
    temperature: expected('holding temperature', 'degC', row.temperature),
    humidity: expected('relative humidity', '%', usualHumidity),
    ...(oxygen && { oxygen: expected('oxygen', '%', oxygen) }),
    ...(carbonDioxide && { carbonDioxide: expected('carbon dioxide', '%', carbonDioxide) }),
    ...(storageLife && { storageLife: expected('storage life', 'days', storageLife) }),
    ...(range && { storageLifeRange: range }),
    ...(softening && { softening: expected('firmness lost a month', 'N/month', softening) }),
    ...(conditioning && {
      conditioning: {
        temperature: expected('conditioning temperature', 'degC', conditioning.temperature),
        lasts: expected('conditioning', 'days', conditioning.lasts),
      },
    }),
  };
}
