/** The plan that the language reference shows; a test reads it and computes it. The place is invented. */
export const examplePlan = `lotwright: 1

season:
  name: Harvest 2026
  starts: 2026-08-24
  ends: 2027-07-25
  carton: 18 kg
  currency: EUR

bins:
  plastic-1200:
    outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }
    net-fruit: 300 kg
    tare: 38 kg
    material: plastic

plant:
  scrubbers:
    S1: { kind: carbon, removal: 60 kg/day, at-level: 3 % }
  nitrogen:
    N1: { kind: membrane, flows: [{ purity: 97 %, flow: 60 m3/h }, { purity: 99 %, flow: 30 m3/h }] }

rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: 42 kW }
    tightness: { from: 250 Pa, to: 125 Pa, after: 30 min, tested: 2026-08-12 }
    scrubber: S1
    nitrogen: N1

regimes:
  gala-own: # the planner's own; many are built in
    varieties: [Gala]
    temperature: 0.8 °C
    oxygen: 1.5 %
    carbon-dioxide: 1.8 %
    storage-life: 7 months
    source: own records 2019 to 2025

lots:
  L1: { variety: Gala, picked: 2026-09-03..2026-09-05, bins: 140, received: 136 }
  L2:
    variety: Gala
    block: Long Meadow
    picked: 2026-09-07
    bins: 100
    maturity: { tested: 2026-09-06, starch: 3.0, firmness: 78 N, soluble-solids: 12.0 % }

fills:
  R1-gala:
    room: R1
    regime: gala-own
    first-bin: 2026-09-03
    last-bin: 2026-09-08
    sealed: 2026-09-10
    lots: { L1: 136, L2: 60 }

demand:
  gala-home:
    market: home
    variety: Gala
    class: first
    weeks: 2027-W01..2027-W04
    cartons: 450
    price: 22.50

packing:
  bins-a-week: 120
  packout:
    Gala: { shares: { first: 62 %, second: 18 % }, loss-a-month: 1.2 % }

policy:
  arrivals: evenly # bins wait in the yard so that every day of a fill takes as many
`;
