/**
 * Mean recommended temperature in controlled atmosphere, °C, and the number of recommendations behind it.
 * Prange and Wright 2023, A Review of Storage Temperature Recommendations for Apples and Pears, Foods 12(3):466.
 * The review calls varieties at or below 1 °C insensitive to chilling, those above sensitive.
 */
export const holdingTemperatures: Readonly<
  Record<string, { readonly mean: number; readonly recommendations: number }>
> = {
  Mutsu: { mean: 0.0, recommendations: 5 },
  Delicious: { mean: 0.22, recommendations: 17 },
  'Granny Smith': { mean: 0.47, recommendations: 14 },
  'Lady Williams': { mean: 0.5, recommendations: 2 },
  Spartan: { mean: 0.58, recommendations: 6 },
  Gala: { mean: 0.61, recommendations: 27 },
  'Golden Delicious': { mean: 0.62, recommendations: 22 },
  Stayman: { mean: 0.62, recommendations: 2 },
  Fuji: { mean: 0.63, recommendations: 12 },
  Rome: { mean: 0.65, recommendations: 5 },
  'Northern Spy': { mean: 0.67, recommendations: 5 },
  Braeburn: { mean: 0.74, recommendations: 15 },
  Jonathan: { mean: 0.75, recommendations: 4 },
  'Cripps Red': { mean: 0.75, recommendations: 4 },
  Jonagold: { mean: 0.84, recommendations: 16 },
  Shampion: { mean: 0.84, recommendations: 5 },
  Ligol: { mean: 0.92, recommendations: 3 },
  Gloster: { mean: 0.94, recommendations: 4 },
  Ladina: { mean: 1.0, recommendations: 2 },
  Topaz: { mean: 1.0, recommendations: 2 },
  Cameo: { mean: 1.13, recommendations: 2 },
  Cortland: { mean: 1.16, recommendations: 9 },
  Ambrosia: { mean: 1.2, recommendations: 5 },
  Rubens: { mean: 1.22, recommendations: 3 },
  Elstar: { mean: 1.23, recommendations: 12 },
  Winesap: { mean: 1.25, recommendations: 1 },
  Pinova: { mean: 1.25, recommendations: 4 },
  GoldRush: { mean: 1.38, recommendations: 2 },
  Scilate: { mean: 1.5, recommendations: 2 },
  'Cripps Pink': { mean: 1.67, recommendations: 12 },
  Idared: { mean: 1.77, recommendations: 10 },
  Scifresh: { mean: 1.85, recommendations: 4 },
  Empire: { mean: 2.12, recommendations: 10 },
  McIntosh: { mean: 2.79, recommendations: 5 },
  Nicoter: { mean: 2.88, recommendations: 5 },
  Honeycrisp: { mean: 3.0, recommendations: 6 },
  "Cox's Orange Pippin": { mean: 3.5, recommendations: 5 },
  'Belle de Boskoop': { mean: 3.96, recommendations: 6 },
  Lobo: { mean: 4.12, recommendations: 2 },
  "Bramley's Seedling": { mean: 4.38, recommendations: 2 },
};

/** At or below this mean the review calls a variety insensitive to chilling, °C. */
export const CHILLING_SENSITIVE_ABOVE = 1;
