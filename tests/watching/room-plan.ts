/** A plan of one sealed room with one lot; what is not given stands as it is written here. */
export function planText({
  variety = 'Gala',
  firmness = '83 N',
  life = '200 days',
  progress,
  more = '',
}: {
  readonly variety?: string;
  readonly firmness?: string;
  readonly life?: string;
  readonly progress?: string;
  readonly more?: string;
}): string {
  return `lotwright: 1
season: { name: Example, starts: 2026-08-31, ends: 2027-06-30, carton: 18 kg }
bins:
  plastic:
    outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }
    net-fruit: 300 kg
    tare: 38 kg
    material: plastic
rooms:
  R1:
    inside: { length: 13.1 m, width: 4.8 m, height: 5.8 m }
    bin-type: plastic
    refrigeration: { capacity: 16 kW }
    tightness: { from: 250 Pa, to: 125 Pa, after: 26 min }
    law: washington
lots:
  L1: { variety: ${variety}, picked: 2026-09-08..2026-09-12, bins: 200, received: 200, field-temperature: 18 °C,
        maturity: { tested: 2026-09-08, starch: 2.8, firmness: ${firmness} } }
regimes:
  cold: { varieties: [${variety}], temperature: 1 °C, oxygen: 1.5 %, carbon-dioxide: 2 %, storage-life: ${life} }
fills:
  R1-fill:
    room: R1
    regime: cold
    first-bin: 2026-09-08
    last-bin: 2026-09-16
    sealed: 2026-09-18
    lots: { L1: 200 }
${progress === undefined ? '' : `progress:\n  R1-fill: { ${progress} }\n`}${more}`;
}

/** The plan with a scrubber and nitrogen, so that its room is at its set-point some days after sealing. */
export function withPlant(text: string): string {
  return `${text.replace('    tightness:', '    scrubber: S1\n    nitrogen: N1\n    tightness:')}plant:
  scrubbers:
    S1: { kind: carbon, removal: 60 kg/day, at-level: 3 %, beds: { number: 2, carbon: 90 kg, adsorb: 8 min, regenerate: 8 min } }
  nitrogen:
    N1: { kind: membrane, flows: [{ purity: 97 %, flow: 60 m3/h }, { purity: 99.5 %, flow: 26 m3/h }] }
`;
}
