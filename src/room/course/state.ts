/**
 * What the integration carries, in one array of numbers: the gas in the room, and running totals of everything that
 * moved. Totals are integrated beside the gas with the same steps, so their balance with it closes to rounding.
 */
export const STATE = {
  /** Moles in the room's gas. Nitrogen stands for all gas that nobody makes or uses, argon too. */
  oxygen: 0,
  carbonDioxide: 1,
  nitrogen: 2,
  /** Moles the fruit has used and made since sealing. */
  oxygenUsed: 3,
  carbonDioxideMade: 4,
  /** Moles of carbon dioxide scrubbed. */
  scrubbed: 5,
  /** Moles of air that came in by leaks and weather, at changes of beds, and let in to hold oxygen. */
  airLeaked: 6,
  airAtBeds: 7,
  airLetIn: 8,
  /** Moles of gas from the nitrogen source, and the oxygen in it. */
  fed: 9,
  oxygenFed: 10,
  /** Moles that went out. */
  oxygenOut: 11,
  carbonDioxideOut: 12,
  nitrogenOut: 13,
  /** Kilograms of water that the fruit gave off. */
  water: 14,
  /** Moles of carbon dioxide made by fermentation; they are among `carbonDioxideMade`. */
  fermented: 15,
  /** Moles that a membrane let in from outside; less than nothing where more went out. */
  oxygenThroughMembrane: 16,
  nitrogenThroughMembrane: 17,
} as const;

export const STATE_SIZE = 18;

/** How many of them, from the first, set the step size: the gas itself. */
export const GAS_STATES = 3;

export const GAS_CONSTANT = 8.314462618;
export const ATMOSPHERE_PA = 101_325;
export const KELVIN = 273.15;
/** Kilograms to the mole. */
export const CARBON_DIOXIDE_KG = 44.0095e-3;

/** Shares by volume of outside air. */
export const AIR = { oxygen: 0.209, carbonDioxide: 0.0004, nitrogen: 0.7906 } as const;

/** Moles in a cubic metre of gas at a temperature and the standard atmosphere. */
export function molesPerCubicMetre(celsius: number): number {
  return ATMOSPHERE_PA / (GAS_CONSTANT * (celsius + KELVIN));
}
