import { between, one, type Printed } from './printed';
import { commonPractice, remark, sources } from './sources';
import { handbook66 } from './varieties/handbook-66';
import { holdingTemperatures } from './varieties/holding-temperatures';

/** A regime as its source prints it. */
export interface RegimeRow {
  readonly name: string;
  readonly varieties: readonly string[];
  readonly temperature: Printed;
  readonly oxygen?: Printed;
  readonly carbonDioxide?: Printed;
  readonly storageLife?: Printed;
  readonly softening?: Printed;
  readonly conditioning?: { readonly temperature: Printed; readonly lasts: Printed };
}

/** A variety's regime by the handbook's table. */
export function fromHandbook(name: string, variety: string): RegimeRow {
  const row = handbook66[variety];
  if (!row) throw new RangeError(`${variety} is not in the handbook's table`);
  const source = sources.handbook66Apples;
  return {
    name,
    varieties: [variety],
    temperature: between(...row.temperature, '°C', source),
    oxygen: between(...row.oxygen, '%', source),
    carbonDioxide: between(...row.carbonDioxide, '%', source),
    storageLife: between(...row.store, 'months', source),
  };
}

/** A variety in cold air by the handbook's table. */
export function fromHandbookInAir(name: string, variety: string): RegimeRow {
  const row = handbook66[variety];
  if (!row) throw new RangeError(`${variety} is not in the handbook's table`);
  const source = sources.handbook66Apples;
  return {
    name,
    varieties: [variety],
    temperature: between(...row.temperature, '°C', source),
    storageLife: between(...row.air, 'months', source),
  };
}

/** The temperature recommended for a variety, by the review or else by common practice. */
export function meanTemperature(name: string): Printed {
  const review = holdingTemperatures[name];
  if (review) {
    const count = `mean of ${review.recommendations} recommendations for CA`;
    return one(review.mean, '°C', remark(sources.prangeWright, count));
  }
  if (['Anjou', 'Bartlett', 'Bosc'].includes(name)) return between(-1, 0, '°C', sources.ucDavisWinterPears);
  return one(0.5, '°C', commonPractice('Usual for apples that are not sensitive to chilling'));
}
