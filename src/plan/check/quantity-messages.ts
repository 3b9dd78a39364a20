import type { Fix, Problem } from '../problem';
import { type Dimension, dimensions, dimensionsOf, parseQuantity, toUnit, unitSpellings } from '../quantity';
import { listed, quoted } from '../text/say';
import { type Checked, nameOf, problemAt } from './checked';
import { MOST_VALUE } from './good-text';
import { exampleOf } from './schema';

const NUMBER = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)$/;

/** How planners write units that the plan language spells otherwise. Lower case, without full stops. */
const OTHER_SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  m: ['metre', 'metres', 'meter', 'meters'],
  cm: ['centimetre', 'centimetres', 'centimeter', 'centimeters'],
  mm: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
  ft: ['foot', 'feet', "'"],
  in: ['inch', 'inches', '"', "''"],
  m3: ['m^3', 'cbm', 'cubic metres', 'cubic meters'],
  L: ['litre', 'litres', 'liter', 'liters'],
  ft3: ['ft^3', 'cu ft', 'cubic feet'],
  kg: ['kilo', 'kilos', 'kgs'],
  lb: ['lbs', 'pound', 'pounds'],
  t: ['tonne', 'tonnes', 'mt'],
  oz: ['ounce', 'ounces'],
  '°C': ['degc', 'deg c', 'celsius', 'º c', 'ºc', '℃', '° c', 'degrees celsius'],
  '°F': ['degf', 'deg f', 'fahrenheit', 'ºf', '℉', '° f', 'degrees fahrenheit'],
  '%': ['percent', 'per cent', 'pct', 'vol%', '% vol', 'vol %'],
  N: ['newton', 'newtons'],
  kgf: ['kg', 'kilo', 'kg/cm2'],
  lbf: ['lb', 'lbs', 'pounds'],
  TR: ['ton', 'tons', 'tons of refrigeration'],
  'BTU/h': ['btuh', 'btu/hr'],
  'm3/h': ['m3/hr', 'cbm/h', 'm^3/h'],
  'kg/day': ['kg/d', 'kg a day'],
  'lb/day': ['lb/d', 'lbs/day'],
  min: ['minute', 'minutes', 'mins'],
  h: ['hour', 'hours', 'hr', 'hrs'],
  s: ['sec', 'second', 'seconds'],
  weeks: ['wk', 'wks'],
  months: ['mo'],
  inH2O: ['inwc', 'in wc', 'in wg', 'inch wg', '"wg'],
  'mg/kg/h': ['mg/kg/hr', 'mg/(kg h)', 'mg/kg h'],
};

/** `a length`, `an …`: the dimension with its article. */
function aDimension(dimension: Dimension): string {
  return `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension}`;
}

/** A value that is no quantity of the dimension expected: which unit is missing, wrong or not known. */
export function quantityProblem(checked: Checked, text: string): Problem {
  const { schema, node } = checked;
  const dimension = schema['x-dimension'] as Dimension;
  const example = `for example \`${exampleOf(schema) ?? ''}\``;
  const name = `\`${nameOf(checked)}\``;
  const tell = (code: string, message: string, newTexts: readonly string[] = []) =>
    problemAt(
      checked,
      code,
      message,
      node,
      newTexts.map((newText) => write(checked, newText)),
    );
  if (NUMBER.test(text))
    return tell(
      'unit-missing',
      `${quoted(text)} has no unit. ${name} is ${aDimension(dimension)}, ${example}.`,
      [
        ...fractionAsPerCent(text, dimension),
        ...Object.keys(dimensions[dimension]).map((unit) => `${text} ${unit}`),
      ],
    );
  const others = dimensionsOf(text);
  const unitMeant = meantUnit(text, dimension);
  if (others[0])
    return tell(
      'wrong-dimension',
      `${quoted(text)} is ${aDimension(others[0])}; ${aDimension(dimension)} is expected, ${example}.`,
      unitMeant,
    );
  if (/^[+-]?\d+,\d+/.test(text))
    return tell(
      'not-a-quantity',
      `${quoted(text)} has a decimal comma. Write a point, ${example}.`,
      readable(text.replace(',', '.'), dimension),
    );
  if (/^[+-]?[\d.]/.test(text))
    return tell(
      'unknown-unit',
      `${quoted(text)} has a unit that is not known here. ${name} is written in ${listed(Object.keys(dimensions[dimension]), 'or')}, ${example}.`,
      unitMeant,
    );
  return tell(
    'not-a-quantity',
    `${quoted(text)} is not ${aDimension(dimension)}: a number and a unit are expected, ${example}.`,
  );
}

/** A share written as a fraction of one. */
function fractionAsPerCent(text: string, dimension: Dimension): string[] {
  const fraction = Number(text);
  return dimension === 'share' && fraction > 0 && fraction <= 1
    ? [`${Number((fraction * 100).toPrecision(10))} %`]
    : [];
}

/** The quantity with the unit that was probably meant. */
function meantUnit(text: string, dimension: Dimension): string[] {
  const match = /^([+-]?(?:\d+(?:\.\d+)?|\.\d+))\s*(.*)$/.exec(text);
  const [, number = '', unit = ''] = match ?? [];
  const written = unit.toLowerCase().replace(/\.$/, '');
  if (written === '') return [];
  const known = unitSpellings(dimension);
  const found =
    known.find((spelling) => spelling.toLowerCase() === written) ??
    Object.keys(dimensions[dimension]).find((spelling) => OTHER_SPELLINGS[spelling]?.includes(written));
  return found && found !== unit ? [`${number} ${found}`] : [];
}

function readable(text: string, dimension: Dimension): string[] {
  return parseQuantity(text, dimension) ? [text] : meantUnit(text, dimension);
}

function write({ node }: Checked, newText: string): Fix {
  const at = { file: '', start: node.start, end: node.end };
  return { title: `Write \`${newText}\``, edits: [{ at, newText }] };
}

/** A quantity outside what makes sense for its key; undefined where it is within. */
export function limitProblem(checked: Checked, value: number): Problem | undefined {
  const { schema, node } = checked;
  const { 'x-above': above, 'x-least': least, 'x-most': most = MOST_VALUE } = schema;
  const expected =
    above !== undefined && value <= above
      ? `above ${inUnit(above, checked)}`
      : least !== undefined && value < least
        ? `${inUnit(least, checked)} or more`
        : value > most
          ? `${inUnit(most, checked)} or less`
          : undefined;
  if (expected === undefined || node.kind !== 'scalar') return undefined;
  return problemAt(
    checked,
    'out-of-range',
    `${quoted(String(node.value))} cannot be: \`${nameOf(checked)}\` must be ${expected}.`,
    node,
  );
}

/** A limit in the unit the planner wrote. */
function inUnit(limit: number, { schema, node }: Checked): string {
  const dimension = schema['x-dimension'] as Dimension;
  const written = node.kind === 'scalar' ? parseQuantity(String(node.value), dimension) : undefined;
  const unit = written?.unit ?? schema['x-unit'] ?? '';
  return `${Number(toUnit(limit, dimension, unit).toPrecision(6))} ${unit}`;
}
