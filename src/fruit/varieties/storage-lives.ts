import { between, one, type Printed } from '../printed';
import { commonPractice, remark, sources } from '../sources';
import { handbook66 } from './handbook-66';
import type { Ripens } from './names';

interface Lives {
  readonly air?: Printed;
  readonly store?: Printed;
}

/**
 * Storage lives read in a publication; where there is one it goes before the handbook's months, which are from
 * memory. Lives for home and farm cold stores are long for trade purposes and are used only where nothing else is.
 */
const publishedLives: Readonly<Record<string, Lives>> = {
  Anjou: {
    air: between(5, 7, 'months', sources.handbook66Pears),
    store: between(7, 8, 'months', sources.handbook66Pears),
  },
  Bartlett: { air: one(2, 'months', sources.chu), store: one(4, 'months', sources.chu) },
  Bosc: {
    air: between(3, 4, 'months', sources.handbook66Pears),
    store: one(6, 'months', sources.oregonBosc),
  },
  "Cox's Orange Pippin": {
    store: one(
      6,
      'months',
      commonPractice(
        "From harvest in mid September to March, the end of long-term storage in the NIAB Apple Best Practice Guide, Cox's Orange Pippin and clones",
      ),
    ),
  },
  Delicious: {
    air: between(3, 5, 'months', sources.iowa),
    store: one(10, 'months', sources.ucDavisApples),
  },
  Gala: { store: between(4, 5, 'months', remark(sources.ucDavisApples, 'Gala')) },
  'Golden Delicious': {
    air: one(6, 'months', sources.ucDavisApples),
    store: one(10, 'months', sources.ucDavisApples),
  },
  Honeycrisp: {
    air: between(4, 5, 'months', sources.michiganHoneycrisp),
    store: between(
      6,
      9,
      'months',
      remark(sources.michiganHoneycrisp, '6 months and more reported in air, later protocols to 9 months'),
    ),
  },
  Jonagold: {
    air: one(50, 'days', remark(sources.drakeKupferman, 'at starch 2')),
    store: one(120, 'days', remark(sources.drakeKupferman, 'at starch 2')),
  },
  Jonathan: { air: one(120, 'days', sources.kansas) },
  McIntosh: { air: between(3, 4, 'months', sources.iowa) },
  Paulared: { air: one(90, 'days', sources.kansas) },
  Winesap: { air: one(220, 'days', sources.kansas) },
};

const NO_SOURCE = 'No publication gives this variety; taken as usual for varieties that ripen';

const byRipening: Readonly<Record<Ripens, Required<Lives>>> = {
  late: {
    air: between(3, 4, 'months', commonPractice(`${NO_SOURCE} late`)),
    store: between(7, 9, 'months', commonPractice(`${NO_SOURCE} late`)),
  },
  'mid-season': {
    air: between(2, 3, 'months', commonPractice(`${NO_SOURCE} in mid-season`)),
    store: between(5, 7, 'months', commonPractice(`${NO_SOURCE} in mid-season`)),
  },
  early: {
    air: between(1, 2, 'months', commonPractice(`${NO_SOURCE} early`)),
    store: between(3, 4, 'months', commonPractice(`${NO_SOURCE} early`)),
  },
};

/** Storage life in cold air: as published, else from the handbook, else by when the variety ripens. */
export function lifeInAir(name: string, ripens: Ripens): Printed {
  const row = handbook66[name];
  return (
    publishedLives[name]?.air ??
    (row && between(...row.air, 'months', sources.handbook66Apples)) ??
    byRipening[ripens].air
  );
}

/** Storage life in controlled atmosphere, likewise. */
export function lifeInStore(name: string, ripens: Ripens): Printed {
  const row = handbook66[name];
  return (
    publishedLives[name]?.store ??
    (row && between(...row.store, 'months', sources.handbook66Apples)) ??
    byRipening[ripens].store
  );
}
