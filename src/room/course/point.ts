import { ethanolMade, heatOfFermentation, sugarFermented } from '../../fruit/fermentation';
import { usualHeatPerMilligram } from '../../fruit/respiration';
import { carbonDioxidePercent, oxygenPercent } from './controls';
import type { FruitRate } from './fruit-rate';
import { roomCelsius } from './fruit-temperature';
import { AIR, CARBON_DIOXIDE_KG, molesPerCubicMetre, STATE } from './state';
import type { CoursePoint, CourseRoom } from './types';

/** Dry matter used for each kilogram of carbon dioxide: glucose over six of carbon dioxide, 180.16 / (6 * 44.01). */
export const DRY_MATTER = 0.682;

/** The state in the units people read, at an hour. */
export function pointOf(hours: number, state: Float64Array, room: CourseRoom, fruit: FruitRate): CoursePoint {
  const of = (index: number) => state[index] ?? 0;
  const perM3 = molesPerCubicMetre(roomCelsius(room.temperature, hours));
  const [oxygen, carbonDioxide] = [oxygenPercent(state), carbonDioxidePercent(state)];
  const now = { carbonDioxide: 0, fermented: 0, oxygen: 0, water: 0 };
  fruit.at(hours, oxygen, carbonDioxide, now);
  const madeKg = of(STATE.carbonDioxideMade) * CARBON_DIOXIDE_KG;
  const fermentedKg = of(STATE.fermented) * CARBON_DIOXIDE_KG;
  const { joulesPerMilligram = usualHeatPerMilligram.value } = room.fruit;
  const heat =
    (now.carbonDioxide - now.fermented) * joulesPerMilligram + now.fermented * heatOfFermentation.value;
  const oxygenOfAir = (index: number) => (AIR.oxygen * of(index)) / perM3;
  return {
    hours,
    oxygen,
    carbonDioxide,
    nitrogen: 100 - oxygen - carbonDioxide,
    fruitCelsius: fruit.celsius(hours),
    // Milligrams an hour, joules for each, seconds to the hour, watts to the kilowatt.
    respirationKw: (heat * CARBON_DIOXIDE_KG * 1e6) / 3600 / 1000,
    carbonDioxideMadeKg: madeKg,
    fermentedKg,
    ethanolKg: fermentedKg * ethanolMade.value,
    oxygenUsedM3: of(STATE.oxygenUsed) / perM3,
    scrubbedKg: of(STATE.scrubbed) * CARBON_DIOXIDE_KG,
    oxygenLeakedInM3: oxygenOfAir(STATE.airLeaked),
    oxygenAtBedsM3: oxygenOfAir(STATE.airAtBeds),
    oxygenLetInM3: oxygenOfAir(STATE.airLetIn),
    oxygenThroughMembraneM3: of(STATE.oxygenThroughMembrane) / perM3,
    // At one temperature for all hours, or the total would fall while the room cools: that of sealing, when it is fed.
    nitrogenFedM3: of(STATE.fed) / molesPerCubicMetre(roomCelsius(room.temperature, 0)),
    oxygenFedM3: of(STATE.oxygenFed) / perM3,
    oxygenOutM3: of(STATE.oxygenOut) / perM3,
    carbonDioxideOutKg: of(STATE.carbonDioxideOut) * CARBON_DIOXIDE_KG,
    dryMatterLostKg: (madeKg - fermentedKg) * DRY_MATTER + fermentedKg * sugarFermented.value,
    waterLostKg: of(STATE.water),
  };
}
