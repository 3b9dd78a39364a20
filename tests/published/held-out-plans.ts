/** Four invented rooms, quite different from each other, as an examiner would type them in. */

/** Metric; one variety; membrane nitrogen of three purities; carbon beds; a pressure test; wooden bins. */
export const METRIC = `
lotwright: 1
season: { name: Exam A, starts: 2026-08-24, ends: 2027-07-25, carton: 18 kg, outside-temperature: 19 °C }
bins:
  wood: { outside: { length: 1.20 m, width: 1.00 m, height: 0.75 m }, net-fruit: 330 kg, tare: 55 kg, material: wood }
plant:
  scrubbers:
    S: { kind: carbon, removal: 24 kg/day, at-level: 3 %, beds: { number: 2, carbon: 120 kg, adsorb: 8 min, regenerate: 8 min } }
  nitrogen:
    N: { kind: membrane, flows: [{ purity: 97 %, flow: 60 m3/h }, { purity: 99 %, flow: 32 m3/h }, { purity: 99.5 %, flow: 22 m3/h }] }
rooms:
  A:
    inside: { length: 15.2 m, width: 7.4 m, height: 6.6 m }
    bin-type: wood
    clearance: { walls: 25 cm, ceiling: 80 cm, gap: 5 cm }
    lost-places: 6
    refrigeration: { capacity: 60 kW, half-time: 18 h }
    heat-transfer: 0.18 W/m2K
    tightness: { from: 250 Pa, to: 125 Pa, after: 24 min }
    scrubber: S
    nitrogen: N
varieties:
  Gala:
    respiration: [{ at: 0 °C, rate: 3 mg/kg/h }, { at: 1 °C, rate: 3.5 mg/kg/h }, { at: 10 °C, rate: 9 mg/kg/h }, { at: 20 °C, rate: 20 mg/kg/h }]
    respiration-in-store: 0.4
regimes:
  gala-exam: { varieties: [Gala], temperature: 1 °C, oxygen: 1.5 %, carbon-dioxide: 2 %, humidity: 94 %, storage-life: 7 months }
lots:
  L1: { variety: Gala, picked: 2026-09-02..2026-09-04, bins: 240, field-temperature: 20 °C }
  L2: { variety: Gala, picked: 2026-09-05..2026-09-07, bins: 210, field-temperature: 17 °C }
fills:
  F: { room: A, regime: gala-exam, first-bin: 2026-09-02, last-bin: 2026-09-11, sealed: 2026-09-13, lots: { L1: 240, L2: 210 }, open: 2027-W01 }
`;

/** US units all through; the planner's own variety, its rate between two points of its table; lime; Washington's law. */
export const US_UNITS = `
lotwright: 1
season: { name: Exam B, starts: 2026-08-24, ends: 2027-07-25, units: us, carton: 40 lb, outside-temperature: 72 °F }
bins:
  wood-48: { outside: { length: 48 in, width: 48 in, height: 29 in }, net-fruit: 880 lb, tare: 140 lb, material: wood }
plant:
  scrubbers:
    LIME: { kind: lime, removal: 55 lb/day, at-level: 1 %, charge: 17000 lb }
  nitrogen:
    N: { kind: adsorption, flows: [{ purity: 98 %, flow: 75 cfm }, { purity: 99.5 %, flow: 40 cfm }] }
rooms:
  B:
    inside: { length: 60 ft, width: 31 ft, height: 24 ft }
    bin-type: wood-48
    clearance: { walls: 10 in, ceiling: 32 in, gap: 2 in }
    refrigeration: { capacity: 20 TR, half-time: 20 h }
    heat-transfer: 0.032 BTU/hft2°F
    tightness: { from: 1 in w.g., to: 0.5 in w.g., after: 22 min }
    scrubber: LIME
    nitrogen: N
    law: washington
varieties:
  Bench Red:
    respiration: [{ at: 32 °F, rate: 3 mg/kg/h }, { at: 41 °F, rate: 6 mg/kg/h }, { at: 50 °F, rate: 9 mg/kg/h }, { at: 68 °F, rate: 20 mg/kg/h }]
    respiration-in-store: 0.5
    storage-life: 9 months
regimes:
  red-exam: { varieties: [Bench Red], temperature: 34 °F, oxygen: 2 %, carbon-dioxide: 1 %, humidity: 92 %, storage-life: 9 months }
lots:
  L1: { variety: Bench Red, picked: 2026-09-10..2026-09-14, bins: 400, field-temperature: 70 °F }
  L2: { variety: Bench Red, picked: 2026-09-15..2026-09-18, bins: 380, field-temperature: 66 °F }
fills:
  F: { room: B, regime: red-exam, first-bin: 2026-09-10, last-bin: 2026-09-20, sealed: 2026-09-23, lots: { L1: 400, L2: 380 }, open: 2027-W14 }
`;

