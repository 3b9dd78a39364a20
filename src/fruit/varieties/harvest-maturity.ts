/**
 * Harvest firmness (lbf, 11 mm probe) that suits each storage term, and starch (one-to-eight scale): `mature` suits
 * long storage, from `overMature` on only short storage or air.
 * Michigan State University Extension, Checking apple maturity: what to look for, Table 1.
 */
export const harvestMaturity: Readonly<
  Record<
    string,
    {
      readonly short: number;
      readonly mid: number;
      readonly long: number;
      readonly mature: number;
      readonly overMature: number;
    }
  >
> = {
  Braeburn: { short: 16, mid: 17, long: 18, mature: 3, overMature: 7 },
  Cortland: { short: 14, mid: 15, long: 16, mature: 4, overMature: 6 },
  Empire: { short: 14, mid: 15, long: 16, mature: 3.5, overMature: 6 },
  Fuji: { short: 16, mid: 17, long: 18, mature: 3, overMature: 7 },
  Gala: { short: 16, mid: 17, long: 18, mature: 3, overMature: 6 },
  'Golden Delicious': { short: 15, mid: 16, long: 17, mature: 3, overMature: 6.5 },
  Honeycrisp: { short: 15, mid: 16, long: 17, mature: 3.5, overMature: 7 },
  Idared: { short: 14, mid: 15, long: 16, mature: 3.5, overMature: 6 },
  Jonagold: { short: 15, mid: 16, long: 17, mature: 3.5, overMature: 5.5 },
  Jonathan: { short: 14, mid: 15, long: 16, mature: 3.5, overMature: 5.5 },
  McIntosh: { short: 14, mid: 15, long: 16, mature: 5, overMature: 7 },
  Mutsu: { short: 16, mid: 17, long: 18, mature: 3, overMature: 6 },
  'Northern Spy': { short: 16, mid: 17, long: 18, mature: 3, overMature: 6 },
  Delicious: { short: 16, mid: 17, long: 18, mature: 2.5, overMature: 5 },
  Rome: { short: 15, mid: 16, long: 18, mature: 3, overMature: 5.5 },
  Spartan: { short: 17, mid: 18, long: 19, mature: 4, overMature: 6 },
  Winesap: { short: 17, mid: 18, long: 19, mature: 2.5, overMature: 6 },
};
