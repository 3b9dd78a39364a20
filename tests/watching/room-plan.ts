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
