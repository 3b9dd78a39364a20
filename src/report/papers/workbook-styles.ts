/** Cell formats by their place in `cellXfs`. */
export const FORMAT = {
  plain: 0,
  title: 1,
  caution: 2,
  heading: 3,
  day: 4,
  whole: 5,
  tenths: 6,
  hundredths: 7,
  wrapped: 8,
} as const;

/** Number formats: 164 is the first of one's own; 3 is `#,##0`, 4 is `#,##0.00`. */
const DAY_FORMAT = 164;
const TENTHS_FORMAT = 165;

const font = (inside: string) => `<font>${inside}<sz val="10"/><name val="Calibri"/></font>`;

const xf = (numFmt: number, fontId: number, border: number, alignment = '') =>
  `<xf numFmtId="${numFmt}" fontId="${fontId}" fillId="0" borderId="${border}" xfId="0" applyNumberFormat="1" applyFont="1" applyBorder="1" applyAlignment="1">${alignment || '<alignment vertical="top"/>'}</xf>`;

const wrapped = '<alignment vertical="top" wrapText="1"/>';

export const STYLES = [
  '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">',
  `<numFmts count="2"><numFmt numFmtId="${DAY_FORMAT}" formatCode="yyyy\\-mm\\-dd"/><numFmt numFmtId="${TENTHS_FORMAT}" formatCode="#,##0.0"/></numFmts>`,
  `<fonts count="3">${font('')}${font('<b/>')}<font><b/><sz val="14"/><name val="Calibri"/></font></fonts>`,
  '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>',
  '<borders count="2"><border><left/><right/><top/><bottom/><diagonal/></border><border><left/><right/><top/><bottom style="medium"/><diagonal/></border></borders>',
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
  '<cellXfs count="9">',
  xf(0, 0, 0),
  xf(0, 2, 0),
  xf(0, 1, 0, wrapped),
  xf(0, 1, 1, wrapped),
  xf(DAY_FORMAT, 0, 0),
  xf(3, 0, 0),
  xf(TENTHS_FORMAT, 0, 0),
  xf(4, 0, 0),
  xf(0, 0, 0, wrapped),
  '</cellXfs>',
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
  '</styleSheet>',
].join('');