/** Two varieties with values of their own; nitrogen whose purity does not reach the set-point; a breather bag. */
export const TWO_VARIETIES = `
lotwright: 1
season: { name: Exam C, starts: 2026-08-24, ends: 2027-07-25, carton: 18 kg, outside-temperature: 16 °C }
bins:
  plastic: { outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic, solid-volume: 42 L }
plant:
  scrubbers:
    S: { kind: carbon, removal: 40 kg/day, at-level: 3 %, beds: { number: 2, carbon: 160 kg, adsorb: 10 min, regenerate: 9 min } }
  nitrogen:
    N: { kind: adsorption, flows: [{ purity: 98 %, flow: 90 m3/h }] }
rooms:
  C:
    inside: { length: 18.6 m, width: 9.0 m, height: 7.6 m }
    bin-type: plastic
    places: 825
    equipment-volume: 6 m3
    refrigeration: { capacity: 85 kW, half-time: 15 h }
    heat-transfer: 0.2 W/m2K
    tightness: { from: 250 Pa, to: 150 Pa, after: 25 min }
    breather-bag: 3 m3
    scrubber: S
    nitrogen: N
varieties:
  Golden Delicious:
    respiration: [{ at: 0 °C, rate: 3.2 mg/kg/h }, { at: 1.5 °C, rate: 4 mg/kg/h }, { at: 20 °C, rate: 22 mg/kg/h }]
    respiration-in-store: 0.35
    transpiration: 58 ng/kg/s/Pa
  Jonagold:
    respiration: [{ at: 0 °C, rate: 2.8 mg/kg/h }, { at: 1.5 °C, rate: 3.4 mg/kg/h }, { at: 20 °C, rate: 21 mg/kg/h }]
    respiration-in-store: 0.45
    respiratory-quotient: 1.1
regimes:
  mixed: { varieties: [Golden Delicious, Jonagold], temperature: 1.5 °C, oxygen: 1.5 %, carbon-dioxide: 2.5 %, humidity: 93 %, storage-life: 7 months }
lots:
  L1: { variety: Golden Delicious, picked: 2026-09-14..2026-09-17, bins: 500, field-temperature: 18 °C }
  L2: { variety: Jonagold, picked: 2026-09-18..2026-09-21, bins: 310, field-temperature: 16 °C }
fills:
  F: { room: C, regime: mixed, first-bin: 2026-09-14, last-bin: 2026-09-23, sealed: 2026-09-25, lots: { L1: 500, L2: 310 }, open: 2027-W05 }
`;

/** Pears below freezing point of water; liquid nitrogen; a small scrubber that settles above the set-point. */
export const PEARS = `
lotwright: 1
season: { name: Exam D, starts: 2026-08-17, ends: 2027-06-25, carton: 18 kg, outside-temperature: 24 °C }
bins:
  wood-500: { outside: { length: 1.50 m, width: 1.20 m, height: 0.70 m }, net-fruit: 500 kg, tare: 63.5 kg, material: wood }
plant:
  scrubbers:
    S: { kind: carbon, removal: 18 kg/day, at-level: 3 % }
  nitrogen:
    N: { kind: liquid, flows: [{ purity: 100 %, flow: 150 m3/h }] }
rooms:
  D:
    inside: { length: 14.7 m, width: 14.7 m, height: 4.2 m }
    bin-type: wood-500
    places: 340
    refrigeration: { capacity: 120 kW, half-time: 12 h }
    heat-transfer: 0.3 W/m2K
    tightness: { from: 250 Pa, to: 125 Pa, after: 31 min }
    scrubber: S
    nitrogen: N
varieties:
  Bartlett:
    respiration: [{ at: -1 °C, rate: 4 mg/kg/h }, { at: 5 °C, rate: 10 mg/kg/h }, { at: 20 °C, rate: 40 mg/kg/h }]
    respiration-in-store: 0.5
regimes:
  bartlett-exam: { varieties: [Bartlett], temperature: -1 °C, oxygen: 2.5 %, carbon-dioxide: 1 %, humidity: 95 %, storage-life: 4 months }
lots:
  L1: { variety: Bartlett, picked: 2026-08-20..2026-08-24, bins: 330, field-temperature: 21 °C }
fills:
  F: { room: D, regime: bartlett-exam, first-bin: 2026-08-20, last-bin: 2026-08-24, sealed: 2026-08-27, lots: { L1: 330 }, open: 2026-W47 }
`;
