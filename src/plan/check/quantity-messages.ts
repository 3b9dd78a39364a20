import type { Fix, Problem } from '../problem';
import {
  type Dimension,
  dimensions,
  dimensionsOf,
  parseQuantity,
  type Quantity,
  toUnit,
  unitSpellings,
} from '../quantity';
import { listed, quoted } from '../text/say';
import { type Checked, nameOf, problemAt } from './checked';
import { MOST_VALUE } from './good-text';
import { digitsOf, withoutNoughts } from './letters-for-digits';
import { exampleOf } from './schema';

/** Two numbers with a unit each, as feet and inches are written. */
const TWO_UNITS = /^(\d+(?:\.\d+)?)\s*([a-z']+)[\s,]*(\d+(?:\.\d+)?)\s*([a-z'"]+)\.?$/i;
const EXPONENT = /^([+-]?)(\d+)\.?(\d*)e([+-]?\d+)\s*(.*)$/i;
/** Digits by which the point is moved at most: far more than any quantity has. */
const MOST_SHIFT = 40;
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
export function aDimension(dimension: Dimension): string {
  return `${/^[aeiou]/.test(dimension) ? 'an' : 'a'} ${dimension}`;
}

type Tell = (code: string, message: string, newTexts?: readonly string[]) => Problem;

/** A value that is no quantity of the dimension expected: which unit is missing, wrong or not known. */
export function quantityProblem(checked: Checked, text: string): Problem {
  const { schema, node } = checked;
  const dimension = schema['x-dimension'] as Dimension;
  const example = `for example \`${exampleOf(schema) ?? ''}\``;
  const name = `\`${nameOf(checked)}\``;
  const tell: Tell = (code, message, newTexts = []) =>
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
        ...Object.keys(dimensions[dimension]).flatMap((unit) =>
          numbersMeant(text).map((number) => `${number} ${unit}`),
        ),
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
  const [first] = unitMeant.length > 0 ? [] : inOneUnit(text, dimension);
  if (first !== undefined)
    return tell(
      'unknown-unit',
      `${quoted(text)} has more than one unit. Write it in one: ${quoted(first)}.`,
      [first],
    );
  const digits = numberLikeLetters(text, dimension);
  if (digits !== undefined)
    return tell(
      'not-a-quantity',
      `${quoted(text)} is not ${aDimension(dimension)}: a letter stands where a digit belongs. Write ${quoted(digits)} if that is meant, or the right number.`,
      [digits],
    );
  const inFull = writtenInFull(text);
  if (inFull !== undefined) return beyondLimits(checked, inFull) ?? exponentProblem(tell, checked, inFull);
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

function exponentProblem(tell: Tell, { node, schema }: Checked, inFull: string): Problem {
  const text = quoted(node.kind === 'scalar' ? String(node.value) : '');
  const [found] = readable(inFull, schema['x-dimension'] as Dimension);
  if (found !== undefined)
    return tell('not-a-quantity', `${text} has an exponent. Write the number in full: ${quoted(found)}.`, [
      found,
    ]);
  const example = quoted(exampleOf(schema) ?? '');
  return tell('not-a-quantity', `${text} has an exponent. Write the number in full, for example ${example}.`);
}

/** `02` is two, or a point is missing and it is 0.2: whoever wrote it knows. */
function numbersMeant(text: string): string[] {
  const [, sign = '', rest] = /^([+-]?)0(\d+)$/.exec(text) ?? [];
  return rest === undefined ? [text] : [`${sign}${withoutNoughts(rest)}`, `${sign}0.${rest}`];
}

/** `1.O %` as the quantity it looks like. `O2 %` may as well be the sign of oxygen: nothing is offered for it. */
function numberLikeLetters(text: string, dimension: Dimension): string | undefined {
  const match = /^([+-]?)([\dOolI]*\.?[\dOolI]+)(\s*\S.*)$/.exec(text);
  const [, sign = '', number = '', unit = ''] = match ?? [];
  if (!/\d/.test(number) || !/[OolI]/.test(number) || /^O\d/i.test(number)) return undefined;
  const [found] = readable(`${sign}${withoutNoughts(digitsOf(number))}${unit}`, dimension);
  return found;
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

/** `15.75 ft` for `15 ft 9 in`: the sum in the unit that stands first; empty where the text is no such pair. */
function inOneUnit(text: string, dimension: Dimension): string[] {
  const match = TWO_UNITS.exec(text);
  if (!match) return [];
  const [, one = '', many = '', few = ''] = match;
  const [large] = inKnownUnit(one, many, dimension);
  const [small] = inKnownUnit(few, match[4] ?? '', dimension);
  if (!large || !small || large.unit === small.unit || large.value < 0) return [];
  const sum = toUnit(large.value + small.value, dimension, large.unit);
  return [`${Number(sum.toPrecision(6))} ${large.unit}`];
}

/** A number with its unit, however that is spelled. */
function inKnownUnit(number: string, unit: string, dimension: Dimension): Quantity[] {
  const [meant = `${number} ${unit}`] = meantUnit(`${number} ${unit}`, dimension);
  const read = parseQuantity(meant, dimension);
  return read ? [read] : [];
}

/** `1000 kg` for `1e3 kg`; undefined where the number has no exponent. What is beyond all limits stays beyond them. */
function writtenInFull(text: string): string | undefined {
  const match = EXPONENT.exec(text);
  if (!match) return undefined;
  const [, sign = '', whole = '', part = '', power = '', unit = ''] = match;
  const shift = Math.max(-MOST_SHIFT, Math.min(MOST_SHIFT, Number(power)));
  const digits = `${'0'.repeat(MOST_SHIFT)}${whole}${part}${'0'.repeat(MOST_SHIFT)}`;
  const point = MOST_SHIFT + whole.length + shift;
  const before = digits.slice(0, point).replace(/^0+(?=\d)/, '');
  const after = digits.slice(point).replace(/0+$/, '');
  return `${sign}${before}${after === '' ? '' : `.${after}`} ${unit}`.trim();
}

/** The quantity as the plan language writes it, or with the unit that was probably meant; empty where it is none. */
export function readable(text: string, dimension: Dimension): string[] {
  return parseQuantity(text, dimension) ? [text] : meantUnit(text, dimension);
}

function write({ node }: Checked, newText: string): Fix {
  const at = { file: '', start: node.start, end: node.end };
  return { title: `Write \`${newText}\``, edits: [{ at, newText }] };
}

/** A quantity that is written otherwise than it may be, and beyond the limits of its key as well. */
function beyondLimits(checked: Checked, inFull: string): Problem | undefined {
  const read = parseQuantity(inFull, checked.schema['x-dimension'] as Dimension);
  return read && limitProblem(checked, read.value, read.unit);
}

/** A quantity outside what makes sense for its key; undefined where it is within. `unit` is the planner's. */
export function limitProblem(
  checked: Checked,
  value: number,
  unit = writtenUnit(checked),
): Problem | undefined {
  const { schema, node } = checked;
  const inUnit = (limit: number) =>
    `${Number(toUnit(limit, schema['x-dimension'] as Dimension, unit).toPrecision(6))} ${unit}`;
  const { 'x-above': above, 'x-least': least, 'x-most': most = MOST_VALUE } = schema;
  const expected =
    above !== undefined && value <= above
      ? `above ${inUnit(above)}`
      : least !== undefined && value < least
        ? `${inUnit(least)} or more`
        : value > most
          ? `${inUnit(most)} or less`
          : undefined;
  if (expected === undefined || node.kind !== 'scalar') return undefined;
  return problemAt(
    checked,
    'out-of-range',
    `${quoted(String(node.value))} cannot be: \`${nameOf(checked)}\` must be ${expected}.`,
    node,
  );
}

function writtenUnit({ schema, node }: Checked): string {
  const dimension = schema['x-dimension'] as Dimension;
  const written = node.kind === 'scalar' ? parseQuantity(String(node.value), dimension) : undefined;
  return written?.unit ?? schema['x-unit'] ?? '';
}
