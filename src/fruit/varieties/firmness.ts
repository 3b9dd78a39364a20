import { between, one, type Printed } from '../printed';
import { commonPractice, remark, sources } from '../sources';
import type { Ripens } from './names';

/** Firmness below which the fruit should not be sold: law where a law speaks of the variety, else what buyers ask. */
const leastExit: Readonly<Record<string, Printed>> = {
  Anjou: one(
    10,
    'lbf',
    commonPractice('Winter pears are packed hard and soften after sale; 10 lbf when packed'),
  ),
  Bartlett: one(12, 'lbf', commonPractice('Pears are packed hard and soften after sale; 12 lbf when packed')),
  Bosc: one(
    10,
    'lbf',
    commonPractice('Winter pears are packed hard and soften after sale; 10 lbf when packed'),
  ),
  Braeburn: one(6.8, 'kgf', remark(sources.niabBraeburn, 'at dispatch')),
  "Bramley's Seedling": one(6.5, 'kgf', sources.ukBuyers),
  "Cox's Orange Pippin": one(6.5, 'kgf', sources.ukBuyers),
  Delicious: one(12, 'lbf', sources.washingtonFirmness),
  Gala: one(11, 'lbf', sources.washingtonFirmness),
  'Golden Delicious': one(10, 'lbf', sources.washingtonFirmness),
  Jonagold: one(11, 'lbf', sources.washingtonFirmness),
  McIntosh: one(45, 'N', sources.mcintoshFirmness),
};

const NO_RULE = 'No rule or buyer is on record for the variety;';

const byRule: Readonly<Record<Ripens, Printed>> = {
  late: one(11, 'lbf', commonPractice(`${NO_RULE} 11 lbf, as the Washington rule has for Gala and Jonagold`)),
  'mid-season': one(10, 'lbf', commonPractice(`${NO_RULE} 10 lbf, the lowest of the Washington rule`)),
  early: one(10, 'lbf', commonPractice(`${NO_RULE} 10 lbf, the lowest of the Washington rule`)),
};

export function leastExitFirmness(name: string, ripens: Ripens): Printed {
  return leastExit[name] ?? byRule[ripens];
}

/** Cox in its usual store (less than 1 % carbon dioxide, 1.2 % oxygen), a month. */
export const coxSoftening = between(0.1, 0.2, 'kgf', sources.niabSoftening);
/** Less than 1 % carbon dioxide, 2 % oxygen. */
export const coxSofteningAtTwoPercent = between(0.2, 0.3, 'kgf', sources.niabSoftening);
/** 5 % carbon dioxide, 3 % oxygen. */
export const coxSofteningAtFivePercent = between(0.3, 0.4, 'kgf', sources.niabSoftening);

/** Newtons a month in store. The trade tells soft from firm keepers; numbers of this kind are hardly published. */
const experience: Readonly<Record<string, number>> = {
  Ambrosia: 1.5,
  Anjou: 1.2,
  Bartlett: 3,
  Bosc: 1.5,
  Braeburn: 1.2,
  "Bramley's Seedling": 1.5,
  'Cripps Pink': 1.2,
  Delicious: 1.8,
  Empire: 1.6,
  Fuji: 1,
  Gala: 2,
  'Golden Delicious': 1.9,
  'Granny Smith': 1.2,
  Honeycrisp: 0.8,
  Idared: 1.2,
  Jonagold: 2.4,
  McIntosh: 2.2,
  Mutsu: 1.8,
  Rome: 1.2,
  Scifresh: 1.2,
  Scilate: 1.2,
  Spartan: 2,
};

const byRipening: Readonly<Record<Ripens, number>> = { late: 1.5, 'mid-season': 2.2, early: 4 };

/** Firmness lost in a month in store, in newtons or kilograms-force. */
export function softening(name: string, ripens: Ripens): Printed {
  if (name === "Cox's Orange Pippin") return coxSoftening;
  const known = experience[name];
  return one(
    known ?? byRipening[ripens],
    'N',
    commonPractice(
      known === undefined
        ? `Usual for ${ripens} varieties; no publication read`
        : 'General storage experience with the variety; no publication read',
    ),
  );
}

/** Firmness lost once, while the room is filled, cooled and brought to its gas. */
export function lossWhileFilling(name: string, ripens: Ripens): Printed {
  if (name === "Cox's Orange Pippin") return between(0.5, 1, 'kgf', sources.niabSoftening);
  const cox =
    'what the NIAB Apple Best Practice Guide gives for Cox, a fast softener, while its atmosphere is set up';
  return ripens === 'late'
    ? one(0.25, 'kgf', commonPractice(`Half the lower end of ${cox}; late varieties soften more slowly`))
    : one(0.5, 'kgf', commonPractice(`The lower end of ${cox}`));
}
