export type PaperSize = 'a4' | 'letter';

const SIZES: Readonly<Record<PaperSize, string>> = { a4: 'A4', letter: 'letter' };

/** Sizes are in points and millimetres: the pages are for printing, and lines and weights tell all that colours would. */
export function printStyle(size: PaperSize): string {
  return `
@page { size: ${SIZES[size]} portrait; margin: 11mm 11mm 12mm; }
* { box-sizing: border-box; }
body { margin: 0; color: #000; background: #fff; font: 8.2pt/1.22 "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
.page { break-after: page; }
.page:last-child { break-after: auto; }
.overview { font-size: 7.2pt; line-height: 1.15; }
.overview th, .overview td { padding: 0.2mm 0.7mm; }
header { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; border-bottom: 1pt solid #000; }
h1 { font-size: 15pt; line-height: 1.2; margin: 0 0 1mm; }
h2 { font-size: 10pt; margin: 3mm 0 1mm; break-after: avoid; }
p { margin: 1mm 0; }
header p { font-weight: bold; text-align: right; }
.caution { border: 1.2pt solid #000; padding: 1mm 1.6mm; font-weight: bold; }
.conflict::before { content: "Cannot be kept: "; font-weight: bold; }
table { border-collapse: collapse; width: 100%; margin: 1.5mm 0; }
thead { display: table-header-group; }
th { text-align: left; vertical-align: bottom; border-bottom: 0.8pt solid #000; padding: 0.3mm 1mm; }
td { vertical-align: top; border-bottom: 0.25pt solid #777; padding: 0.3mm 1mm; overflow-wrap: anywhere; }
tr { break-inside: avoid; }
th.number, td.number { text-align: right; font-variant-numeric: tabular-nums; }
td.number, td.day, td.week { white-space: nowrap; overflow-wrap: normal; }
.sides { display: grid; grid-template-columns: 1fr 1.5fr; gap: 5mm; align-items: start; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.5mm 3mm; margin: 1.5mm 0; }
dt { font-weight: bold; }
dd { margin: 0; }
@media screen {
  body { max-width: 190mm; margin: 6mm auto; padding: 0 4mm; font-size: 10pt; }
  .page { margin-bottom: 12mm; }
  .overview { font-size: 9pt; }
}
`;
}
